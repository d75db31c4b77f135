"""Settings for sound, light and motion: the volume, and what the player hears and sees.

No change may leave a cue that is neither seen nor heard, as the player could not answer it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from enum import StrEnum

from drills.checks import Checks, ValueRefusal, show


class SignalsError(ValueRefusal):
    """The saved settings for sound and light are invalid; one line, without the setting's name."""


class Volume(StrEnum):
    """Volumes that the player can choose for all sounds."""

    OFF = "off"
    QUIET = "quiet"
    MEDIUM = "medium"
    LOUD = "loud"


VOLUME_SHARES: Mapping[Volume, float] = {
    Volume.OFF: 0.0,
    Volume.QUIET: 10 ** (-20 / 20),
    Volume.MEDIUM: 10 ** (-10 / 20),
    Volume.LOUD: 1.0,
}
"""Volume of each choice as a share of full scale: steps of 10 dB, each about twice as loud."""
_VOLUMES = tuple(Volume)
_FIRST = ("click", "flash")
_LATER = ("ear", "motion")

CLICK_ON = "The click is on now: a cue must be seen or heard."
VOLUME_AND_CLICK_ON = "The volume and the click are on now: a cue must be seen or heard."
FLASH_ON = "The flash is on now: a cue must be seen or heard."
FLASH_STAYS_ON = "The flash stays on: nothing else gives the cue without a speaker."
MOTION_STAYS_OFF = "It stays off: change it in the settings of your system."


@dataclass(frozen=True)
class Signals:
    """Settings for sound and light that the player has chosen."""

    volume: Volume = Volume.MEDIUM
    """Volume of all sounds that the player has chosen."""
    click: bool = True
    """Whether the cue to act clicks."""
    flash: bool = True
    """Whether the cue to act flashes over the whole screen."""
    ear: bool = False
    """Whether the brake of each repetition is heard after it, for who does not see the screen."""
    motion: bool = True
    """Whether parts of a screen may move where nothing is measured."""

    @property
    def clicks(self) -> bool:
        """Whether the cue to act is audible, given a working speaker."""
        return self.click and self.volume is not Volume.OFF

    def as_data(self) -> dict[str, object]:
        """Settings for sound and light as plain data, to be saved."""
        switches = {key: getattr(self, key) for key in (*_FIRST, *_LATER)}
        return {"volume": self.volume.value, **switches}

    @staticmethod
    def from_data(data: object) -> Signals:
        """Settings for sound and light from the data of `as_data`. Raises SignalsError."""
        first = {"volume", *_FIRST}
        if not isinstance(data, dict) or not first <= set(data) <= {*first, *_LATER}:
            raise SignalsError("", "an object of volume, click and flash", show(data))
        checks = Checks(SignalsError)
        volume = Volume(checks.choice("volume", data["volume"], _VOLUMES))
        switches = {key: checks.truth(key, data[key]) for key in data if key != "volume"}
        return Signals(volume, **switches)


@dataclass(frozen=True)
class SignalChange:
    """Settings for sound and light after a change by the player, and what else it changed."""

    signals: Signals
    """Settings for sound and light after the change."""
    notice: str = ""
    """Sentence for the player on what else was changed along with it; empty if nothing was."""


def next_volume(now: Signals) -> SignalChange:
    """Settings with the next louder volume; after the loudest comes off."""
    step = _VOLUMES[(_VOLUMES.index(now.volume) + 1) % len(_VOLUMES)]
    return _seen_or_heard(replace(now, volume=step))


def switch_click(now: Signals) -> SignalChange:
    """Settings with the click of the cue turned on or off."""
    return _seen_or_heard(replace(now, click=not now.click))


def switch_flash(now: Signals, *, speaker: bool) -> SignalChange:
    """Settings with the cue's flash turned on or off; `speaker`: whether a speaker works.

    Without one the cue flashes whatever the setting says, so it stays for when a speaker is back.
    """
    if not speaker:
        return SignalChange(now, FLASH_STAYS_ON)
    if not now.flash:
        return SignalChange(replace(now, flash=True))
    if now.clicks:
        return SignalChange(replace(now, flash=False))
    clicking = replace(now, click=True, flash=False)
    if now.volume is Volume.OFF:
        return SignalChange(replace(clicking, volume=Volume.MEDIUM), VOLUME_AND_CLICK_ON)
    return SignalChange(clicking, CLICK_ON)


def switch_ear(now: Signals) -> SignalChange:
    """Settings with the brake heard after each repetition, or not any more."""
    return SignalChange(replace(now, ear=not now.ear))


def switch_motion(now: Signals, *, calm: bool) -> SignalChange:
    """Settings with motion turned on or off; `calm`: whether the system asks for less of it.

    Where it does, motion is off whatever the setting says, which stays for when it does not.
    """
    if calm:
        return SignalChange(now, MOTION_STAYS_OFF)
    return SignalChange(replace(now, motion=not now.motion))


def with_flash(change: SignalChange) -> SignalChange:
    """Same change with the cue's flash turned on, for when there turns out to be no speaker."""
    if change.signals.flash:
        return change
    return SignalChange(replace(change.signals, flash=True), FLASH_STAYS_ON)


def _seen_or_heard(wanted: Signals) -> SignalChange:
    """Wanted settings, with the flash turned on if the cue would be neither seen nor heard."""
    if wanted.clicks or wanted.flash:
        return SignalChange(wanted)
    return SignalChange(replace(wanted, flash=True), FLASH_ON)
