"""The surface cache: each surface is rendered once, and the least recently used dropped first."""

from functools import partial

import pygame

from engine.kit.surface_cache import SurfaceCache

SIDE = 10
WEIGHT = SIDE * SIDE * 4  # bytes of one picture


class Painter:
    """Renders surfaces through a cache, and records which it renders."""

    def __init__(self, limit: int) -> None:
        self.cache = SurfaceCache(limit)
        self.made: list[str] = []

    def show(self, *names: str) -> None:
        """Draw surfaces one after another."""
        for name in names:
            self.cache.of(name, partial(self._make, name))

    def _make(self, name: str) -> pygame.Surface:
        self.made.append(name)
        return pygame.Surface((SIDE, SIDE), pygame.SRCALPHA, 32)


def test_a_surface_is_rendered_once() -> None:
    painter = Painter(10 * WEIGHT)

    painter.show("a", "b", "a", "a", "b")

    assert painter.made == ["a", "b"]


def test_the_cache_never_exceeds_its_limit() -> None:
    painter = Painter(3 * WEIGHT)

    painter.show(*(str(number) for number in range(50)))

    assert (len(painter.cache), painter.cache.bytes) == (3, 3 * WEIGHT)


def test_the_least_recently_used_surface_is_dropped_first() -> None:
    painter = Painter(2 * WEIGHT)

    painter.show("a", "b", "a", "c", "a", "b")

    assert painter.made == ["a", "b", "c", "b"]


def test_a_surface_larger_than_the_limit_is_cached_alone() -> None:
    painter = Painter(WEIGHT // 2)

    painter.show("a", "a", "b")

    assert painter.made == ["a", "b"]
    assert len(painter.cache) == 1
