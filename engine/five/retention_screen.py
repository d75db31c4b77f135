"""A passed level that was asked cold on another day: whether it was shown, and when it is again."""

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
"""s it stays: it is read once for several repetitions."""
BOTTOM = 1000
"""units from the top, where the picture ends."""


@dataclass(frozen=True)
class RetentionCheck:
    """What the first repetitions of a day showed of a level."""

    title: str
    """Of the level."""
    outcome: retention.CheckOutcome
    """Whether it was kept; never OPEN."""
    marks: tuple[Mark, ...]
    """Each of its repetitions in order."""
    well: bool
    """Whether it is kept well now: shown again after a week and more."""
    due_days: int
    """days, from today until it comes again."""
    worst: str = ""
    """What was missed most, in a word or two; empty where nothing was."""

    @property
    def word(self) -> str:
        """What it comes to."""
        if self.outcome is not retention.CheckOutcome.KEPT:
            return "Not shown today"
        return "Kept well" if self.well else "Kept"

    @property
    def said(self) -> str:
        """How many were clean, what was missed most, and when it comes again."""
        counted = [mark for mark in self.marks if mark is not Mark.VOID]
        parts = [f"{counted.count(Mark.CLEAN)} of {len(counted)} clean."]
        if self.worst:
            parts.append(f"Missed most: {self.worst}.")
        again = "tomorrow" if self.due_days == 1 else f"in {self.due_days} days"
        stays = "" if self.outcome is retention.CheckOutcome.KEPT else "; it stays passed"
        return " ".join([*parts, f"Again {again}{stays}."])


class RetentionScreen(TimedScreen[TimedOutcome]):
    """Ends with what follows."""

    name = "shown"

    def __init__(self, again: RetentionCheck, pictures: Sequence[Deviation], place: Place) -> None:
        """`pictures` are those of its repetitions, to be laid on top of each other."""
        super().__init__(TimedOutcome.ON, TimedOutcome.MENU, STAY, place)
        self._again = again
        self._pictures = tuple(pictures)

    def details(self) -> Mapping[str, object]:
        """What it comes to, and when it comes again."""
        again = self._again
        return {
            "title": again.title,
            "word": again.word,
            "clean": again.marks.count(Mark.CLEAN),
            "due_days": again.due_days,
        }

    def picture(self, canvas: Canvas) -> None:
        """The word, the marks, when it comes again, and the curves about their middle."""
        width = theme.WIDTH - 2 * theme.MARGIN
        heading = canvas.fitted(f"{self._again.title}, asked again", width, theme.LARGE)
        y = title(canvas, heading)
        y = canvas.text(self._again.word, (theme.MARGIN, y), theme.HUGE * 0.8) + 16
        y = draw_marks(canvas, (theme.MARGIN, y), self._again.marks) + 8
        y = canvas.text(self._again.said, (theme.MARGIN, y), theme.BODY, width=width) + 14
        draw_overlay(canvas, (theme.MARGIN, y), (width, BOTTOM - y), self._pictures)
