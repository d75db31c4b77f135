"""Screen for volume, click, flash and full screen, and the saved setting behind it."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from enum import Enum

from drills.trace import Sample
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
from engine.store import History

EXPLAINED = (
    "A low tone says too light, a high one too heavy.",
    "The steady tone between them says you are on target.",
)
"""What the tones mean while the player looks for the target."""
SWITCHES = 490
"""Top of the switches, below all that may stand above them, in canvas units."""
SIGNALS_KEY = "sound and light"
"""Key of the setting for the volume, and whether the cue clicks and flashes."""
OLD_SOUND_KEY = "sound"
"""Key of the setting that older versions wrote for sound: whether it is on."""


class Switch(Enum):
    """What the player can change on the screen for sound and light, or go back."""

    VOLUME = "volume"
    CLICK = "click"
    FLASH = "flash"
    FULL = "full screen"
    BACK = "back"


class SoundAndLight(Menu[Switch]):
    """Menu of volume, click, flash and full screen; each choice but Back changes one at once."""

    name = "sound and light"
    list_top = SWITCHES

    def __init__(self, signals: Signals, stage: Stage, save: Callable[[Signals], None]) -> None:
        """`save` is called with the new sound and light settings after each change."""
        self._signals = signals
        self._stage = stage
        self._save = save
        self._note = ""
        self._trouble = stage.speaker.trouble
        super().__init__(self._all_choices(), back=Switch.BACK)

    def choose(self, choice: Choice[Switch]) -> None:
        """Change the setting that was chosen, save it, and demonstrate it."""
        before, self._note = self._signals, ""
        match choice.outcome:
            case Switch.BACK:
                self.outcome = Switch.BACK
            case Switch.FULL:
                self._stage.lights.toggle_full()
            case Switch.VOLUME:
                self._change(next_volume(before))
                self._stage.speaker.preview()
            case Switch.CLICK:
                self._change(switch_click(before))
            case Switch.FLASH:
                self._stage.speaker.prepare()
                self._change(switch_flash(before, speaker=not self._stage.speaker.trouble))
        if self._signals.clicks and not before.clicks:
            self._stage.speaker.click()
        if self._signals.flash and not before.flash:
            self._stage.lights.flash(needed=False)

    def on_sample(self, sample: Sample | None, now: int) -> None:
        """Have a lost audio device opened again; a note on a speaker that came or went is over."""
        self._stage.recover_sound(now)
        trouble = self._stage.speaker.trouble
        if trouble != self._trouble:
            self._trouble, self._note = trouble, ""

    def appearance(self) -> Hashable:
        """State that the picture depends on: the choices, and every setting they change."""
        lights, speaker = self._stage.lights, self._stage.speaker
        return super().appearance(), self._signals, self._note, lights.full, speaker.trouble

    def paint(self, canvas: Canvas, press: float) -> None:
        """Draw the menu with the current settings: a key may have toggled full screen."""
        self._choices = self._all_choices()
        super().paint(canvas, press)

    def picture(self, canvas: Canvas) -> None:
        """Draw what the sounds mean, why there is no sound, and what the last change did."""
        width = theme.WIDTH - 2 * theme.MARGIN
        y = title(canvas, "Sound and light")
        for line in EXPLAINED:
            y = canvas.text(line, (theme.MARGIN, y), theme.BODY, theme.QUIET) + 6
        y += 24
        trouble = self._stage.speaker.trouble
        if trouble:
            line = canvas.fitted(f"There is no sound: {trouble}", width, theme.BODY)
            y = canvas.text(line, (theme.MARGIN, y), theme.BODY) + 14
        if self._note:
            canvas.text(self._note, (theme.MARGIN, y), theme.BODY)

    def _change(self, change: SignalChange) -> None:
        speaker = self._stage.speaker
        self._stage.tune(change.signals)
        speaker.prepare()
        if speaker.trouble and self._signals.flash:
            change = with_flash(change)
            self._stage.tune(change.signals)
        self._signals, self._note = change.signals, change.notice
        self._trouble = speaker.trouble
        self._save(change.signals)

    def _all_choices(self) -> list[Choice[Switch]]:
        signals = self._signals
        click, flash = _on_off(signals.click), _on_off(signals.flash)
        if signals.click and signals.volume is Volume.OFF:
            click = "silent: the volume is off"
        if self._stage.speaker.trouble:
            click = "silent: no speaker"
            flash = "on"
        return [
            Choice("Volume", Switch.VOLUME, signals.volume.value),
            Choice("Click at the cue", Switch.CLICK, click),
            Choice("Flash at the cue", Switch.FLASH, flash),
            Choice("Full screen", Switch.FULL, _on_off(self._stage.lights.full)),
            Choice("Back", Switch.BACK),
        ]


def _on_off(on: bool) -> str:
    return "on" if on else "off"


def saved_signals(history: History) -> Signals:
    """Sound and light as the player saved them; the usual where that cannot be understood.

    Raises StoreError.
    """
    data = history.setting(SIGNALS_KEY)
    if data is None:
        return Signals() if history.setting(OLD_SOUND_KEY) is not False else Signals(Volume.OFF)
    try:
        return Signals.from_data(data)
    except SignalsError:
        return Signals()


def volume_words(signals: Signals) -> str:
    """Volume of the game in a word or two, such as for a menu."""
    return "silent" if signals.volume is Volume.OFF else signals.volume.value


def sound_and_light(rig: Rig, stage: Stage, history: History) -> Flow[None]:
    """Show the screen for sound and light; each change is saved at once. Raises StoreError."""
    stage.speaker.prepare()
    screen = SoundAndLight(
        saved_signals(history),
        stage,
        lambda signals: history.keep_setting(SIGNALS_KEY, signals.as_data()),
    )
    yield from show(screen, rig, stage)
