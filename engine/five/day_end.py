"""Screen at the end of the day's session: what was played, what was passed, when to return."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import Enum

from drills.deviation import Deviation
from engine.five.plan_words import due_words
from engine.five.steadiness_words import waiting_words
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
"""Sentence on the end screen of a session in which nothing was played."""
NOTHING_NEW = "Nothing new passed or kept today."
"""Sentence for a whole session in which no level was passed or retained and no best beaten."""
HEAD = 34
"""Top of the heading on the screen at the end of the day, in canvas units."""
FIGURES = 140
"""Top of the row of figures (clean, time, steadiness, days in a row), in canvas units."""
PARTS = 312
"""Top of the list of the session's parts and of the sentences beside it, in canvas units."""
NAMES = 470
"""Width of the column with the names of the session's parts, in canvas units."""
STEP = 34
"""Distance from the mark of one repetition to that of the next, in canvas units."""
A_ROW = 16
"""Most marks of repetitions side by side in one line, as a count."""
LINE = 44
"""Distance from one line of repetition marks to the next, in canvas units."""
WORDS = 1160
"""Left edge of the sentences about the day, in canvas units."""


class Done(Enum):
    """Where the player goes from the end of a session: out of the game, or home."""

    LEAVE = "leave"
    HOME = "home"


@dataclass(frozen=True)
class Part:
    """One part of the day's session, such as its retention checks."""

    name: str
    """Name of this part of the session on the screen, such as "Asked again"."""
    marks: tuple[Mark, ...]
    """Mark of each repetition in this part of the session, in the order they were played."""


@dataclass(frozen=True)
class Day:
    """Summary of a session of five minutes, for the screen at its end."""

    parts: tuple[Part, ...]
    """Parts of the session that were played, in the order of the five minutes."""
    seconds: float
    """Seconds practised in the session."""
    clean: int
    """Clean repetitions in the session, as a count."""
    counted: int
    """Repetitions in the session that counted (not void, played by feet), as a count."""
    retained: tuple[str, ...]
    """Titles of the levels retained in the session's retention checks."""
    passed: tuple[str, ...]
    """Titles of the levels passed in the session."""
    beaten: tuple[str, ...]
    """Sentences about the best scores and streaks beaten in the session."""
    steadiness: SteadinessView | None
    """Steadiness after the session; None if there are too few blips to compute it."""
    streaks: Streaks
    """Streaks of the player after the session."""
    due_tomorrow: int
    """Levels that tomorrow's session has time to check for retention, as a count."""
    all_due: int
    """Levels that are due for a retention check tomorrow, as a count."""
    is_early: bool = False
    """Whether the session was left before its time was over."""
    blips: int | None = None
    """Blips that count for steadiness up to now, as a count; None where that is not known."""

    @property
    def next_visit(self) -> str:
        """Sentence that tells the player when to practise next."""
        if self.is_early:
            return "What is left of it is here all day."
        if not self.all_due:
            return "Go on tomorrow."
        number = due_words(self.due_tomorrow, self.all_due)
        return f"Tomorrow: {number} {'level' if number == '1' else 'levels'} to show again."


class DayEnd(Menu[Done]):
    """Screen at the end of the five minutes; its outcome is leaving the game or going home."""

    name = "day end"
    back_word = "home"
    beside = 2

    def __init__(self, day: Day, pictures: Sequence[Deviation] = (), pictured: str = "") -> None:
        """`pictures` are brake curves of one level, drawn over each other, `pictured` its title."""
        choices = [Choice("Leave", Done.LEAVE), Choice("Home", Done.HOME)]
        super().__init__(choices, back=Done.HOME)
        self._day = day
        self._pictures = tuple(pictures)
        self._pictured = pictured

    def details(self) -> Mapping[str, object]:
        """Labels of the choices and the numbers of the day, for the events file."""
        day = self._day
        return {
            **super().details(),
            "parts": [(part.name, len(part.marks)) for part in day.parts],
            "seconds": day.seconds,
            "clean": day.clean,
            "counted": day.counted,
            "kept": day.retained,
            "passed": day.passed,
            "beaten": day.beaten,
            "due_tomorrow": day.due_tomorrow,
            "all_due": day.all_due,
            "early": day.is_early,
        }

    def picture(self, canvas: Canvas) -> None:
        """Draw the figures, the parts with a mark for each repetition, the sentences and curves."""
        day, left, right = self._day, theme.MARGIN, theme.WIDTH - theme.MARGIN
        heading = "Left for now" if day.is_early else "Done for today"
        canvas.text(heading, (left, HEAD), theme.LARGE)
        canvas.text(day.next_visit, (right, HEAD + 24), theme.BODY, theme.TEXT, "right")
        if not day.parts:
            canvas.text(NOTHING, (left, FIGURES + 20))
            return
        widgets.figures(canvas, (left, FIGURES), right - left, _figures(day))
        below = max(_draw_parts(canvas, (left, PARTS), day.parts), self._draw_sentences(canvas))
        room = self.choices_top - below - 14
        draw_overlay(canvas, (left, below), (right - left, room), self._pictures, self._pictured)

    def _draw_sentences(self, canvas: Canvas) -> float:
        """Draw the day's sentences beside its parts; returns the y below them, in canvas units."""
        y = float(PARTS)
        for line in day_sentences(self._day):
            if y < self.choices_top - 2 * theme.SMALL:
                width = theme.WIDTH - theme.MARGIN - WORDS
                y = canvas.text(line, (WORDS, y), theme.SMALL, width=width) + 6
        return y


def day_sentences(day: Day) -> list[str]:
    """Sentences about the levels retained and passed and the bests beaten in a session."""
    lists = [("Kept", day.retained), ("Passed", day.passed)]
    titles = [f"{word}: {', '.join(names)}." for word, names in lists if names]
    sentences = [*titles, *day.beaten]
    return sentences if sentences or day.is_early else [NOTHING_NEW]


def time_words(seconds: float) -> str:
    """Duration in words, such as "5 min 4 s"."""
    minutes, rest = divmod(round(seconds), 60)
    return f"{minutes} min {rest} s" if minutes else f"{rest} s"


def _figures(day: Day) -> list[Figure]:
    """Figures at the top of the end-of-day screen: clean, time, steadiness, days in a row."""
    figures = [
        Figure("Clean", f"{day.clean} of {day.counted}", "repetitions"),
        Figure("Time", time_words(day.seconds), "left before its end" if day.is_early else ""),
    ]
    if day.steadiness is not None:
        note = f"points, your last {day.steadiness.span} days"
        figures.append(Figure("Steadiness", f"±{day.steadiness.value:.1f}", note))
    elif day.blips is not None:
        figures.append(Figure("Steadiness", "Not yet", waiting_words(day.blips)))
    if day.streaks.days_streak:
        best = day.streaks.best_days_streak
        rest = rest_words(day.streaks)
        figures.append(
            Figure("Days in a row", f"{day.streaks.days_streak}", rest or f"best {best}")
        )
    return figures


def _draw_parts(canvas: Canvas, corner: Point, parts: Sequence[Part]) -> float:
    """Draw the session's parts with marks and legend; returns the y below, in canvas units."""
    x, y = corner
    for part in parts:
        name = canvas.cut(part.name, NAMES - 20, theme.SMALL)
        canvas.text(name, (x, y), theme.SMALL)
        for number, mark in enumerate(part.marks):
            line, column = divmod(number, A_ROW)
            centre = (x + NAMES + (column + 0.5) * STEP, y + 17 + line * LINE)
            draw_mark(canvas, centre, 13, mark)
        y += LINE * max(math.ceil(len(part.marks) / A_ROW), 1)
    marks = [mark for part in parts for mark in part.marks]
    draw_legend(canvas, (x + NAMES + A_ROW * STEP, y), marks)
    return y + LINE
