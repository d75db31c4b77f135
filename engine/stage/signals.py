"""How the game makes itself noticed: how loud it is, and whether the cue clicks and flashes.

A cue that is neither seen nor heard would wait for a blip in vain, so no change leads there.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from enum import StrEnum

from drills.checks import Checks, ValueRefusal, show


class SignalsError(ValueRefusal):
    """Saved signals that cannot be used; the text is one line, without the place it is kept."""


class Volume(StrEnum):
    """How loud everything is."""

    OFF = "off"
    QUIET = "quiet"
    MEDIUM = "medium"
    LOUD = "loud"


SHARE: Mapping[Volume, float] = {
    Volume.OFF: 0.0,
    Volume.QUIET: 0.25,
    Volume.MEDIUM: 0.5,
    Volume.LOUD: 1.0,
}
"""1, of full scale: each step twice the one before, 6 dB, which is plainly heard as louder."""
_STEPS = tuple(Volume)

HEARD_NOT_SEEN = "The click is on now: a cue must be seen or heard."
HEARD_AGAIN = "The volume and the click are on now: a cue must be seen or heard."
SEEN_NOT_HEARD = "The flash is on now: a cue must be seen or heard."
NOTHING_ELSE = "The flash stays on: nothing else gives the cue without a speaker."


@dataclass(frozen=True)
class Signals:
    """What is wanted."""

    volume: Volume = Volume.MEDIUM
    """How loud everything is."""
    click: bool = True
    """Whether the cue clicks."""
    flash: bool = True
    """Whether the cue lights the whole screen."""

    @property
    def clicks(self) -> bool:
        """Whether the cue can be heard, where there is a speaker."""
        return self.click and self.volume is not Volume.OFF

    def as_data(self) -> dict[str, object]:
        """As plain data, to be saved."""
        return {"volume": self.volume.value, "click": self.click, "flash": self.flash}

    @staticmethod
    def from_data(data: object) -> Signals:
        """Signals that were saved. Raises SignalsError."""
        if not isinstance(data, dict) or set(data) != {"volume", "click", "flash"}:
            raise SignalsError("", "an object of volume, click and flash", show(data))
        checks = Checks(SignalsError)
        click, flash = (checks.truth(key, data[key]) for key in ("click", "flash"))
        return Signals(Volume(checks.choice("volume", data["volume"], _STEPS)), click, flash)


@dataclass(frozen=True)
class SignalChange:
    """What a change led to."""

    signals: Signals
    """What is wanted now."""
    said: str = ""
    """What else was changed with it, as a sentence; nothing where nothing was."""


def next_volume(now: Signals) -> SignalChange:
    """The next step of the volume; after the loudest comes off."""
    step = _STEPS[(_STEPS.index(now.volume) + 1) % len(_STEPS)]
    return _seen_or_heard(replace(now, volume=step))


def switch_click(now: Signals) -> SignalChange:
    """The click on or off."""
    return _seen_or_heard(replace(now, click=not now.click))


def switch_flash(now: Signals, *, speaker: bool) -> SignalChange:
    """The flash on or off; `speaker` says whether there is one."""
    if not now.flash:
        return SignalChange(replace(now, flash=True))
    if not speaker:
        return SignalChange(now, NOTHING_ELSE)
    if now.clicks:
        return SignalChange(replace(now, flash=False))
    if now.volume is Volume.OFF:
        return SignalChange(Signals(Volume.MEDIUM, click=True, flash=False), HEARD_AGAIN)
    return SignalChange(Signals(now.volume, click=True, flash=False), HEARD_NOT_SEEN)


def seen_at_least(change: SignalChange) -> SignalChange:
    """The same where there is no speaker: with the flash."""
    if change.signals.flash:
        return change
    return SignalChange(replace(change.signals, flash=True), NOTHING_ELSE)


def _seen_or_heard(wanted: Signals) -> SignalChange:
    """The flash comes on with a change that would leave no cue at all."""
    if wanted.clicks or wanted.flash:
        return SignalChange(wanted)
    return SignalChange(replace(wanted, flash=True), SEEN_NOT_HEARD)
