"""Picture of progress to share, as PNG: the foot getting quiet, steadiness, days practised."""

from __future__ import annotations

from engine.kit import picture_file, theme
from engine.kit.canvas import Canvas
from engine.kit.charts import Area
from engine.kit.charts_dates import full_words
from engine.kit.steadiness_chart import steadiness_figure
from engine.progress.history_pages import PAGES
from engine.progress.progress import Progress
from engine.progress.words import days_words, weeks_words

TOP = 70
"""Top of the steadiness number and of the words in the shared picture, in canvas units."""
BESIDE = 820
"""Left edge of the words beside the steadiness number, in canvas units."""
CHART = 350
"""Top of the chart in the shared picture, in canvas units."""
FOOT = 1010
"""Top of the program's name, at the foot of the shared picture, in canvas units."""


def as_png(progress: Progress) -> bytes:
    """Picture of progress as the bytes of a PNG file, drawn without a window."""
    return picture_file.as_png(lambda canvas: _draw(canvas, progress))


def _draw(canvas: Canvas, progress: Progress) -> None:
    right = theme.WIDTH - theme.MARGIN
    beside = theme.MARGIN
    if progress.steadiness is not None:
        width = BESIDE - theme.MARGIN - 60
        steadiness_figure(canvas, (theme.MARGIN, TOP), width, progress.steadiness)
        beside = BESIDE
    y = float(TOP)
    for sentence in (*days_words(progress), *weeks_words(progress)[:1]):
        y = canvas.text(sentence, (beside, y), theme.SMALL, width=right - beside) + 16
    area = Area(theme.MARGIN, CHART, right - theme.MARGIN, FOOT - 30 - CHART)
    PAGES["the foot getting quiet"].paint(canvas, area, progress)
    canvas.text("stillfoot", (theme.MARGIN, FOOT), theme.SMALL)
    day = full_words(progress.today)
    canvas.text(day, (right, FOOT), theme.SMALL, theme.QUIET, "right")
