"""Drawing in units of the theme on a window of any size."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Literal

import pygame

from engine.kit import smooth, theme
from engine.kit.surface_cache import SurfaceCache
from engine.kit.typeface import Face, LetterSpacing

Colour = tuple[int, int, int]
Point = tuple[float, float]
Align = Literal["left", "centre", "right"]

LEADING = 1.0
"""1, distance of lines of text as a share of their size; the typeface fills 0.7 of it."""
ALONG = 0.5
"""pixels, by which the ends of a line may differ that runs across or down."""


class Fonts:
    """The game's typeface in any size, each size made once, and the pictures made before."""

    def __init__(self) -> None:
        self._made: dict[int, Face] = {}
        self._spacing: LetterSpacing | None = None
        self.kept = SurfaceCache()

    def of(self, pixels: int) -> Face:
        """The typeface at a height in pixels."""
        if self._spacing is None:
            self._spacing = LetterSpacing()
        if pixels not in self._made:
            self._made[pixels] = Face(pixels, self._spacing, self.kept)
        return self._made[pixels]


class Canvas:
    """One picture: the largest 16:9 area in the middle of a surface, in units of the theme."""

    def __init__(self, surface: pygame.Surface, fonts: Fonts) -> None:
        width, height = surface.get_size()
        self._surface = surface
        self._fonts = fonts
        self.scale = min(width / theme.WIDTH, height / theme.HEIGHT)
        """pixels a unit."""
        self._left = (width - theme.WIDTH * self.scale) / 2
        self._top = (height - theme.HEIGHT * self.scale) / 2

    def clear(self) -> None:
        """Everything to the ground colour."""
        self._surface.fill(theme.GROUND)

    def text(
        self,
        text: str,
        at: Point,
        size: float = theme.BODY,
        colour: Colour = theme.TEXT,
        align: Align = "left",
        width: float | None = None,
    ) -> float:
        """Write text with its top at `at`, in lines no wider than `width`; where the next goes."""
        font = self._font(size)
        x, y = at
        for line in [text] if width is None else self._wrap(font, text, width):
            # Characters without a width cannot be rendered by themselves.
            if font.size(line)[0] > 0:
                picture = font.render(line, colour)
                left, top = self._pixel((x, y))
                shift = {"left": 0.0, "centre": 0.5, "right": 1.0}[align] * picture.get_width()
                self._surface.blit(picture, (round(left - shift), round(top)))
            y += size * LEADING
        return y

    def measure(self, text: str, size: float = theme.BODY) -> float:
        """Width of a line of text in units."""
        return self._font(size).size(text)[0] / self.scale

    def fitted(self, text: str, width: float, size: float = theme.BODY) -> str:
        """The text, cut at a word and marked so where it is wider than `width` units."""
        if self.measure(text, size) <= width:
            return text
        words = text.split()
        while words and self.measure(" ".join(words) + " ...", size) > width:
            words.pop()
        return " ".join([*words, "..."]) if words else ""

    def cut(self, text: str, width: float, size: float = theme.BODY) -> str:
        """The text, cut within a word where a single one is wider than `width` units."""
        shown = self.fitted(text, width, size)
        while not shown and text:
            text = text[:-1].rstrip()
            shown = f"{text}..." if self.measure(f"{text}...", size) <= width else ""
        return shown

    def box(
        self,
        corner: Point,
        size: Point,
        colour: Colour,
        radius: float = 0.0,
        line: float = 0.0,
    ) -> pygame.Rect:
        """A rectangle, filled where `line` is 0; the pixels it covers."""
        left, top = self._pixel(corner)
        right, bottom = self._pixel((corner[0] + size[0], corner[1] + size[1]))
        rect = pygame.Rect(
            round(left), round(top), round(right) - round(left), round(bottom) - round(top)
        )
        rounded = round(radius * self.scale)
        smooth.box(self._surface, rect, colour, rounded, self._line(line), self._fonts.kept)
        return rect

    def line(self, start: Point, end: Point, colour: Colour, width: float = 2.0) -> None:
        """A straight line; one across or down is drawn on whole pixels, where it is sharpest."""
        (x, y), (x2, y2) = self._pixel(start), self._pixel(end)
        thick = max(self._line(width), 1)
        if abs(x - x2) < ALONG or abs(y - y2) < ALONG:
            at = round(min(x, x2)), round(min(y, y2))
            size = round(abs(x2 - x)), round(abs(y2 - y))
            if size[0] < size[1]:
                sharp = (at[0] - thick // 2, at[1], thick, size[1])
            else:
                sharp = (at[0], at[1] - thick // 2, size[0], thick)
            self._surface.fill(colour, sharp)
        else:
            self.curve([start, end], colour, width)

    def curve(self, points: Sequence[Point], colour: Colour, width: float = 2.0) -> None:
        """A line through points."""
        if len(points) > 1:
            pixels = [self._pixel(point) for point in points]
            thick = max(width * self.scale, 1.0)
            smooth.curve(self._surface, pixels, colour, thick, self._fonts.kept)

    def disc(self, centre: Point, radius: float, colour: Colour, line: float = 0.0) -> None:
        """A circle, filled where `line` is 0."""
        at, thick = self._pixel(centre), line * self.scale
        smooth.disc(self._surface, at, radius * self.scale, colour, thick, self._fonts.kept)

    def shape(self, points: Sequence[Point], colour: Colour) -> None:
        """A filled polygon."""
        pixels = [self._pixel(point) for point in points]
        smooth.shape(self._surface, pixels, colour, self._fonts.kept)

    def _font(self, size: float) -> Face:
        return self._fonts.of(max(round(size * self.scale), 8))

    def _line(self, width: float) -> int:
        return max(round(width * self.scale), 1) if width > 0 else 0

    def _pixel(self, point: Point) -> Point:
        return self._left + point[0] * self.scale, self._top + point[1] * self.scale

    def _wrap(self, font: Face, text: str, width: float) -> list[str]:
        return wrapped(text, width * self.scale, lambda line: font.size(line)[0])


def wrapped(text: str, width: float, measure: Callable[[str], float]) -> list[str]:
    """A text in lines that are no wider than this, but for a single word that is."""
    lines, line = [], ""
    for word in text.split():
        longer = f"{line} {word}" if line else word
        if line and measure(longer) > width:
            lines.append(line)
            line = word
        else:
            line = longer
    return [*lines, line]
