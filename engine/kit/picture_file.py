"""PNG file of the deviation plot, as the reveal shows it, drawn without a window."""

from __future__ import annotations

import io
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import pygame

from drills.deviation import Bound, Deviation, reach_of
from engine.kit import deviation_plot, theme
from engine.kit.canvas import Canvas, Fonts

SIZE = (1920, 1080)
"""Width and height of a saved picture in pixels."""
EARLIER_SHOWN = 5
"""Largest number of earlier repetitions that a saved picture shows as faint curves."""


HEADING = "The last one bold, those before it faint"
"""Heading of a saved picture with several curves."""


def as_png(pictures: Sequence[Deviation], tolerance: float | None) -> bytes:
    """PNG of the last deviation, drawn bold over the faint ones before it.

    `tolerance`, in points, is drawn as a band about 0.
    """
    pygame.font.init()
    surface = pygame.Surface(SIZE, depth=32)
    canvas = Canvas(surface, Fonts())
    canvas.clear()
    drawn = pictures[-1 - EARLIER_SHOWN :]
    largest = max(float(np.abs(picture.deviation).max()) for picture in drawn)
    bounds = () if tolerance is None else (_band(tolerance, drawn[-1]),)
    last = replace(drawn[-1], reach=reach_of([largest / 2]), bounds=bounds)
    if len(drawn) > 1:
        canvas.text(HEADING, (theme.MARGIN, 84), theme.LARGE)
    corner = (theme.MARGIN, 210)
    size = (theme.WIDTH - 2 * theme.MARGIN, 780)
    deviation_plot.deviation(canvas, corner, size, last, drawn[:-1])
    written = io.BytesIO()
    pygame.image.save(surface, written, "picture.png")
    return written.getvalue()


def _band(tolerance: float, drawn: Deviation) -> Bound:
    during = (float(drawn.time[0]), float(drawn.time[-1]))
    return Bound(f"±{tolerance:g}", -tolerance, tolerance, during)
