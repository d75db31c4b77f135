"""Outlines: hulls, ribbons, arcs and smooth curves."""

from __future__ import annotations

import math

import pytest

from engine.kit.outline import arc, hull, ribbon, smooth_through

CORNERS = ((0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0))


def test_a_hull_keeps_the_outermost_points_alone() -> None:
    around = hull([*CORNERS, (1.0, 1.0), (2.0, 0.0), (3.9, 2.9)])

    assert sorted(around) == sorted(CORNERS)


def test_a_ribbon_is_as_wide_as_asked_on_both_sides_of_its_line() -> None:
    assert ribbon(((0.0, 0.0), (10.0, 0.0)), 2.0) == ((0, 1), (10, 1), (10, -1), (0, -1))


def test_an_arc_keeps_its_radius_from_one_angle_to_the_other() -> None:
    points = arc((1.0, 2.0), 3.0, 180, 270)

    assert [math.dist(point, (1, 2)) for point in points] == pytest.approx([3.0] * len(points))
    assert points[0] == pytest.approx((-2, 2))
    assert points[-1] == pytest.approx((1, -1))


@pytest.mark.parametrize("is_closed", [False, True])
@pytest.mark.parametrize("pieces", [1, 3])
def test_a_smooth_curve_goes_through_its_points(is_closed: bool, pieces: int) -> None:
    curve = smooth_through(CORNERS, is_closed=is_closed, pieces=pieces)

    assert set(CORNERS) <= set(curve)
    assert len(curve) == (4 * pieces if is_closed else 3 * pieces + 1)
