"""Typeface of the game with even letter spacing: letters are drawn larger, then scaled down.

At its own size a letter is rounded to whole pixels; drawn four times as large, it is off by an
eighth of a pixel at most. The kerning of the typeface also asks for gaps that are far too wide
between some letters (63 thousandths of its size in "le" and "an", nothing in "nd"), so only kerning
that brings letters closer is used.
"""

from __future__ import annotations

import math
from itertools import accumulate

import pygame

from drills.direction import unturned
from engine.kit.surface_cache import SurfaceCache

Colour = tuple[int, int, int]

LARGER = ((64, 4), (160, 3))
"""Pairs of a height in pixels and the factor by which letters up to it are drawn larger; taller
letters need less, as a pixel matters less in them."""
LARGEST_FACTOR = 2
"""Factor by which letters taller than all heights in LARGER are drawn larger."""
PLAIN = 2000
"""Font height at which letter distances are measured, in pixels: precise to 1/1000 of a letter."""


class LetterSpacing:
    """Distances between letters of the typeface as shares of its height, valid at every height."""

    def __init__(self) -> None:
        self._font = pygame.font.Font(None, PLAIN)
        self._steps: dict[str, float] = {}

    def places(self, text: str) -> list[float]:
        """Left edges of a line's letters, and of one more after it, as shares of the height."""
        pairs = (text[number : number + 2] for number in range(len(text)))
        return list(accumulate((self._step(pair) for pair in pairs), initial=0.0))

    def width(self, text: str) -> float:
        """Width of a line of text as a share of the height; its last letter may jut out."""
        if not text:
            return 0.0
        *_, last, end = self.places(text)
        metrics = self._font.metrics(text[-1])[0]
        return max(end, last + metrics[1] / PLAIN) if metrics else end

    def _step(self, pair: str) -> float:
        """Distance from the first letter of a pair to the second; a single letter's own advance."""
        if pair not in self._steps:
            step = self._advance(pair[0])
            if len(pair) == 2:
                nearer = self._font.size(pair)[0] - step - self._advance(pair[1])
                step += min(nearer, 0)
            self._steps[pair] = step / PLAIN
        return self._steps[pair]

    def _advance(self, letter: str) -> int:
        """Advance of a single letter without kerning, in pixels at height PLAIN."""
        metrics = self._font.metrics(letter)[0]
        return int(metrics[4] if metrics else self._font.size(letter)[0])


class Face:
    """Typeface of the game at one height: measures and renders lines of text.

    A character that turns the direction of writing is drawn as an escape.
    """

    def __init__(self, pixels: int, spacing: LetterSpacing, cache: SurfaceCache) -> None:
        """`pixels` is the height of a line of text."""
        self._pixels = pixels
        self._times = next((times for most, times in LARGER if pixels <= most), LARGEST_FACTOR)
        self._font = pygame.font.Font(None, pixels * self._times)
        self._spacing = spacing
        self._cache = cache

    def size(self, text: str) -> tuple[int, int]:
        """Width and height of a line of text in pixels."""
        width = self._spacing.width(unturned(text)) * self._pixels
        return math.ceil(width), -(-self._font.get_height() // self._times)

    def render(self, text: str, colour: Colour) -> pygame.Surface:
        """Rendered line of text, from the cache if possible; its width must not be 0."""
        shown = unturned(text)
        return self._cache.of((self._pixels, shown, colour), lambda: self._set(shown, colour))

    def _set(self, text: str, colour: Colour) -> pygame.Surface:
        """Render a line, evenly spaced; the layer has the text's colour, so edges keep it."""
        size = self.size(text)
        larger = pygame.Surface((size[0] * self._times, size[1] * self._times), pygame.SRCALPHA, 32)
        larger.fill((*colour, 0))
        for letter, place in zip(text, self._spacing.places(text), strict=False):
            # pygame refuses to render a single character of no width.
            if self._font.size(letter)[0] > 0:
                metrics = self._font.metrics(letter)[0]
                left = min(metrics[0], 0) if metrics else 0
                at = round(place * self._pixels * self._times) + left
                larger.blit(self._font.render(letter, True, colour), (at, 0))
        return pygame.transform.smoothscale(larger, size)
