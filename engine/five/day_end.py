"""Screen at the end of the day's session: what went better, what was played, when to return."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import Enum

from drills.remark import Headline
from engine.drill.set_words import SAVED
from engine.five.day_words import (
    NOTHING,
    NOTHING_NEW,
    Line,
    days_line,
    news_words,
    next_visit_line,
    steadiness_line,
)
from engine.kit import theme
from engine.kit.base import Choice, Menu
from engine.kit.canvas import Canvas, Point
from engine.kit.opening import draw_opening
from engine.kit.repetition_marks import Mark, draw_mark
from engine.kit.steadiness_view import SteadinessView
from engine.kit.typeface import Weight
from engine.practice.results import Streaks

MOST_NEWS = 4
"""Most sentences about what went better in a session, as a count."""
PARTS = 400
"""Smallest top of the list of the session's parts, in canvas units."""
NAMES = 500
"""Width of the column with the names of the session's parts, in canvas units."""
STEP = 46
"""Largest distance from the mark of one repetition to that of the next, in canvas units."""
MARKS_WIDE = 520
"""Width of the marks beside the name of a part, in canvas units."""
A_ROW = 16
"""Most marks of repetitions side by side in one line, as a count."""
LINE = 32
"""Distance from one line of marks to the next, in canvas units."""
PITCH = 76
"""Largest distance from one part to the next, in canvas units."""
LINES = 1240
"""Left edge of what is said beside the parts, in canvas units."""
PAIR = 156
"""Largest distance from one thing said beside the parts to the next, in canvas units."""
APART = 50
"""Smallest gap between words and what stands beside them, in canvas units."""


class Done(Enum):
    """Where the player goes from the end of a session: out of the game, or home."""

    LEAVE = "leave"
    HOME = "home"


@dataclass(frozen=True)
class Part:
    """One part of the day's session, such as its retention checks."""

    name: str
    """Name of this part of the session on the screen, such as "check-up"."""
    marks: tuple[Mark, ...]
    """Mark of each repetition in this part of the session, in the order they were played."""
    title: str = ""
    """Title of its level, if it is of one level and worth a name; otherwise empty."""
    is_staircase: bool = False
    """Whether its repetitions are inside or outside a tolerance, and none of them is missed."""

    @property
    def label(self) -> str:
        """Name of this part and the title of its level, such as "new: Closer to the brake"."""
        return f"{self.name}: {self.title}" if self.title else self.name

    @property
    def inside(self) -> str:
        """Repetitions inside the tolerance, of those that count, in words."""
        counted = [mark for mark in self.marks if mark is not Mark.VOID]
        return f"{counted.count(Mark.CLEAN)} of {len(counted)} inside"


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
    is_longest: bool = False
    """Whether the session made the longest streak of days longer."""
    past_midnight: bool = False
    """Whether the session ended on the day after it began."""

    @property
    def next_visit(self) -> Line:
        """When the player is to practise next."""
        return next_visit_line(
            self.due_tomorrow,
            self.all_due,
            is_early=self.is_early,
            past_midnight=self.past_midnight,
        )

    @property
    def heading(self) -> str:
        """Heading of the screen: whether the session is done."""
        if self.is_early:
            return "Left for now"
        return "Done" if self.past_midnight else "Done for today"

    @property
    def news(self) -> list[str]:
        """Sentences about what went better in the session, the greatest first."""
        return news_words(self.passed, self.retained, self.beaten)[:MOST_NEWS]

    @property
    def sentences(self) -> list[str]:
        """Sentences below the heading, the one that matters most first."""
        if not self.parts:
            return [NOTHING]
        return self.news or [SAVED if self.is_early else NOTHING_NEW]

    @property
    def lines(self) -> list[Line]:
        """What stands beside the parts: steadiness, days in a row, and the next visit."""
        found = (
            steadiness_line(self.steadiness, self.blips),
            days_line(self.streaks, is_longest=self.is_longest),
            self.next_visit,
        )
        return [line for line in found if line is not None]


class DayEnd(Menu[Done]):
    """Screen at the end of the five minutes; its outcome is leaving the game or going home."""

    name = "day end"
    back_word = "home"
    in_a_bar = True

    def __init__(self, day: Day) -> None:
        choices = [Choice("Leave", Done.LEAVE), Choice("Home", Done.HOME)]
        super().__init__(choices, back=Done.HOME)
        self._day = day

    def details(self) -> Mapping[str, object]:
        """Labels of the choices and the numbers of the day, for the events file."""
        day = self._day
        return {
            **super().details(),
            "parts": [(part.label, len(part.marks)) for part in day.parts],
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
        """Draw what went better, the parts with a mark for each repetition, and what comes."""
        day, left = self._day, float(theme.MARGIN)
        lead, *more = day.sentences
        colour = theme.BRAKE if day.news else theme.TEXT
        y = draw_opening(canvas, day.heading, lead, " ".join(more), self._figure, colour)
        top = max(y + 20, PARTS)
        _draw_parts(canvas, (left, top), self.choices_top - 20 - top, day.parts)
        corner = (LINES if day.parts else left, top)
        _draw_lines(canvas, corner, self.choices_top - top, day.lines)

    @property
    def _figure(self) -> Headline | None:
        """Clean repetitions, those of a staircase left out; None where none is left."""
        marks = [mark for part in self._day.parts if not part.is_staircase for mark in part.marks]
        counted = len(marks) - marks.count(Mark.VOID)
        return Headline(f"{marks.count(Mark.CLEAN)}", f"of {counted} clean") if counted else None


def _draw_lines(canvas: Canvas, corner: Point, height: float, lines: Sequence[Line]) -> None:
    """Draw what is said beside the parts: a few words each, with a quiet line below."""
    x, y = corner
    width = theme.WIDTH - theme.MARGIN - x
    pitch = min(height / max(len(lines), 1), PAIR)
    for line in lines:
        below = canvas.text(line.words, (x, y), theme.BODY, width=width, weight=Weight.BOLD)
        canvas.text(line.note, (x, below + 4), theme.SMALL, theme.QUIET)
        y += pitch


def _draw_parts(canvas: Canvas, corner: Point, height: float, parts: Sequence[Part]) -> None:
    """Draw the session's parts, each with its marks or, of a staircase, how many were inside."""
    x, y = corner
    rows = [math.ceil(len(part.marks) / A_ROW) if not part.is_staircase else 1 for part in parts]
    extra = LINE * sum(max(count - 1, 0) for count in rows)
    pitch = min((height - extra) / max(len(parts), 1), PITCH)
    longest = max((len(part.marks) for part in parts if not part.is_staircase), default=1)
    step = min(MARKS_WIDE / min(max(longest, 1), A_ROW), STEP)
    for part, count in zip(parts, rows, strict=True):
        fits = canvas.measure(part.label, theme.SMALL) <= NAMES - 20
        canvas.text(part.label if fits else part.name, (x, y), theme.SMALL, theme.QUIET)
        if part.is_staircase:
            canvas.text(part.inside, (x + NAMES, y), theme.SMALL)
        else:
            _draw_marks(canvas, (x + NAMES, y + 0.38 * theme.SMALL), part.marks, step)
        y += pitch + LINE * max(count - 1, 0)


def _draw_marks(canvas: Canvas, start: Point, marks: Sequence[Mark], step: float) -> None:
    """Draw the marks of a part in lines of at most A_ROW, `step` canvas units apart."""
    for number, mark in enumerate(marks):
        line, column = divmod(number, A_ROW)
        centre = (start[0] + (column + 0.5) * step, start[1] + line * LINE)
        draw_mark(canvas, centre, min(step * 0.32, LINE * 0.4), mark)
