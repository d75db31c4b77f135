"""Screen after a retention check: its outcome, and when the level is asked again."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from drills.deviation import Deviation
from engine.kit import theme
from engine.kit.base import Place, title
from engine.kit.canvas import Canvas
from engine.kit.curve_overlay import draw_overlay
from engine.kit.repetition_marks import Mark, draw_marks
from engine.kit.timed_screen import TimedOutcome, TimedScreen
from engine.practice import retention

STAY = 5.0
"""Seconds the screen stays up: it is read once for several repetitions."""
BOTTOM = 1000
"""Bottom of the curves, in canvas units from the top."""


@dataclass(frozen=True)
class RetentionCheck:
    """A decided retention check of one level."""

    title: str
    """Title of the level."""
    outcome: retention.CheckOutcome
    """Whether the level was retained; never OPEN."""
    marks: tuple[Mark, ...]
    """Mark of each of its repetitions, in order."""
    well: bool
    """Whether the level is well retained now: after a week and more."""
    due_days: int
    """Days from today until its next check."""
    worst: str = ""
    """Name of the limit that was missed most; empty where none was."""

    @property
    def word(self) -> str:
        """Outcome in a word or two."""
        if self.outcome is not retention.CheckOutcome.RETAINED:
            return "Not shown today"
        return "Kept well" if self.well else "Kept"

    @property
    def sentences(self) -> str:
        """Sentences with the clean repetitions, what was missed most, and when it is due again."""
        counted = [mark for mark in self.marks if mark is not Mark.VOID]
        parts = [f"{counted.count(Mark.CLEAN)} of {len(counted)} clean."]
        if self.worst:
            parts.append(f"Missed most: {self.worst}.")
        again = "tomorrow" if self.due_days == 1 else f"in {self.due_days} days"
        stays = "" if self.outcome is retention.CheckOutcome.RETAINED else "; it stays passed"
        return " ".join([*parts, f"Again {again}{stays}."])


class RetentionScreen(TimedScreen[TimedOutcome]):
    """Outcome of a retention check; it ends by itself, or with the menu where it is asked for."""

    name = "shown"

    def __init__(self, check: RetentionCheck, pictures: Sequence[Deviation], place: Place) -> None:
        """`pictures` are the curves of its repetitions, drawn over each other."""
        super().__init__(TimedOutcome.ON, TimedOutcome.MENU, STAY, place)
        self._check = check
        self._pictures = tuple(pictures)

    def details(self) -> Mapping[str, object]:
        """The level, its outcome, and when its next check is due."""
        return {
            "title": self._check.title,
            "word": self._check.word,
            "clean": self._check.marks.count(Mark.CLEAN),
            "due_days": self._check.due_days,
        }

    def picture(self, canvas: Canvas) -> None:
        """Draw the outcome, the marks, when the level is due again, and the curves."""
        check = self._check
        width = theme.WIDTH - 2 * theme.MARGIN
        heading = canvas.fitted(f"{check.title}, asked again", width, theme.LARGE)
        y = title(canvas, heading)
        y = canvas.text(check.word, (theme.MARGIN, y), theme.HUGE * 0.8) + 16
        y = draw_marks(canvas, (theme.MARGIN, y), check.marks) + 8
        y = canvas.text(check.sentences, (theme.MARGIN, y), theme.BODY, width=width) + 14
        draw_overlay(canvas, (theme.MARGIN, y), (width, BOTTOM - y), self._pictures)
