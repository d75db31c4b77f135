"""Anti-aliased circles, boxes, curves and polygons: drawn larger on a layer, then scaled down.

Points and sizes are in pixels. Layers are cached, as most are drawn again for every frame.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from itertools import pairwise

import pygame

from engine.kit.surface_cache import SurfaceCache

Colour = tuple[int, int, int]
Point = tuple[float, float]

FINE = (4, 3, 2)
"""Factors by which a layer is drawn larger before it is scaled down, the finest first."""
BUDGET = 8_000_000
"""Largest size of a layer while it is drawn enlarged, in pixels: 32 MB of memory."""
INSET = 0.2
"""Distance that the fill of a shape stays inside its anti-aliased outline, in pixels."""
NOTCH = 4
"""Steps per pixel that the positions of discs are rounded to, so that more share a cached layer."""


def disc(
    surface: pygame.Surface,
    centre: Point,
    radius: float,
    colour: Colour,
    line: float,
    cache: SurfaceCache,
) -> None:
    """Draw an anti-aliased circle, filled if `line` is 0; sizes in pixels."""
    x, y, radius, line = (_notched(value) for value in (*centre, max(radius, 0.5), line))
    box = pygame.Rect(math.floor(x - radius), math.floor(y - radius), 0, 0)
    box.size = math.ceil(x + radius) - box.left, math.ceil(y + radius) - box.top
    middle = x - box.left, y - box.top

    def draw(layer: pygame.Surface, times: int) -> None:
        width = max(round(line * times), 1) if line else 0
        at = round(middle[0] * times), round(middle[1] * times)
        pygame.draw.circle(layer, colour, at, round(radius * times), width)

    key = "disc", middle, radius, line, colour
    surface.blit(cache.of(key, lambda: _layer(box.size, colour, draw)), box)


def box(
    surface: pygame.Surface,
    place: pygame.Rect,
    colour: Colour,
    radius: int,
    line: int,
    cache: SurfaceCache,
) -> None:
    """Draw a rectangle with smooth round corners, filled if `line` is 0; sizes in pixels."""
    radius = min(radius, place.width // 2, place.height // 2)
    if radius < 1:
        pygame.draw.rect(surface, colour, place, line)
        return
    side = 2 * radius

    def draw(layer: pygame.Surface, times: int) -> None:
        at = radius * times, radius * times
        pygame.draw.circle(layer, colour, at, radius * times, line * times)

    round_ = cache.of(("corners", radius, line, colour), lambda: _layer((side, side), colour, draw))
    inner = place.inflate(-side, -side)
    for right in (False, True):
        for low in (False, True):
            at = inner.right if right else place.left, inner.bottom if low else place.top
            surface.blit(round_, at, (radius * right, radius * low, radius, radius))
    deep = line or radius
    for edge in (
        (inner.left, place.top, inner.width, deep),
        (inner.left, place.bottom - deep, inner.width, deep),
        (place.left, inner.top, deep, inner.height),
        (place.right - deep, inner.top, deep, inner.height),
    ):
        surface.fill(colour, edge)
    if not line:
        surface.fill(colour, inner)


def curve(
    surface: pygame.Surface,
    points: Sequence[Point],
    colour: Colour,
    width: float,
    cache: SurfaceCache,
) -> None:
    """Draw an anti-aliased line through points, with round bends and ends; sizes in pixels."""

    def draw(layer: pygame.Surface, times: int, within: Sequence[Point]) -> None:
        half = max(round(width * times / 2), 1)
        larger = [(x * times, y * times) for x, y in within]
        for (x, y), (x2, y2) in pairwise(larger):
            length = math.hypot(x2 - x, y2 - y)
            if length > 0:
                # A polygon also covers the pixels on its edges, half a pixel on either side.
                aside = (half - 0.5) / length
                across, down = aside * (y - y2), aside * (x2 - x)
                sides = [
                    (x + across, y + down),
                    (x2 + across, y2 + down),
                    (x2 - across, y2 - down),
                    (x - across, y - down),
                ]
                pygame.draw.polygon(layer, colour, [(round(a), round(b)) for a, b in sides])
        for x, y in larger:
            pygame.draw.circle(layer, colour, (round(x), round(y)), half)

    _over(surface, points, width / 2, colour, ("curve", width), draw, cache)


def shape(
    surface: pygame.Surface, points: Sequence[Point], colour: Colour, cache: SurfaceCache
) -> None:
    """Draw a filled, anti-aliased polygon; its points are in pixels."""

    def draw(layer: pygame.Surface, times: int, within: Sequence[Point]) -> None:
        pygame.draw.polygon(
            layer, colour, [(round(x * times), round(y * times)) for x, y in within]
        )

    _over(surface, points, 0.0, colour, ("shape",), draw, cache)


def moving_shape(surface: pygame.Surface, points: Sequence[Point], colour: Colour) -> None:
    """Draw a filled polygon straight on the surface, its outline anti-aliased; points in pixels.

    It costs a tenth of `shape`, which pays where a shape is another one in every picture.
    """
    centres = [(x - 0.5, y - 0.5) for x, y in points]
    pygame.draw.polygon(surface, colour, _shrunk(centres, INSET))
    pygame.draw.aalines(surface, colour, True, centres)


def _shrunk(points: Sequence[Point], inset: float) -> list[tuple[int, int]]:
    """Whole pixels at the corners of a polygon, each moved inwards by `inset` before rounding."""
    (x, y), (last_x, last_y) = points[-1], points[-2]
    area, normals = 0.0, []
    for next_x, next_y in points:
        area += x * next_y - next_x * y
        across, down = last_y - next_y, next_x - last_x
        normals.append((x, y, across, down, math.hypot(across, down) or 1.0))
        last_x, last_y, x, y = x, y, next_x, next_y
    inwards = inset if area > 0 else -inset
    return [
        (round(x + across * inwards / long), round(y + down * inwards / long))
        for x, y, across, down, long in normals
    ]


def glow(
    surface: pygame.Surface,
    centre: Point,
    radius: int,
    colour: Colour,
    strength: float,
    cache: SurfaceCache,
) -> None:
    """Draw light that fades from a centre to nothing at a radius in pixels; strength 0 to 1."""
    if radius < 1 or strength <= 0:
        return

    def light() -> pygame.Surface:
        layer = pygame.Surface((2 * radius, 2 * radius), pygame.SRCALPHA, 32)
        layer.fill((*colour, 0))
        for reach in range(radius, 0, -1):
            alpha = round(255 * (1 - reach / radius) ** 1.6)
            pygame.draw.circle(layer, (*colour, alpha), (radius, radius), reach)
        return layer

    picture = cache.of(("glow", radius, colour), light)
    picture.set_alpha(round(255 * min(strength, 1.0)))
    surface.blit(picture, (round(centre[0]) - radius, round(centre[1]) - radius))


def veil(
    surface: pygame.Surface,
    place: pygame.Rect,
    colour: Colour,
    radius: int,
    strength: float,
    cache: SurfaceCache,
) -> None:
    """Tint a rectangle with round corners; strength 0 leaves it as it is, 1 covers it."""

    def tint() -> pygame.Surface:
        def draw(layer: pygame.Surface, times: int) -> None:
            pygame.draw.rect(layer, colour, layer.get_rect(), border_radius=radius * times)

        return _layer(place.size, colour, draw)

    picture = cache.of(("veil", place.size, radius, colour), tint)
    picture.set_alpha(round(255 * min(max(strength, 0.0), 1.0)))
    surface.blit(picture, place)


def _over(
    surface: pygame.Surface,
    points: Sequence[Point],
    margin: float,
    colour: Colour,
    kind: tuple[object, ...],
    draw: Callable[[pygame.Surface, int, Sequence[Point]], None],
    cache: SurfaceCache,
) -> None:
    """Draw a shape through points on a layer just large enough, and copy it to the surface."""
    margin += 1
    left = math.floor(min(x for x, _ in points) - margin)
    top = math.floor(min(y for _, y in points) - margin)
    right = math.ceil(max(x for x, _ in points) + margin)
    bottom = math.ceil(max(y for _, y in points) + margin)
    place = pygame.Rect(left, top, right - left, bottom - top).clip(surface.get_rect())
    if not place.width or not place.height:
        return

    def through(layer: pygame.Surface, times: int) -> None:
        draw(layer, times, [(x - place.left, y - place.top) for x, y in points])

    key = *kind, tuple(points), place.size, colour
    surface.blit(cache.of(key, lambda: _layer(place.size, colour, through)), place)


def _layer(
    size: tuple[int, int], colour: Colour, draw: Callable[[pygame.Surface, int], None]
) -> pygame.Surface:
    """Picture that `draw` draws at a larger scale, scaled down to `size` for smooth edges.

    It is transparent in the colour itself, so that the edges keep that colour.
    """
    width, height = size
    fitting = (times for times in FINE if width * height * times * times <= BUDGET)
    times = next(fitting, FINE[-1])
    layer = pygame.Surface((width * times, height * times), pygame.SRCALPHA, 32)
    layer.fill((*colour, 0))
    draw(layer, times)
    return pygame.transform.smoothscale(layer, size)


def _notched(value: float) -> float:
    return round(value * NOTCH) / NOTCH
