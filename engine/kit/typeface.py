"""The game's typeface, set evenly: letter by letter, drawn larger, then scaled down.

At its own size a letter is moved to whole pixels; drawn four times as large it is moved by an
eighth of one at most. The typeface also asks for gaps that are far too wide between some pairs
of letters (63 thousandths of its size in "le" and "an", nothing in "nd"): of what it asks for
between two letters only what brings them nearer is heeded.
"""

from __future__ import annotations

import math
from itertools import accumulate

import pygame

from engine.kit.surface_cache import SurfaceCache

Colour = tuple[int, int, int]

LARGER = ((64, 4), (160, 3))
"""Heights in pixels up to which letters are drawn so many times as large: a pixel weighs less in
a large letter."""
LARGER_STILL = 2
"""The same for all above them."""
PLAIN = 2000
"""pixels, height at which distances between letters are taken: to a thousandth of a letter."""


class LetterSpacing:
    """The distances between letters, the same at every height."""

    def __init__(self) -> None:
        self._font = pygame.font.Font(None, PLAIN)
        self._steps: dict[str, float] = {}

    def places(self, text: str) -> list[float]:
        """Where each letter of a line begins, and where one more would; 1 is the height."""
        pairs = (text[number : number + 2] for number in range(len(text)))
        return list(accumulate((self._step(pair) for pair in pairs), initial=0.0))

    def width(self, text: str) -> float:
        """Of a line, whose last letter may reach further than one more would begin."""
        if not text:
            return 0.0
        *_, last, end = self.places(text)
        metrics = self._font.metrics(text[-1])[0]
        return max(end, last + metrics[1] / PLAIN) if metrics else end

    def _step(self, pair: str) -> float:
        """From a letter to the one after it, where there is one."""
        if pair not in self._steps:
            step = self._advance(pair[0])
            if len(pair) == 2:
                nearer = self._font.size(pair)[0] - step - self._advance(pair[1])
                step += min(nearer, 0)
            self._steps[pair] = step / PLAIN
        return self._steps[pair]

    def _advance(self, letter: str) -> int:
        """plain pixels from a letter to the next, by itself."""
        metrics = self._font.metrics(letter)[0]
        return int(metrics[4] if metrics else self._font.size(letter)[0])


class Face:
    """The typeface at one height."""

    def __init__(self, pixels: int, spacing: LetterSpacing, kept: SurfaceCache) -> None:
        """`pixels` is its height."""
        self._pixels = pixels
        self._times = next((times for most, times in LARGER if pixels <= most), LARGER_STILL)
        self._font = pygame.font.Font(None, pixels * self._times)
        self._spacing = spacing
        self._kept = kept

    def size(self, text: str) -> tuple[int, int]:
        """pixels, width and height of a line of text."""
        width = self._spacing.width(text) * self._pixels
        return math.ceil(width), -(-self._font.get_height() // self._times)

    def render(self, text: str, colour: Colour) -> pygame.Surface:
        """A line of text that has a width."""
        return self._kept.of((self._pixels, text, colour), lambda: self._set(text, colour))

    def _set(self, text: str, colour: Colour) -> pygame.Surface:
        """The line, clear in its own colour, so that the edges of letters keep it."""
        size = self.size(text)
        larger = pygame.Surface((size[0] * self._times, size[1] * self._times), pygame.SRCALPHA, 32)
        larger.fill((*colour, 0))
        for letter, place in zip(text, self._spacing.places(text), strict=False):
            # Characters without a width cannot be rendered by themselves.
            if self._font.size(letter)[0] > 0:
                metrics = self._font.metrics(letter)[0]
                left = min(metrics[0], 0) if metrics else 0
                at = round(place * self._pixels * self._times) + left
                larger.blit(self._font.render(letter, True, colour), (at, 0))
        return pygame.transform.smoothscale(larger, size)
