"""Screen while a drive is recorded: its time so far, and how to stop; it shows no score."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Mapping
from enum import Enum

from drills.trace import Sample
from engine.kit import theme, widgets
from engine.kit.base import Screen, title
from engine.kit.canvas import Canvas
from engine.kit.opening import draw_lead
from engine.kit.typeface import Weight
from engine.road.recorder import DriveRecorder
from engine.road.screen_words import ADVICE, AWAY
from engine.road.summary_words import minutes
from engine.stage.actions import Action
from engine.stage.scene import Pace

STEP = 10
"""Seconds between updates of the time on screen: no pedal is read for the few ms that drawing
takes."""


class Ended(Enum):
    """Reasons why the recording of a drive is over."""

    STOPPED = "stopped"
    IDLE = "idle"
    BROKEN = "broken"
    """The file could not be written any more."""


class RecordingDrive(Screen[Ended]):
    """Records a drive until the player stops it, no pedal was moved for long, or the file fails."""

    name = "recording"

    def __init__(
        self, recorder: DriveRecorder, write: Callable[[Sample | None, int], bool], file: str
    ) -> None:
        """`write` takes each sample and its time in ns; it returns whether it could be written.

        `file` is the name of the file that is written.
        """
        super().__init__()
        self._recorder = recorder
        self._write = write
        self._file = file
        self._focused = True
        self._away = False
        self._seconds = 0

    @property
    def pace(self) -> Pace:
        """Pace for a drive: the pedals are read often enough, the simulator gets the processor."""
        return Pace.ROAD

    def details(self) -> Mapping[str, object]:
        """Fields for the events file: the name of the recording's file."""
        return {"file": self._file}

    def on_focus(self, focused: bool, now: int) -> None:
        """Note whether the window has the focus: without it, wheel buttons are the simulator's."""
        self._focused = focused

    def on_action(self, action: Action) -> None:
        """Stop the recording at a key or a wheel button, but never at a pedal."""
        if action is Action.BACK and self._focused:
            self.outcome = Ended.STOPPED

    def on_closing(self) -> None:
        """Stop the recording, which keeps what was driven."""
        self.outcome = Ended.STOPPED

    def on_devices(self, *, cut: bool) -> None:
        """Drop the last reading of pedals that were unplugged: no foot made it."""
        if cut:
            self._recorder.cut()

    def on_sample(self, sample: Sample | None, now: int) -> None:
        """Record a sample; the time on screen stands still while the brake is on."""
        if not self._write(sample, now):
            self.outcome = Ended.BROKEN
        elif self._recorder.is_idle:
            self.outcome = Ended.IDLE
        self._away = sample is None
        if not self._recorder.is_braking:
            self._seconds = int(self._recorder.seconds) // STEP * STEP

    def appearance(self) -> Hashable:
        """State that the picture depends on: the time, missing pedals, the input methods."""
        return self._seconds, self._away, self.means

    def paint(self, canvas: Canvas, press: float) -> None:
        """Draw the time in large figures, the advice, and how to stop the recording."""
        width = theme.WIDTH - 2 * theme.MARGIN
        y = title(canvas, "Recording") + 10
        time = minutes(self._seconds)
        canvas.text(time, (theme.MARGIN, y), theme.HUGE, theme.BRAKE, weight=Weight.BOLD)
        y += theme.HUGE * 1.2
        if self._away:
            y = draw_lead(canvas, y, AWAY)
        for line in () if self._away else ADVICE:
            y = canvas.text(line, (theme.MARGIN, y), theme.BODY, theme.QUIET, width=width) + 16
        canvas.text(f"drives/{self._file}", (theme.MARGIN, y), theme.SMALL, theme.QUIET)
        stop = "Esc, button 3" if self.means.buttons else "Esc"
        widgets.foot(canvas, f"{stop}: stop, while this window is in front")
