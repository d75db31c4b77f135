"""Cache of rendered surfaces: lines of text, smooth curves, corners."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Hashable

import pygame

LIMIT = 24_000_000
"""Memory for cached surfaces, in bytes: twice what a reveal at 2560x1440 needs."""


class SurfaceCache:
    """Rendered surfaces by a key of all they depend on; drops the least recently used first."""

    def __init__(self, limit: int = LIMIT) -> None:
        """`limit` is the memory for all cached surfaces, in bytes."""
        self._limit = limit
        self._pictures: OrderedDict[Hashable, pygame.Surface] = OrderedDict()
        self._bytes = 0

    def __len__(self) -> int:
        return len(self._pictures)

    @property
    def bytes(self) -> int:
        """Memory that the cached surfaces take, in bytes."""
        return self._bytes

    def of(self, key: Hashable, make: Callable[[], pygame.Surface]) -> pygame.Surface:
        """Cached surface of a key; `make` renders it if it is not there."""
        if key in self._pictures:
            self._pictures.move_to_end(key)
            return self._pictures[key]
        picture = make()
        self._pictures[key] = picture
        self._bytes += _bytes(picture)
        while self._bytes > self._limit and len(self._pictures) > 1:
            _, gone = self._pictures.popitem(last=False)
            self._bytes -= _bytes(gone)
        return picture


def _bytes(picture: pygame.Surface) -> int:
    return picture.get_width() * picture.get_height() * picture.get_bytesize()
