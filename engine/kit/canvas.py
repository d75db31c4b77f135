"""Canvas that draws in the units of the theme, whatever the size of the window in pixels."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from typing import Literal

import pygame

from engine.kit import smooth, theme
from engine.kit.surface_cache import SurfaceCache
from engine.kit.typeface import Face, Weight, font_file

Colour = tuple[int, int, int]
Point = tuple[float, float]
Align = Literal["left", "centre", "right"]

LEADING = 1.0
"""Distance between lines of text as a share of their size; letters fill 0.7 of the size."""
ALONG = 0.5
"""Largest slant, end to end, of a line that is drawn horizontal or vertical, in pixels."""


class Fonts:
    """Typeface of the game in every weight and size, with the cache of rendered surfaces."""

    def __init__(self) -> None:
        self._files: dict[Weight, bytes] = {}
        self._faces: dict[tuple[Weight, int], Face] = {}
        self.cache = SurfaceCache()

    def of(self, pixels: int, weight: Weight = Weight.REGULAR) -> Face:
        """Typeface of the game in one weight, for lines of text of a height in pixels."""
        if weight not in self._files:
            self._files[weight] = font_file(weight)
        if (weight, pixels) not in self._faces:
            font = self._files[weight]
            self._faces[weight, pixels] = Face(font, weight, pixels, self.cache)
        return self._faces[weight, pixels]


class Canvas:
    """Largest 16:9 area in the middle of a surface, drawn on in units of the theme."""

    def __init__(self, surface: pygame.Surface, fonts: Fonts) -> None:
        width, height = surface.get_size()
        self._surface = surface
        self._fonts = fonts
        self.scale = min(width / theme.WIDTH, height / theme.HEIGHT)
        """Size of a canvas unit in pixels of the surface."""
        self._left = (width - theme.WIDTH * self.scale) / 2
        self._top = (height - theme.HEIGHT * self.scale) / 2

    def clear(self) -> None:
        """Fill the surface with the background colour."""
        self._surface.fill(theme.GROUND)

    @contextmanager
    def clipped(self, area: pygame.Rect) -> Iterator[None]:
        """Draw only within an area in pixels, as long as this lasts."""
        before = self._surface.get_clip()
        self._surface.set_clip(area.clip(before))
        try:
            yield
        finally:
            self._surface.set_clip(before)

    def text(
        self,
        text: str,
        at: Point,
        size: float = theme.BODY,
        colour: Colour = theme.TEXT,
        align: Align = "left",
        width: float | None = None,
        weight: Weight = Weight.REGULAR,
    ) -> float:
        """Write text with its top at `at`, in lines no wider than `width`, in canvas units.

        Returns the top of the line that would come after it.
        """
        font = self._font(size, weight)
        x, y = at
        for line in [text] if width is None else self._wrap(font, text, width):
            # Characters without a width cannot be rendered by themselves.
            if font.size(line)[0] > 0:
                picture = font.render(line, colour)
                left, top = self._pixel((x, y))
                shift = {"left": 0.0, "centre": 0.5, "right": 1.0}[align] * picture.get_width()
                self._surface.blit(picture, (round(left - shift), round(top) - font.above))
            y += size * LEADING
        return y

    def measure(
        self, text: str, size: float = theme.BODY, weight: Weight = Weight.REGULAR
    ) -> float:
        """Width of a line of text in canvas units."""
        return self._font(size, weight).size(text)[0] / self.scale

    def fitted(
        self,
        text: str,
        width: float,
        size: float = theme.BODY,
        weight: Weight = Weight.REGULAR,
    ) -> str:
        """Line of text, cut after a word and ended with "..." if wider than `width` units."""
        if self.measure(text, size, weight) <= width:
            return text
        words = text.split()
        while words and self.measure(" ".join(words) + " ...", size, weight) > width:
            words.pop()
        return " ".join([*words, "..."]) if words else ""

    def cut(
        self,
        text: str,
        width: float,
        size: float = theme.BODY,
        weight: Weight = Weight.REGULAR,
    ) -> str:
        """Line of text fitted to `width` as by `fitted`; a long word, as of a name, is cut within.

        A word is long where it is the first, or alone takes half of `width`.
        """
        line = self.fitted(text, width, size, weight)
        words = text.split()
        whole = 0 if line == "" else len(line.split()) - 1
        if line == text or not words:
            return line
        if whole and self.measure(words[whole], size, weight) < width / 2:
            return line
        start, word = "".join(f"{one} " for one in words[:whole]), words[whole]
        while word and self.measure(f"{start}{word}...", size, weight) > width:
            word = word[:-1]
        return f"{start}{word}..." if word else line

    def fullest(self, wordings: Iterable[str], width: float, size: float = theme.BODY) -> str:
        """First of several wordings of a line that fits `width`; where none does the last, cut."""
        words = ""
        for words in wordings:
            if self.measure(words, size) <= width:
                return words
        return self.cut(words, width, size)

    def box(
        self,
        corner: Point,
        size: Point,
        colour: Colour,
        radius: float = 0.0,
        line: float = 0.0,
    ) -> pygame.Rect:
        """Draw a rectangle, filled if `line` is 0, else outlined; returns the pixels it covers."""
        left, top = self._pixel(corner)
        right, bottom = self._pixel((corner[0] + size[0], corner[1] + size[1]))
        rect = pygame.Rect(
            round(left), round(top), round(right) - round(left), round(bottom) - round(top)
        )
        rounded = round(radius * self.scale)
        smooth.box(self._surface, rect, colour, rounded, self._line(line), self._fonts.cache)
        return rect

    def pixels(self, corner: Point, size: Point) -> pygame.Rect:
        """Pixels that an area covers, those at its edge that it covers in part included."""
        left, top = (math.floor(value) for value in self._pixel(corner))
        end = self._pixel((corner[0] + size[0], corner[1] + size[1]))
        right, bottom = (math.ceil(value) for value in end)
        return pygame.Rect(left, top, right - left, bottom - top)

    def line(self, start: Point, end: Point, colour: Colour, width: float = 2.0) -> None:
        """Draw a straight line; a horizontal or vertical one lies on whole pixels, to be sharp."""
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
        """Draw a line through points, from each to the next."""
        if len(points) > 1:
            pixels = [self._pixel(point) for point in points]
            thick = max(width * self.scale, 1.0)
            smooth.curve(self._surface, pixels, colour, thick, self._fonts.cache)

    def disc(self, centre: Point, radius: float, colour: Colour, line: float = 0.0) -> None:
        """Draw a circle: filled if `line` is 0, else an outline `line` wide."""
        at, thick = self._pixel(centre), line * self.scale
        smooth.disc(self._surface, at, radius * self.scale, colour, thick, self._fonts.cache)

    def shape(self, points: Sequence[Point], colour: Colour) -> None:
        """Draw a filled polygon."""
        pixels = [self._pixel(point) for point in points]
        smooth.shape(self._surface, pixels, colour, self._fonts.cache)

    def moving_shape(self, points: Sequence[Point], colour: Colour) -> None:
        """Draw a filled polygon that is another one in every picture: quickly, and not cached."""
        left, top, scale = self._left, self._top, self.scale
        pixels = [(left + x * scale, top + y * scale) for x, y in points]
        smooth.moving_shape(self._surface, pixels, colour)

    def veil(
        self, corner: Point, size: Point, colour: Colour, radius: float, strength: float
    ) -> None:
        """Tint a rectangle with round corners; `strength`: 0 leaves it as it is, 1 covers it."""
        area = self.pixels(corner, size)
        rounded = round(radius * self.scale)
        smooth.veil(self._surface, area, colour, rounded, strength, self._fonts.cache)

    def glow(self, centre: Point, radius: float, colour: Colour, strength: float) -> None:
        """Draw light that fades from a centre to nothing at a radius; `strength`: 0 to 1."""
        at, reach = self._pixel(centre), round(radius * self.scale)
        smooth.glow(self._surface, at, reach, colour, strength, self._fonts.cache)

    def _font(self, size: float, weight: Weight) -> Face:
        return self._fonts.of(max(round(size * self.scale), 8), weight)

    def _line(self, width: float) -> int:
        return max(round(width * self.scale), 1) if width > 0 else 0

    def _pixel(self, point: Point) -> Point:
        return self._left + point[0] * self.scale, self._top + point[1] * self.scale

    def _wrap(self, font: Face, text: str, width: float) -> list[str]:
        return wrapped(text, width * self.scale, lambda line: font.size(line)[0])


def wrapped(text: str, width: float, measure: Callable[[str], float]) -> list[str]:
    """Text broken into lines no wider than `width`, as `measure` says.

    A word that is wider, such as a path, is broken anywhere.
    """
    lines, line = [], ""
    words = (part for word in text.split() for part in _parts(word, width, measure))
    for word in words:
        longer = f"{line} {word}" if line else word
        if line and measure(longer) > width:
            lines.append(line)
            line = word
        else:
            line = longer
    return [*lines, line]


def _parts(word: str, width: float, measure: Callable[[str], float]) -> Iterator[str]:
    """A word, or if it is wider than `width`, the parts into which it is broken."""
    while measure(word) > width and len(word) > 1:
        most = next(
            count
            for count in range(len(word) - 1, 0, -1)
            if count == 1 or measure(word[:count]) <= width
        )
        yield word[:most]
        word = word[most:]
    yield word
