"""Typeface of the game, Source Sans Pro in two weights: measures and renders lines of text.

Of three open typefaces with figures of equal width it is the one whose strokes are still distinct
at 1280x720 from two metres, and the only one with Greek and Cyrillic for what players name.
"""

from __future__ import annotations

from enum import StrEnum
from importlib.util import find_spec
from io import BytesIO
from pathlib import Path

import pygame

from drills.direction import unturned
from drills.refusal import Refusal
from engine.kit.surface_cache import SurfaceCache

Colour = tuple[int, int, int]

PACKAGE = "font_source_sans_pro"
"""Package that brings the font files and their licence, the SIL Open Font License 1.1."""
EM = 0.78
"""Size of the letters as a share of the height of their line: capitals then fill half of it."""
BASELINE = 0.55
"""Distance from the top of a line to its baseline, as a share of the line's height."""


class Weight(StrEnum):
    """Weight of the typeface, named as the files of the font are."""

    REGULAR = "Regular"
    BOLD = "Semibold"


class TypefaceError(Refusal):
    """The font files are not installed. The message is one line for the player."""


def file_name(weight: Weight) -> str:
    """Name of the font file of a weight, within the folder `files` of its package."""
    return f"SourceSansPro-{weight.value}.ttf"


def font_file(weight: Weight, package: str = PACKAGE) -> bytes:
    """Content of the font file of a weight, a TrueType font. Raises TypefaceError."""
    # Faster than importlib.resources, whose import takes a twentieth of the time to home.
    found = find_spec(package)
    folders = [] if found is None else found.submodule_search_locations or []
    name = file_name(weight)
    try:
        return next(Path(folder, "files", name).read_bytes() for folder in folders)
    except (StopIteration, OSError) as error:
        distribution = package.replace("_", "-")
        raise TypefaceError(
            f"typeface: expected {name} in the package {distribution}, found none; "
            f"`pip install {distribution}` brings it"
        ) from error


class Face:
    """Typeface of the game in one weight at one height: measures and renders lines of text.

    A character that turns the direction of writing is drawn as an escape.
    """

    def __init__(self, font: bytes, weight: Weight, pixels: int, cache: SurfaceCache) -> None:
        """`font` is the content of the font file; `pixels` is the height of a line of text."""
        self._font = pygame.font.Font(BytesIO(font), max(round(EM * pixels), 1))
        self._key = weight, pixels
        self._cache = cache
        self.above = self._font.get_ascent() - round(BASELINE * pixels)
        """How far a rendered line begins above the top of its line, in pixels."""

    def size(self, text: str) -> tuple[int, int]:
        """Width and height of a rendered line of text in pixels."""
        return self._font.size(unturned(text))

    def render(self, text: str, colour: Colour) -> pygame.Surface:
        """Rendered line of text, from the cache if possible; its width must not be 0."""
        shown = unturned(text)
        return self._cache.of(
            (*self._key, shown, colour), lambda: self._font.render(shown, True, colour)
        )
