"""While a drive is recorded: that it is, for how long, and how to stop; nothing of how it goes."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Mapping
from enum import Enum

from drills.trace import Sample
from engine.kit import theme, widgets
from engine.kit.base import Screen, title
from engine.kit.canvas import Canvas
from engine.road.recorder import DriveRecorder
from engine.road.words import CAUTION, minutes
from engine.stage.actions import Action
from engine.stage.scene import Pace

STEP = 10
"""s from one time that is shown to the next: every picture takes some ms from the pedals."""
SAID = (
    "Drive. The window may be behind another or small: the pedals are read all the same.",
    "They choose nothing here. Nothing is scored before you stop.",
    "It stops by itself after five minutes without a pedal moved.",
    CAUTION,
)
AWAY = "The pedals are unplugged. It goes on when they are back."


class Ended(Enum):
    """Why a recording is over."""

    STOPPED = "stopped"
    IDLE = "idle"
    BROKEN = "broken"
    """The file cannot be written any more."""


class RecordingDrive(Screen[Ended]):
    """Ends when the player stops it, nobody drives any more, or the file cannot be written."""

    name = "recording"

    def __init__(
        self, recorder: DriveRecorder, look: Callable[[Sample | None, int], bool], file: str
    ) -> None:
        """`look` is given the pedals at each look, and says whether they could be kept.

        `file` is the name of what is written.
        """
        super().__init__()
        self._recorder = recorder
        self._look = look
        self._file = file
        self._focused = True
        self._away = False
        self._seconds = 0

    @property
    def pace(self) -> Pace:
        """Read often and drawn seldom."""
        return Pace.ROAD

    def details(self) -> Mapping[str, object]:
        """The file."""
        return {"file": self._file}

    def on_focus(self, focused: bool, now: int) -> None:
        """Without the focus the buttons of a wheel are those of what is driven."""
        self._focused = focused

    def on_action(self, action: Action) -> None:
        """Stop, by a key or a wheel button alone."""
        if action is Action.BACK and self._focused:
            self.outcome = Ended.STOPPED

    def on_devices(self, *, cut: bool) -> None:
        """What pedals read just before they were pulled out is not the foot's."""
        if cut:
            self._recorder.cut()

    def on_sample(self, sample: Sample | None, now: int) -> None:
        """Record; and look at the time, but for a moment when the brake is on."""
        if not self._look(sample, now):
            self.outcome = Ended.BROKEN
        elif self._recorder.is_idle:
            self.outcome = Ended.IDLE
        self._away = sample is None
        if not self._recorder.is_braking:
            self._seconds = int(self._recorder.seconds) // STEP * STEP

    def appearance(self) -> Hashable:
        """The time, and whether the pedals are there."""
        return self._seconds, self._away, self.means

    def paint(self, canvas: Canvas, press: float) -> None:
        """The time large, and the words under it."""
        width = theme.WIDTH - 2 * theme.MARGIN
        y = title(canvas, "Recording") + 10
        canvas.text(minutes(self._seconds), (theme.MARGIN, y), theme.HUGE)
        y += theme.HUGE * 1.2
        for line in (AWAY,) if self._away else SAID:
            y = canvas.text(line, (theme.MARGIN, y), theme.BODY, width=width) + 20
        canvas.text(f"drives/{self._file}", (theme.MARGIN, y), theme.SMALL, theme.QUIET)
        stop = "Esc, button 3" if self.means.buttons else "Esc"
        widgets.foot(canvas, f"{stop}: stop, while this window is in front")
