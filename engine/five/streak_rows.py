"""The rows: days and clean ones one after another, with their bests; and no guilt."""

from __future__ import annotations

from engine.kit import theme
from engine.kit.canvas import Canvas, Point
from engine.practice.results import LostStreak, Streaks

LINE = 54
"""units, from one line to the next."""
AFTER = 8
"""units, after words beside a number."""

STILL_THERE = "The skill is still there."
"""What is said of a row that came to an end."""


def has_any(streaks: Streaks) -> bool:
    """Whether there is anything to say of rows."""
    counts = (streaks.today, streaks.clean_streak, streaks.days_streak)
    return any((*counts, streaks.best_clean_streak, streaks.best_days_streak))


def rest_words(streaks: Streaks) -> str:
    """Whether a day may be missed now; empty where there is no row."""
    if not streaks.days_streak:
        return ""
    if streaks.rest_left:
        return "a rest day is left"
    return "" if streaks.today or streaks.practised else "practise today to go on"


def lost_words(lost: LostStreak) -> str:
    """How long a row was, and when."""
    first, last = lost.began, lost.ended
    when = f"{first.day} {first:%b} to {last.day} {last:%b}"
    if (first.year, first.month) == (last.year, last.month):
        when = f"{first.day} to {last.day} {last:%B}"
    return f"{lost.days} days in a row, {when}."


def rows(canvas: Canvas, corner: Point, width: float, streaks: Streaks) -> None:
    """Line by line: the days with what may be missed and what was lost, then the clean ones."""
    x, y = corner
    if streaks.days_streak or streaks.lost is None:
        y = _row(
            canvas, (x, y), width, "Days in a row", streaks.days_streak, streaks.best_days_streak
        )
    elif streaks.best_days_streak > streaks.lost.days:
        _best(canvas, (x + width, y + theme.SMALL), f"best {streaks.best_days_streak}")
    rest = rest_words(streaks)
    if rest:
        y = canvas.text(rest, (x, y), theme.SMALL) + AFTER
    if streaks.lost is not None:
        for words in (lost_words(streaks.lost), STILL_THERE):
            y = canvas.text(words, (x, y), theme.SMALL, theme.QUIET, width=width)
        y += AFTER
    y = _row(
        canvas, (x, y), width, "Clean in a row", streaks.clean_streak, streaks.best_clean_streak
    )
    if streaks.today:
        said = f"{streaks.clean_today} of {streaks.today}"
        _line(canvas, (x, y), "Clean today", said)


def _row(canvas: Canvas, corner: Point, width: float, name: str, count: int, best: int) -> float:
    """A name, how many there are, and the most there ever were; where the next line goes."""
    _line(canvas, corner, name, f"{count}")
    said = f"best {best}" if best > count else "your best" if count == best > 1 else ""
    if said:
        _best(canvas, (corner[0] + width, corner[1]), said)
    return corner[1] + LINE


def _best(canvas: Canvas, corner: Point, said: str) -> None:
    """A quiet word at the right of a line."""
    canvas.text(said, corner, theme.SMALL, theme.QUIET, "right")


def _line(canvas: Canvas, corner: Point, name: str, value: str) -> None:
    """A quiet name, and its number larger after it."""
    x, y = corner
    canvas.text(name, corner, theme.SMALL, theme.QUIET)
    after = x + canvas.measure(name, theme.SMALL) + 18
    canvas.text(value, (after, y - (theme.BODY - theme.SMALL) * 0.6), theme.BODY)
