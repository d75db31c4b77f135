"""The picture of the reveal as a file, drawn without a window."""

from __future__ import annotations

import io
from collections.abc import Sequence
from pathlib import Path

import pygame

from drills.deviation import Deviation
from engine.screens import plot, theme
from engine.screens.canvas import Canvas, Fonts

SIZE = (1920, 1080)
"""pixels."""
EARLIER_SHOWN = 5
"""count of earlier pictures drawn faintly."""


def save_picture(path: Path, pictures: Sequence[Deviation], tolerance: float) -> None:
    """Draw the last picture boldly over those before it, and save it as PNG. Raises OSError."""
    pygame.font.init()
    surface = pygame.Surface(SIZE, depth=32)
    canvas = Canvas(surface, Fonts())
    canvas.clear()
    heading = "Brake against what was held"
    canvas.text(heading, (theme.MARGIN, 84), theme.LARGE)
    corner = (theme.MARGIN, 210)
    size = (theme.WIDTH - 2 * theme.MARGIN, 780)
    plot.deviation(canvas, corner, size, pictures[-1], pictures[-1 - EARLIER_SHOWN : -1], tolerance)
    # libpng complains by itself about a disk that is full, so it writes to memory.
    written = io.BytesIO()
    pygame.image.save(surface, written, "picture.png")
    path.write_bytes(written.getvalue())
