"""Outlines of drawn things: smooth curves through points, ribbons along them, convex hulls."""

from __future__ import annotations

import math
from collections.abc import Sequence

Point = tuple[float, float]

FINE = 5
"""Number of straight pieces between two points of a smooth curve."""


def smooth_through(
    points: Sequence[Point], *, is_closed: bool, pieces: int = FINE
) -> tuple[Point, ...]:
    """Points of a smooth curve through some points (Catmull & Rom 1974), closed or open.

    It has so many straight `pieces` between two of the points.
    """
    if is_closed:
        ring = [points[-1], *points, points[0], points[1]]
    else:
        ring = [points[0], *points, points[-1]]
    fours = zip(ring, ring[1:], ring[2:], ring[3:], strict=False)
    curve = [_between(*four, part / pieces) for four in fours for part in range(pieces)]
    return tuple(curve) if is_closed else (*curve, points[-1])


def _between(before: Point, start: Point, end: Point, after: Point, share: float) -> Point:
    """Point of the smooth curve at a share of the way from `start` to `end`."""

    def along(a: float, b: float, c: float, d: float) -> float:
        bend = (2 * a - 5 * b + 4 * c - d) * share**2 + (3 * b - a - 3 * c + d) * share**3
        return b + ((c - a) * share + bend) / 2

    (x0, y0), (x1, y1), (x2, y2), (x3, y3) = before, start, end, after
    return along(x0, x1, x2, x3), along(y0, y1, y2, y3)


def ribbon(points: Sequence[Point], width: float) -> tuple[Point, ...]:
    """Outline of a line through points, as wide as they are far apart in their own unit."""
    sides: list[list[Point]] = [[], []]
    for number, (x, y) in enumerate(points):
        before, after = points[max(number - 1, 0)], points[min(number + 1, len(points) - 1)]
        across, up = after[0] - before[0], after[1] - before[1]
        half = width / 2 / (math.hypot(across, up) or 1.0)
        for side, sign in zip(sides, (1, -1), strict=True):
            side.append((x - sign * up * half, y + sign * across * half))
    return (*sides[0], *reversed(sides[1]))


def hull(points: Sequence[Point]) -> tuple[Point, ...]:
    """Corners of the smallest convex outline around points (Andrew 1979), in order."""
    ordered = sorted(set(points))

    def half(through: Sequence[Point]) -> list[Point]:
        corners: list[Point] = []
        for point in through:
            while len(corners) > 1 and _turn(corners[-2], corners[-1], point) <= 0:
                corners.pop()
            corners.append(point)
        return corners[:-1]

    return (*half(ordered), *half(ordered[::-1]))


def arc(centre: Point, radius: float, start: float, end: float) -> tuple[Point, ...]:
    """Points of an arc between two angles, in degrees from the right and upwards."""
    steps = max(round(abs(end - start) / 18), 1)
    angles = [math.radians(start + (end - start) * step / steps) for step in range(steps + 1)]
    return tuple(
        (centre[0] + radius * math.cos(angle), centre[1] + radius * math.sin(angle))
        for angle in angles
    )


def _turn(first: Point, second: Point, third: Point) -> float:
    (x, y), (x2, y2), (x3, y3) = first, second, third
    return (x2 - x) * (y3 - y) - (y2 - y) * (x3 - x)
