"""Lines about streaks for home: days practised and clean repetitions in a row, with their bests."""

from __future__ import annotations

from engine.kit import theme
from engine.kit.canvas import Canvas, Point
from engine.practice.results import LostStreak, Streaks

LINE = 54
"""Distance from one line to the next, in canvas units."""
AFTER = 8
"""Gap after a line of words, in canvas units."""

STILL_THERE = "The skill is still there."
"""Sentence beside a streak of days that came to an end."""


def has_any(streaks: Streaks) -> bool:
    """Whether there is any streak or count to show."""
    counts = (streaks.today, streaks.clean_streak, streaks.days_streak)
    return any((*counts, streaks.best_clean_streak, streaks.best_days_streak))


def rest_words(streaks: Streaks) -> str:
    """Whether a day may be missed now, in words; empty where there is no streak."""
    if not streaks.days_streak:
        return ""
    if streaks.rest_left:
        return "a rest day is left"
    return "" if streaks.today or streaks.practised else "practise today to go on"


def lost_words(lost: LostStreak) -> str:
    """Length and dates of a streak that ended, in words."""
    first, last = lost.began, lost.ended
    when = f"{first.day} {first:%b} to {last.day} {last:%b}"
    if (first.year, first.month) == (last.year, last.month):
        when = f"{first.day} to {last.day} {last:%B}"
    return f"{lost.days} days in a row, {when}."


def rows(canvas: Canvas, corner: Point, width: float, streaks: Streaks) -> None:
    """Draw the streak of days with its rest day and its last end, then that of clean ones."""
    x, y = corner
    if streaks.days_streak or streaks.lost is None:
        y = _streak_line(
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
    y = _streak_line(
        canvas, (x, y), width, "Clean in a row", streaks.clean_streak, streaks.best_clean_streak
    )
    if streaks.today:
        _line(canvas, (x, y), "Clean today", f"{streaks.clean_today} of {streaks.today}")


def _streak_line(
    canvas: Canvas, corner: Point, width: float, name: str, count: int, best: int
) -> float:
    """Draw the name, length and best of one streak; the y of the next line, in canvas units."""
    _line(canvas, corner, name, f"{count}")
    words = f"best {best}" if best > count else "your best" if count == best > 1 else ""
    if words:
        _best(canvas, (corner[0] + width, corner[1]), words)
    return corner[1] + LINE


def _best(canvas: Canvas, corner: Point, words: str) -> None:
    """Draw the best of a streak, quietly, at the right end of its line."""
    canvas.text(words, corner, theme.SMALL, theme.QUIET, "right")


def _line(canvas: Canvas, corner: Point, name: str, value: str) -> None:
    """Draw a name quietly, and its number larger after it."""
    x, y = corner
    canvas.text(name, corner, theme.SMALL, theme.QUIET)
    after = x + canvas.measure(name, theme.SMALL) + 18
    canvas.text(value, (after, y - (theme.BODY - theme.SMALL) * 0.6), theme.BODY)
