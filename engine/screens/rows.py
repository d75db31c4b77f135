"""The rows: days and clean ones one after another, with their bests; and no guilt."""

from __future__ import annotations

from engine.practice.results import LostRow, Standing
from engine.screens import theme
from engine.screens.canvas import Canvas, Point

LINE = 58
"""units, from one line to the next."""


def rest_words(standing: Standing) -> str:
    """Whether a day may be missed now; empty where there is no row."""
    if not standing.days_row:
        return ""
    if standing.rest_left:
        return "a rest day is left"
    return "" if standing.today else "practise today to go on"


def lost_words(lost: LostRow) -> str:
    """How long a row was and when, and that nothing is lost with it."""
    first, last = lost.began, lost.ended
    began = f"{first.day}" if first.month == last.month else f"{first.day} {first:%B}"
    return f"{lost.days} days in a row, {began} to {last.day} {last:%B}. The skill is still there."


def rows(canvas: Canvas, corner: Point, width: float, standing: Standing) -> float:
    """Line by line; where the next thing may begin."""
    x, y = corner
    lines = [
        ("Days in a row", standing.days_row, standing.best_days_row),
        ("Clean in a row", standing.clean_row, standing.best_clean_row),
    ]
    for name, count, best in lines:
        canvas.text(f"{name} {count}", (x, y), theme.SMALL)
        if best > count:
            canvas.text(f"best {best}", (x + width, y), theme.SMALL, theme.QUIET, "right")
        y += LINE
    return y
