"""Rows about streaks on the home screen: days practised and clean repetitions in a row."""

from __future__ import annotations

from engine.kit import theme
from engine.kit.canvas import Canvas, Point
from engine.practice.results import LostStreak, Streaks

LINE = 54
"""Distance from one row about a streak to the next, in canvas units."""
AFTER = 8
"""Gap below a line of words about a streak, in canvas units."""

PASSED_STAYS = "Levels passed stay passed."
"""Sentence beside a streak of days that has ended."""


def has_any(streaks: Streaks) -> bool:
    """Whether there is any streak, best streak or count of today to show."""
    counts = (streaks.today, streaks.clean_streak, streaks.days_streak)
    return any((*counts, streaks.best_clean_streak, streaks.best_days_streak))


def rest_words(streaks: Streaks) -> str:
    """Whether the player may miss a day now, in words; empty if there is no streak of days."""
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
    """Draw the rows: streak of days with its rest day, last streak lost, clean repetitions."""
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
        for words in (lost_words(streaks.lost), PASSED_STAYS):
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
    """Draw name, length and best of a streak; returns the y of the next row, in canvas units."""
    _line(canvas, corner, name, f"{count}")
    words = f"best {best}" if best > count else "your best" if count == best > 1 else ""
    if words:
        _best(canvas, (corner[0] + width, corner[1]), words)
    return corner[1] + LINE


def _best(canvas: Canvas, corner: Point, words: str) -> None:
    """Draw the player's best streak in a quiet colour, at the right end of its row."""
    canvas.text(words, corner, theme.SMALL, theme.QUIET, "right")


def _line(canvas: Canvas, corner: Point, name: str, value: str) -> None:
    """Draw the name of a number in a quiet colour, and the larger number after it."""
    x, y = corner
    canvas.text(name, corner, theme.SMALL, theme.QUIET)
    after = x + canvas.measure(name, theme.SMALL) + 18
    canvas.text(value, (after, y - (theme.BODY - theme.SMALL) * 0.6), theme.BODY)
