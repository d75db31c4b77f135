"""Done for today: an end with a picture of the day, and when to come back."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import Enum

from drills.deviation import Deviation
from engine.five.streak_rows import rest_words
from engine.kit import theme, widgets
from engine.kit.base import Choice, Menu
from engine.kit.canvas import Canvas, Point
from engine.kit.curve_overlay import draw_overlay
from engine.kit.repetition_marks import Mark, draw_legend, draw_mark
from engine.kit.steadiness_chart import SteadinessView
from engine.kit.widgets import Figure
from engine.practice.results import Streaks

NOTHING = "Nothing was played, and nothing is lost."
"""What is said of a day without repetitions."""
MOST_DAYS = "Nothing new passed or kept. Most days are like that: the foot learns all the same."
"""What is said of a whole day that brought nothing to tell of."""
HEAD = 34
"""units from the top, where the heading is."""
FIGURES = 140
"""units from the top, where the figures are."""
PARTS = 312
"""units from the top, where the parts begin, and the words beside them."""
NAMES = 470
"""units across, for the name of a part."""
STEP = 34
"""units, from one mark to the next."""
A_ROW = 16
"""marks of a part in one line."""
LINE = 44
"""units, from one line of marks to the next."""
WORDS = 1160
"""units from the left, where the words are."""


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
    """In the order that five minutes have them."""
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
    steadiness: SteadinessView | None
    """The steadiness band; None where there is none yet."""
    streaks: Streaks
    """Where the player stands now."""
    due_tomorrow: int
    """count of levels that tomorrow's five minutes show again."""
    is_early: bool = False
    """Whether it was left before its time."""

    @property
    def again(self) -> str:
        """When to come back."""
        if self.is_early:
            return "What is left of it is here all day."
        if not self.due_tomorrow:
            return "Tomorrow. A day between makes it stick."
        levels = f"{self.due_tomorrow} levels" if self.due_tomorrow > 1 else "1 level"
        return f"Tomorrow: {levels} to show again."


class DayEnd(Menu[Done]):
    """Ends with leaving or home."""

    name = "day end"
    back_word = "home"
    beside = 2

    def __init__(self, day: Day, pictures: Sequence[Deviation] = (), pictured: str = "") -> None:
        """`pictures` are those of one level on the day, to be laid on top of each other.

        `pictured` is its title.
        """
        choices = [Choice("Leave", Done.LEAVE), Choice("Home", Done.HOME)]
        super().__init__(choices, back=Done.HOME)
        self._day = day
        self._pictures = tuple(pictures)
        self._pictured = pictured

    def details(self) -> Mapping[str, object]:
        """The choices, and the day in numbers."""
        day = self._day
        return {
            **super().details(),
            "parts": [(part.name, len(part.marks)) for part in day.parts],
            "seconds": day.seconds,
            "clean": day.clean,
            "counted": day.counted,
            "kept": day.kept,
            "passed": day.passed,
            "beaten": day.beaten,
            "due_tomorrow": day.due_tomorrow,
            "early": day.is_early,
        }

    def picture(self, canvas: Canvas) -> None:
        """The day: its figures, its parts with a mark a repetition, its words and its curves."""
        day, left, right = self._day, theme.MARGIN, theme.WIDTH - theme.MARGIN
        heading = "Left for now" if day.is_early else "Done for today"
        canvas.text(heading, (left, HEAD), theme.LARGE)
        canvas.text(day.again, (right, HEAD + 24), theme.BODY, theme.TEXT, "right")
        if not day.parts:
            canvas.text(NOTHING, (left, FIGURES + 20))
            return
        widgets.figures(canvas, (left, FIGURES), right - left, _figures(day))
        below = max(_parts(canvas, (left, PARTS), day.parts), self._words(canvas))
        room = self.choices_top - below - 14
        draw_overlay(canvas, (left, below), (right - left, room), self._pictures, self._pictured)

    def _words(self, canvas: Canvas) -> float:
        """What came of it, beside its parts; where the next thing may begin."""
        y = float(PARTS)
        for line in said_of(self._day):
            if y < self.choices_top - 2 * theme.SMALL:
                width = theme.WIDTH - theme.MARGIN - WORDS
                y = canvas.text(line, (WORDS, y), theme.SMALL, width=width) + 6
        return y


def said_of(day: Day) -> list[str]:
    """What came of a day, sentence by sentence."""
    lists = [("Kept", day.kept), ("Passed", day.passed)]
    titles = [f"{word}: {', '.join(names)}." for word, names in lists if names]
    found = [*titles, *day.beaten]
    return found if found or day.is_early else [MOST_DAYS]


def time_words(seconds: float) -> str:
    """Such as "5 min 4 s"."""
    minutes, rest = divmod(round(seconds), 60)
    return f"{minutes} min {rest} s" if minutes else f"{rest} s"


def _figures(day: Day) -> list[Figure]:
    """The day in numbers."""
    row = [
        Figure("Clean", f"{day.clean} of {day.counted}", "repetitions"),
        Figure("Time", time_words(day.seconds), "left before its end" if day.is_early else ""),
    ]
    if day.steadiness is not None:
        band = day.steadiness
        row.append(Figure("Steadiness", f"±{band.value:.1f}", "points"))
    if day.streaks.days_streak:
        best = day.streaks.best_days_streak
        rest = rest_words(day.streaks)
        row.append(Figure("Days in a row", f"{day.streaks.days_streak}", rest or f"best {best}"))
    return row


def _parts(canvas: Canvas, corner: Point, parts: Sequence[Part]) -> float:
    """Each part with its marks, and what they mean; where the next thing may begin."""
    x, y = corner
    for part in parts:
        name = canvas.cut(part.name, NAMES - 20, theme.SMALL)
        canvas.text(name, (x, y), theme.SMALL)
        for number, mark in enumerate(part.marks):
            row, column = divmod(number, A_ROW)
            draw_mark(canvas, (x + NAMES + (column + 0.5) * STEP, y + 17 + row * LINE), 13, mark)
        y += LINE * max(math.ceil(len(part.marks) / A_ROW), 1)
    marks = [mark for part in parts for mark in part.marks]
    draw_legend(canvas, (x + NAMES + A_ROW * STEP, y), marks)
    return y + LINE
