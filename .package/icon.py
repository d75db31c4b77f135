"""Icon of the game as `stillfoot.ico` and `stillfoot.png`: a shoe at rest under a level bubble.

    python .package/icon.py

Draws both files anew beside this one; they are committed, so that a build needs no drawing.
"""

from __future__ import annotations

import io
import struct
import sys
from pathlib import Path

import pygame

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent))

from engine.kit import theme  # noqa: E402

SIZES = (16, 24, 32, 48, 64, 128, 256)
"""Widths of the pictures in the .ico file, in pixels."""
LARGEST = 256
"""Width of the .png file in pixels, and of the icon in units that everything is drawn in."""
SMALL = 32
"""Largest width of a picture that is drawn without its finest lines, in pixels."""
FINER = 8
"""Factor by which a picture is drawn larger before it is scaled down."""
CORNER = 52
"""Radius of the corners of the icon, in units."""
STEPS = 40
"""Straight pieces that stand for one curve of the shoe."""

Point = tuple[float, float]
Curve = tuple[Point, Point, Point, Point]

SHOE: tuple[Curve, ...] = (
    ((36, 198), (90, 198), (150, 198), (206, 198)),
    ((206, 198), (228, 198), (230, 170), (194, 161)),
    ((194, 161), (164, 153), (146, 142), (132, 118)),
    ((132, 118), (126, 107), (112, 110), (98, 114)),
    ((98, 114), (84, 118), (74, 116), (62, 111)),
    ((62, 111), (50, 108), (52, 132), (46, 150)),
    ((46, 150), (39, 168), (36, 180), (36, 198)),
)
"""Outline of the shoe from its side, as curves by the points that pull them, in units."""
SOLE = (32, 206, 194, 18)
"""Left, top, width and height of the sole, in units."""
TUBE = (44, 34, 168, 50)
"""Left, top, width and height of the tube of the spirit level, in units."""
BUBBLE = 18
"""Radius of the bubble, in units."""
MARKS = 32
"""Distance of the two lines of the spirit level from its middle, in units."""


def picture(size: int) -> pygame.Surface:
    """The icon, `size` pixels wide and high, with transparent corners."""
    wide = size * FINER
    small = size <= SMALL
    surface = pygame.Surface((wide, wide), pygame.SRCALPHA, 32)
    scale = wide / LARGEST

    def box(
        place: tuple[float, float, float, float],
        colour: tuple[int, int, int],
        radius: float,
        line: float,
    ) -> None:
        rect = pygame.Rect(*(round(value * scale) for value in place))
        pygame.draw.rect(surface, colour, rect, round(line * scale), round(radius * scale))

    box((0, 0, LARGEST, LARGEST), theme.GROUND, CORNER, 0)
    left, top, width, height = TUBE
    middle = left + width / 2
    if small:
        centre, radius = (middle * scale, (top + height / 2) * scale), 1.45 * BUBBLE * scale
        pygame.draw.circle(surface, theme.BRAKE, centre, radius)
    else:
        box(TUBE, theme.RAISED, height / 2, 0)
        box(TUBE, theme.FAINT, height / 2, 4)
        centre = (middle * scale, (top + height / 2) * scale)
        pygame.draw.circle(surface, theme.BRAKE, centre, BUBBLE * scale)
    reach = 58.0 if small else MARKS
    thick = 16.0 if small else 5.0
    for side in (-1, 1):
        box((middle + side * reach - thick / 2, top, thick, height), theme.TEXT, 0, 0)
    outline = [(x * scale, y * scale) for curve in SHOE for x, y in _points(curve)]
    pygame.draw.polygon(surface, theme.TEXT, outline)
    box(SOLE, theme.THROTTLE, 8, 0)
    return pygame.transform.smoothscale(surface, (size, size))


def _points(curve: Curve) -> list[Point]:
    """Points along a cubic Bézier curve."""
    found = []
    for step in range(STEPS):
        t = step / STEPS
        shares = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
        x, y = (sum(w * p[i] for w, p in zip(shares, curve, strict=True)) for i in (0, 1))
        found.append((x, y))
    return found


def as_png(surface: pygame.Surface) -> bytes:
    """A picture as the bytes of a PNG file."""
    written = io.BytesIO()
    pygame.image.save(surface, written, "icon.png")
    return written.getvalue()


def as_ico(pictures: list[pygame.Surface]) -> bytes:
    """Pictures of at most 256 pixels as the bytes of one .ico file, which holds them as PNG."""
    files = [as_png(one) for one in pictures]
    head = struct.pack("<HHH", 0, 1, len(files))
    start = len(head) + 16 * len(files)
    for one, file in zip(pictures, files, strict=True):
        # A byte holds each side: 256 is written as 0.
        side = one.get_width() % 256
        head += struct.pack("<BBBBHHII", side, side, 0, 0, 1, 32, len(file), start)
        start += len(file)
    return head + b"".join(files)


def main() -> None:
    """Draw both files."""
    (HERE / "stillfoot.png").write_bytes(as_png(picture(LARGEST)))
    (HERE / "stillfoot.ico").write_bytes(as_ico([picture(size) for size in SIZES]))


if __name__ == "__main__":
    main()
