"""Sound and light: the screen that changes volume, click, flash and size, and its setting."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from enum import Enum

from engine.kit import theme
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas
from engine.kit.flow import show
from engine.pedals.rig import Rig
from engine.stage.scene import Flow
from engine.stage.signals import (
    SignalChange,
    Signals,
    SignalsError,
    Volume,
    next_volume,
    switch_click,
    switch_flash,
    with_flash,
)
from engine.stage.stage import Stage
from engine.store import History, StoreError

EXPLAINED = (
    "While you look for the target, a low tone says too light, a high one too heavy, and the full "
    "one between them that you are on it."
)
STEP = 1
"""Number of the reward that a new volume is tried out with: the lowest, as the first one heard."""
SIGNALS = "sound and light"
"""Setting: the volume, and whether the cue clicks and flashes."""
SOUND = "sound"
"""Setting of older versions: whether sound is wanted. Never written any more."""


class Switch(Enum):
    """What can be changed."""

    VOLUME = "volume"
    CLICK = "click"
    FLASH = "flash"
    FULL = "full screen"
    BACK = "back"


class SoundAndLight(Menu[Switch]):
    """Ends with going back; every other choice changes something and stays where it is."""

    name = "sound and light"

    def __init__(self, signals: Signals, stage: Stage, keep: Callable[[Signals], None]) -> None:
        """`keep` is given what is wanted at each change."""
        self._signals = signals
        self._stage = stage
        self._keep = keep
        self._said = ""
        super().__init__(self._rows(), back=Switch.BACK)

    def choose(self, choice: Choice[Switch]) -> None:
        """Change it, keep it, and let it be heard or seen."""
        before, self._said = self._signals, ""
        match choice.outcome:
            case Switch.BACK:
                self.outcome = Switch.BACK
            case Switch.FULL:
                self._stage.lights.toggle_full()
            case Switch.VOLUME:
                self._change(next_volume(before))
                self._stage.speaker.step(STEP)
            case Switch.CLICK:
                self._change(switch_click(before))
            case Switch.FLASH:
                self._change(switch_flash(before, speaker=not self._stage.speaker.trouble))
        if self._signals.clicks and not before.clicks:
            self._stage.speaker.click()
        if self._signals.flash and not before.flash:
            self._stage.lights.flash(needed=False)

    def appearance(self) -> Hashable:
        """What is chosen, and all that can be changed."""
        lights, speaker = self._stage.lights, self._stage.speaker
        return super().appearance(), self._signals, self._said, lights.full, speaker.trouble

    def paint(self, canvas: Canvas, press: float) -> None:
        """The same, as it is by now: a key may have changed the screen too."""
        self._choices = self._rows()
        super().paint(canvas, press)

    def picture(self, canvas: Canvas) -> None:
        """What the sounds mean, and what there is to say of a change or of the speaker."""
        width = theme.WIDTH - 2 * theme.MARGIN
        y = title(canvas, "Sound and light") + 10
        y = canvas.text(EXPLAINED, (theme.MARGIN, y), theme.BODY, theme.QUIET, width=width) + 30
        trouble = self._stage.speaker.trouble
        if trouble:
            said = canvas.fitted(f"No speaker was found: {trouble}", width, theme.BODY)
            y = canvas.text(said, (theme.MARGIN, y), theme.BODY) + 14
        if self._said:
            canvas.text(self._said, (theme.MARGIN, y), theme.BODY)

    def _change(self, change: SignalChange) -> None:
        speaker = self._stage.speaker
        self._stage.tune(change.signals)
        speaker.prepare()
        if speaker.trouble:
            change = with_flash(change)
            self._stage.tune(change.signals)
        self._signals, self._said = change.signals, change.notice
        self._keep(change.signals)

    def _rows(self) -> list[Choice[Switch]]:
        signals = self._signals
        click, flash = _word(signals.click), _word(signals.flash)
        if signals.click and signals.volume is Volume.OFF:
            click = "silent: the volume is off"
        if self._stage.speaker.trouble:
            click = "silent: no speaker"
            flash = "on"
        return [
            Choice("Volume", Switch.VOLUME, signals.volume.value),
            Choice("Click at the cue", Switch.CLICK, click),
            Choice("Flash at the cue", Switch.FLASH, flash),
            Choice("Full screen", Switch.FULL, _word(self._stage.lights.full)),
            Choice("Back", Switch.BACK),
        ]


def _word(on: bool) -> str:
    return "on" if on else "off"


def signals_wanted(history: History) -> Signals:
    """How the player wants to be noticed. Raises StoreError where what was saved makes no sense."""
    data = history.setting(SIGNALS)
    if data is None:
        return Signals() if history.setting(SOUND) is not False else Signals(Volume.OFF)
    try:
        return Signals.from_data(data)
    except SignalsError as error:
        raise StoreError(f"{history.path}: setting '{SIGNALS}': {error}") from error


def loudness(signals: Signals) -> str:
    """How loud it is, in a word or two."""
    return "silent" if signals.volume is Volume.OFF else signals.volume.value


def sound_and_light(rig: Rig, stage: Stage, history: History) -> Flow[None]:
    """Let the player change it; each change is kept and heard at once."""
    stage.speaker.prepare()
    screen = SoundAndLight(
        signals_wanted(history),
        stage,
        lambda signals: history.keep_setting(SIGNALS, signals.as_data()),
    )
    yield from show(screen, rig, stage)
