"""One picture of progress to share: how quiet the foot got, the one number, and the days."""

from __future__ import annotations

import io

import pygame

from engine.kit import theme
from engine.kit.canvas import Canvas, Fonts
from engine.kit.charts import Area
from engine.kit.charts_dates import full_words
from engine.kit.picture_file import SIZE
from engine.kit.steadiness_chart import steadiness_figure
from engine.progress.history_pages import pages
from engine.progress.progress import Progress
from engine.progress.words import days_words, weeks_words

TOP = 70
"""units from the top, where the number and the words begin."""
BESIDE = 820
"""units from the left, where the words beside the number begin."""
PICTURE = 350
"""units from the top, where the picture begins."""
FOOT = 1010
"""units from the top, where it says what made it."""


def as_png(progress: Progress) -> bytes:
    """The picture as the bytes of a PNG file, drawn without a window."""
    pygame.font.init()
    surface = pygame.Surface(SIZE, depth=32)
    canvas = Canvas(surface, Fonts())
    canvas.clear()
    right = theme.WIDTH - theme.MARGIN
    beside = theme.MARGIN
    if progress.band is not None:
        steadiness_figure(canvas, (theme.MARGIN, TOP), BESIDE - theme.MARGIN - 60, progress.band)
        beside = BESIDE
    y = float(TOP)
    for sentence in (*days_words(progress), *weeks_words(progress)[:1]):
        y = canvas.text(sentence, (beside, y), theme.SMALL, width=right - beside) + 16
    quiet = pages(progress)[0]
    area = Area(theme.MARGIN, PICTURE, right - theme.MARGIN, FOOT - 30 - PICTURE)
    quiet.paint(canvas, area)
    canvas.text("stillfoot", (theme.MARGIN, FOOT), theme.SMALL)
    day = full_words(progress.today)
    canvas.text(day, (right, FOOT), theme.SMALL, theme.QUIET, "right")
    written = io.BytesIO()
    pygame.image.save(surface, written, "picture.png")
    return written.getvalue()
