"""The rows: days and clean ones one after another, with their bests; and no guilt."""

from __future__ import annotations

from engine.kit import theme
from engine.kit.canvas import Canvas, Point
from engine.practice.results import LostRow, Standing

LINE = 54
"""units, from one line to the next."""
AFTER = 8
"""units, after words beside a number."""

STILL_THERE = "The skill is still there."
"""What is said of a row that came to an end."""


def has_any(standing: Standing) -> bool:
    """Whether there is anything to say of rows."""
    counts = (standing.today, standing.clean_row, standing.days_row)
    return any((*counts, standing.best_clean_row, standing.best_days_row))


def rest_words(standing: Standing) -> str:
    """Whether a day may be missed now; empty where there is no row."""
    if not standing.days_row:
        return ""
    if standing.rest_left:
        return "a rest day is left"
    return "" if standing.today or standing.practised else "practise today to go on"


def lost_words(lost: LostRow) -> str:
    """How long a row was, and when."""
    first, last = lost.began, lost.ended
    when = f"{first.day} {first:%b} to {last.day} {last:%b}"
    if (first.year, first.month) == (last.year, last.month):
        when = f"{first.day} to {last.day} {last:%B}"
    return f"{lost.days} days in a row, {when}."


def rows(canvas: Canvas, corner: Point, width: float, standing: Standing) -> None:
    """Line by line: the days with what may be missed and what was lost, then the clean ones."""
    x, y = corner
    if standing.days_row or standing.lost is None:
        y = _row(canvas, (x, y), width, "Days in a row", standing.days_row, standing.best_days_row)
    elif standing.best_days_row > standing.lost.days:
        _best(canvas, (x + width, y + theme.SMALL), f"best {standing.best_days_row}")
    rest = rest_words(standing)
    if rest:
        y = canvas.text(rest, (x, y), theme.SMALL) + AFTER
    if standing.lost is not None:
        for words in (lost_words(standing.lost), STILL_THERE):
            y = canvas.text(words, (x, y), theme.SMALL, theme.QUIET, width=width)
        y += AFTER
    y = _row(canvas, (x, y), width, "Clean in a row", standing.clean_row, standing.best_clean_row)
    if standing.today:
        said = f"{standing.clean_today} of {standing.today}"
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
