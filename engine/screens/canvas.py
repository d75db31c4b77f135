"""Drawing in units of the theme on a window of any size."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

import pygame

from engine.screens import theme

Colour = tuple[int, int, int]
Point = tuple[float, float]
Align = Literal["left", "centre", "right"]

LEADING = 1.0
"""1, distance of lines of text as a share of their size; the typeface fills 0.7 of it."""


class Fonts:
    """The game's typeface in any size, each size made once."""

    def __init__(self) -> None:
        self._made: dict[int, pygame.font.Font] = {}

    def of(self, pixels: int) -> pygame.font.Font:
        """The typeface at a height in pixels."""
        if pixels not in self._made:
            self._made[pixels] = pygame.font.Font(None, pixels)
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
                picture = font.render(line, True, colour)
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
        pygame.draw.rect(self._surface, colour, rect, self._line(line), round(radius * self.scale))
        return rect

    def line(self, start: Point, end: Point, colour: Colour, width: float = 2.0) -> None:
        """A straight line."""
        pygame.draw.line(
            self._surface, colour, self._pixel(start), self._pixel(end), max(self._line(width), 1)
        )

    def curve(self, points: Sequence[Point], colour: Colour, width: float = 2.0) -> None:
        """A line through points."""
        if len(points) > 1:
            pixels = [self._pixel(point) for point in points]
            pygame.draw.lines(self._surface, colour, False, pixels, max(self._line(width), 1))

    def disc(self, centre: Point, radius: float, colour: Colour, line: float = 0.0) -> None:
        """A circle, filled where `line` is 0."""
        pygame.draw.circle(
            self._surface,
            colour,
            self._pixel(centre),
            max(radius * self.scale, 1),
            self._line(line),
        )

    def shape(self, points: Sequence[Point], colour: Colour) -> None:
        """A filled polygon."""
        pygame.draw.polygon(self._surface, colour, [self._pixel(point) for point in points])

    def _font(self, size: float) -> pygame.font.Font:
        return self._fonts.of(max(round(size * self.scale), 8))

    def _line(self, width: float) -> int:
        return max(round(width * self.scale), 1) if width > 0 else 0

    def _pixel(self, point: Point) -> Point:
        return self._left + point[0] * self.scale, self._top + point[1] * self.scale

    def _wrap(self, font: pygame.font.Font, text: str, width: float) -> list[str]:
        limit = width * self.scale
        lines, line = [], ""
        for word in text.split():
            longer = f"{line} {word}" if line else word
            if line and font.size(longer)[0] > limit:
                lines.append(line)
                line = word
            else:
                line = longer
        return [*lines, line]
