"""Done for today: an end with a picture of the day, and when to come back."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import Enum

from drills.deviation import Deviation
from engine.practice.results import Standing
from engine.screens import theme
from engine.screens.band import BandShown
from engine.screens.base import Choice, Menu, title
from engine.screens.canvas import Canvas
from engine.screens.marks import Mark, dots
from engine.screens.together import together


class Done(Enum):
    """What follows what is done."""

    LEAVE = "leave"
    HOME = "home"


@dataclass(frozen=True)
class Part:
    """One part of the day."""

    name: str
    """What it was, such as "Shown again"."""
    marks: tuple[Mark, ...]
    """Each of its repetitions in order."""


@dataclass(frozen=True)
class Day:
    """What was done on a day."""

    parts: tuple[Part, ...]
    """In the order they were played."""
    seconds: float
    """s, practised."""
    clean: int
    """count of clean repetitions."""
    counted: int
    """count of those that counted."""
    kept: tuple[str, ...]
    """Titles of the levels kept."""
    passed: tuple[str, ...]
    """Titles of the levels passed."""
    beaten: tuple[str, ...]
    """What was beaten, in sentences."""
    steadiness: BandShown | None
    """The steadiness band; None where there is none yet."""
    standing: Standing
    """Where the player stands now."""
    due_tomorrow: int
    """count of levels that are due to be shown again tomorrow."""
    is_early: bool = False
    """Whether it was left before its time."""

    @property
    def again(self) -> str:
        """When to come back."""
        if not self.due_tomorrow:
            return "Tomorrow. A day between makes it stick."
        several = self.due_tomorrow > 1
        levels = f"{self.due_tomorrow} levels are" if several else "1 level is"
        return f"Tomorrow: {levels} due to be shown again."


class DayEnd(Menu[Done]):
    """Ends with leaving or home."""

    name = "day end"
    back_word = "home"
    beside = 2

    def __init__(self, day: Day, pictures: Sequence[Deviation] = ()) -> None:
        """`pictures` are those of the blips of the day, to be laid on top of each other."""
        choices = [Choice("Leave", Done.LEAVE), Choice("Home", Done.HOME)]
        super().__init__(choices, back=Done.HOME)
        self._day = day
        self._pictures = tuple(pictures)

    def details(self) -> Mapping[str, object]:
        """The choices, and the day in numbers."""
        day = self._day
        return {
            **super().details(),
            "parts": {part.name: len(part.marks) for part in day.parts},
            "seconds": day.seconds,
            "clean": day.clean,
            "counted": day.counted,
            "kept": day.kept,
            "passed": day.passed,
            "due_tomorrow": day.due_tomorrow,
            "early": day.is_early,
        }

    def picture(self, canvas: Canvas) -> None:
        """The day."""
        width = theme.WIDTH - 2 * theme.MARGIN
        y = title(canvas, "Done for today")
        for part in self._day.parts:
            canvas.text(part.name, (theme.MARGIN, y), theme.SMALL)
            y = dots(canvas, (theme.MARGIN + 500, y), part.marks)
        y = canvas.text(self._day.again, (theme.MARGIN, y), theme.BODY)
        together(canvas, (theme.MARGIN, y), (width, self.choices_top - y), self._pictures)
