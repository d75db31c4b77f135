"""Pictures as PNG files, drawn without a window."""

from __future__ import annotations

import io
from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pygame

from drills.deviation import Bound, Deviation, reach_of
from engine.kit import deviation_plot, theme
from engine.kit.canvas import Canvas, Fonts

SIZE = (1920, 1080)
"""Width and height of a saved picture in pixels."""


def as_png(draw: Callable[[Canvas], object]) -> bytes:
    """PNG of what `draw` draws on an empty canvas."""
    pygame.font.init()
    surface = pygame.Surface(SIZE, depth=32)
    canvas = Canvas(surface, Fonts())
    canvas.clear()
    draw(canvas)
    written = io.BytesIO()
    pygame.image.save(surface, written, "picture.png")
    return written.getvalue()


def deviation_png(picture: Deviation, tolerance: float | None) -> bytes:
    """PNG of one deviation, as the details of the reveal show it.

    `tolerance`, in points, is drawn as a band about 0.
    """
    largest = float(np.abs(picture.deviation).max())
    bounds = () if tolerance is None else (_band(tolerance, picture),)
    shown = replace(picture, reach=reach_of([largest / 2]), bounds=bounds)
    corner = (theme.MARGIN, 210)
    size = (theme.WIDTH - 2 * theme.MARGIN, 780)
    return as_png(lambda canvas: deviation_plot.deviation(canvas, corner, size, shown, limits=True))


def _band(tolerance: float, drawn: Deviation) -> Bound:
    during = (float(drawn.time[0]), float(drawn.time[-1]))
    return Bound(f"±{tolerance:g}", -tolerance, tolerance, during)
