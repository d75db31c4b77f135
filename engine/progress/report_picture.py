"""Picture of progress to share, as PNG: the answer, steadiness over the days, days practised."""

from __future__ import annotations

from engine.date_words import full_words
from engine.kit import picture_file, theme
from engine.kit.area import Area
from engine.kit.canvas import Canvas
from engine.progress.days_words import days_words
from engine.progress.history_pages import PAGES
from engine.progress.history_screens import draw_answer
from engine.progress.progress import Progress

CHARTS = (330.0, 630.0, 690.0, 1000.0)
"""Top and bottom of the chart of steadiness, then of the hill, in canvas units."""
HILL_LEFT = 560.0
"""Left edge of the hill of days practised, right of their count, in canvas units."""
FOOT = 1014
"""Top of the program's name, at the foot of the shared picture, in canvas units."""


def as_png(progress: Progress) -> bytes:
    """Picture of progress as the bytes of a PNG file, drawn without a window."""
    return picture_file.as_png(lambda canvas: _draw(canvas, progress))


def _draw(canvas: Canvas, progress: Progress) -> None:
    left, right = float(theme.MARGIN), float(theme.WIDTH - theme.MARGIN)
    steady, days = PAGES["steadiness"], PAGES["days practised"]
    draw_answer(canvas, steady.question, steady.words(progress))
    top, bottom, hill_top, hill_bottom = CHARTS
    steady.paint(canvas, Area(left, top, right - left, bottom - top), progress)
    words, width = days_words(progress), HILL_LEFT - left - 60
    below = canvas.text(words.lead, (left, hill_top + 40), theme.BODY, width=width) + 12
    canvas.text(words.line.partition(". ")[0], (left, below), theme.SMALL, theme.QUIET, width=width)
    area = Area(HILL_LEFT, hill_top, right - HILL_LEFT, hill_bottom - hill_top)
    days.paint(canvas, area, progress)
    canvas.text("stillfoot", (left, FOOT), theme.SMALL)
    day = full_words(progress.today)
    canvas.text(day, (right, FOOT), theme.SMALL, theme.QUIET, "right")
