"""Screen for sound, light and motion, and the saved setting behind it."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Mapping, Sequence
from enum import Enum

from drills.trace import Sample
from engine.game import signal_words as words
from engine.game.volume_preview import VolumePreview
from engine.kit import theme
from engine.kit.base import Choice, Menu, title
from engine.kit.canvas import Canvas
from engine.kit.flow import show
from engine.pedals.rig import Rig
from engine.stage.actions import Action
from engine.stage.scene import Flow
from engine.stage.signals import (
    SignalChange,
    Signals,
    SignalsError,
    Volume,
    next_volume,
    switch_click,
    switch_ear,
    switch_flash,
    switch_motion,
    with_flash,
)
from engine.stage.stage import Stage
from engine.store import History

SWITCHES = 490
"""Top of the switches, below all that may stand above them, in canvas units."""
NOTES = 340
"""Top of what is said of the speaker and of the last change, in canvas units."""
SIGNALS_KEY = "sound and light"
"""Key of the saved settings for sound, light and motion."""
OLD_SOUND_KEY = "sound"
"""Key of the setting that older versions wrote for sound: whether it is on."""


class Switch(Enum):
    """What the player can change on the screen for sound, light and motion, or go back."""

    VOLUME = "volume"
    CLICK = "click"
    FLASH = "flash"
    EAR = "by ear"
    MOTION = "motion"
    FULL = "full screen"
    BACK = "back"


EXPLAINED: Mapping[Switch, Sequence[str]] = {
    Switch.VOLUME: words.VOLUME_DOES,
    Switch.CLICK: words.CLICK_DOES,
    Switch.FLASH: words.FLASH_DOES,
    Switch.EAR: words.EAR_DOES,
    Switch.MOTION: words.MOTION_DOES,
    Switch.FULL: words.FULL_DOES,
    Switch.BACK: (),
}
"""What each choice does, as the screen says while it is selected: at most two lines."""


class SoundAndLight(Menu[Switch]):
    """Menu of sound, light and motion; each choice but Back changes one setting at once."""

    name = "sound and light"
    list_top = SWITCHES

    def __init__(self, signals: Signals, stage: Stage, save: Callable[[Signals], None]) -> None:
        """`save` is called with the new sound and light settings after each change."""
        self._signals = signals
        self._stage = stage
        self._save = save
        self._note = ""
        self._trouble = stage.speaker.trouble
        self._preview = VolumePreview(stage.speaker)
        super().__init__(self._all_choices(), back=Switch.BACK)

    def choose(self, choice: Choice[Switch]) -> None:
        """Change the setting that was chosen, save it, and demonstrate it."""
        before, self._note = self._signals, ""
        self._preview.end()
        match choice.outcome:
            case Switch.BACK:
                self.outcome = choice.outcome
            case Switch.FULL:
                self._stage.lights.toggle_full()
            case Switch.VOLUME:
                self._change(next_volume(before))
                if self._signals.volume is not Volume.OFF:
                    self._preview.begin()
            case Switch.CLICK:
                self._change(switch_click(before))
            case Switch.FLASH:
                self._stage.speaker.prepare()
                self._change(switch_flash(before, speaker=self._has_speaker))
            case Switch.EAR:
                self._change(switch_ear(before))
            case Switch.MOTION:
                self._change(
                    switch_motion(before, less_motion=self._stage.lights.wants_less_motion)
                )
        clicks_now = self._signals.clicks and not before.clicks
        if clicks_now and choice.outcome is not Switch.VOLUME:
            self._stage.speaker.click()
        if self._signals.flash and not before.flash:
            self._stage.lights.flash(needed=False)

    def on_action(self, action: Action) -> None:
        """Choose, select or go back; who goes back hears no more of a preview."""
        super().on_action(action)
        if self.outcome is not None:
            self._preview.end()

    def on_sample(self, sample: Sample | None, now: int) -> None:
        """Have a lost audio device opened again, and go on with the preview of the volume.

        A note on a speaker that came or went is over.
        """
        super().on_sample(sample, now)
        self._stage.recover_sound(now)
        self._preview.go_on(now)
        trouble = self._stage.speaker.trouble
        if trouble != self._trouble:
            self._trouble, self._note = trouble, ""

    def appearance(self) -> Hashable:
        """State that the picture depends on: the selected choice, and every setting."""
        lights, speaker = self._stage.lights, self._stage.speaker
        state = (self._signals, self._note, lights.full, lights.wants_less_motion, speaker.trouble)
        return super().appearance(), self._selected, state

    def paint(self, canvas: Canvas, press: float) -> None:
        """Draw the menu with the current settings: a key may have toggled full screen."""
        self._choices = self._all_choices()
        super().paint(canvas, press)

    def picture(self, canvas: Canvas) -> None:
        """Draw what the selected choice does, why there is no sound, and the last change."""
        width = theme.WIDTH - 2 * theme.MARGIN
        y = title(canvas, words.HEADING)
        for line in self._explained:
            y = canvas.text(line, (theme.MARGIN, y), theme.BODY, theme.QUIET) + 6
        y = NOTES
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

    @property
    def _explained(self) -> Sequence[str]:
        """What the selected choice does, in at most two lines, as things stand."""
        selected = self._choices[self._selected].outcome
        if selected is Switch.MOTION and self._stage.lights.wants_less_motion:
            return words.LESS_MOTION_DOES
        # Without a speaker the flash cannot be turned off, so nothing is said of that.
        lines = EXPLAINED[selected]
        return lines[:1] if selected is Switch.FLASH and not self._has_speaker else lines

    @property
    def _has_speaker(self) -> bool:
        """Whether there is a speaker that works."""
        return not self._stage.speaker.trouble

    def _all_choices(self) -> list[Choice[Switch]]:
        signals = self._signals
        speaker, lights = self._has_speaker, self._stage.lights
        motion = words.motion_words(signals, lights.wants_less_motion)
        return [
            Choice("Volume", Switch.VOLUME, signals.volume.value),
            Choice("Click at the cue", Switch.CLICK, words.click_words(signals, speaker)),
            Choice("Flash at the cue", Switch.FLASH, words.flash_words(signals, speaker)),
            Choice(words.EAR, Switch.EAR, words.ear_words(signals, speaker)),
            Choice("Motion", Switch.MOTION, motion),
            Choice("Full screen", Switch.FULL, words.on_off(lights.full)),
            Choice("Back", Switch.BACK),
        ]


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


def sound_and_light(rig: Rig, stage: Stage, history: History) -> Flow[None]:
    """Show the screen for sound, light and motion; each change is saved at once.

    Raises StoreError.
    """
    stage.speaker.prepare()
    screen = SoundAndLight(
        saved_signals(history),
        stage,
        lambda signals: history.keep_setting(SIGNALS_KEY, signals.as_data()),
    )
    yield from show(screen, rig, stage)
