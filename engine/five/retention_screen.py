"""Screen after a retention check: whether the level was retained, and when it is checked next."""

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
"""Seconds the screen after a retention check stays up: it sums up several repetitions."""
BOTTOM = 1000
"""Bottom edge of the brake curves, in canvas units from the top of the screen."""


@dataclass(frozen=True)
class RetentionCheck:
    """Retention check of one level that has been decided, as the screen shows it."""

    title: str
    """Title of the checked level."""
    outcome: retention.CheckOutcome
    """Outcome of the check: whether the level was retained; never OPEN."""
    marks: tuple[Mark, ...]
    """Mark of each repetition of the check (clean or missed), in order."""
    well: bool
    """Whether the level is well retained now: also after a week without a check."""
    due_days: int
    """Days from today until the level's next retention check."""
    worst: str = ""
    """Name of the limit that the repetitions missed most; empty if they missed none."""

    @property
    def word(self) -> str:
        """Outcome of the check in a word or two, for the screen."""
        if self.outcome is not retention.CheckOutcome.RETAINED:
            return "Not shown today"
        return "Kept well" if self.well else "Kept"

    @property
    def sentences(self) -> str:
        """Sentences: how many were clean, what was missed most, when the level is checked next."""
        counted = [mark for mark in self.marks if mark is not Mark.VOID]
        parts = [f"{counted.count(Mark.CLEAN)} of {len(counted)} clean."]
        if self.worst:
            parts.append(f"Missed most: {self.worst}.")
        again = "tomorrow" if self.due_days == 1 else f"in {self.due_days} days"
        stays = "" if self.outcome is retention.CheckOutcome.RETAINED else "; it stays passed"
        return " ".join([*parts, f"Again {again}{stays}."])


class RetentionScreen(TimedScreen[TimedOutcome]):
    """Outcome of a retention check; the screen ends by itself, or opens the menu on request."""

    name = "shown"

    def __init__(self, check: RetentionCheck, pictures: Sequence[Deviation], place: Place) -> None:
        """`pictures` are the brake curves of the check's repetitions, drawn over each other."""
        super().__init__(TimedOutcome.ON, TimedOutcome.MENU, STAY, place)
        self._check = check
        self._pictures = tuple(pictures)

    def details(self) -> Mapping[str, object]:
        """Title, outcome, clean repetitions, and days to the next check, for the events file."""
        return {
            "title": self._check.title,
            "word": self._check.word,
            "clean": self._check.marks.count(Mark.CLEAN),
            "due_days": self._check.due_days,
        }

    def picture(self, canvas: Canvas) -> None:
        """Draw the check's outcome, the marks of its repetitions, the next date, and the curves."""
        check = self._check
        width = theme.WIDTH - 2 * theme.MARGIN
        heading = canvas.fitted(f"{check.title}, asked again", width, theme.LARGE)
        y = title(canvas, heading)
        y = canvas.text(check.word, (theme.MARGIN, y), theme.HUGE * 0.8) + 16
        y = draw_marks(canvas, (theme.MARGIN, y), check.marks) + 8
        y = canvas.text(check.sentences, (theme.MARGIN, y), theme.BODY, width=width) + 14
        draw_overlay(canvas, (theme.MARGIN, y), (width, BOTTOM - y), self._pictures)
