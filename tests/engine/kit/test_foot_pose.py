"""Pose of the foot: what touches what, and that it follows from the two pedals alone."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.kit.foot_pose import (
    BALL_ROUND,
    BRAKE_FACE,
    EDGE_ROUND,
    ON_BRAKE,
    REACH,
    SETTLED,
    THROTTLE_FACE,
    Pose,
    Pressed,
    Way,
    pose_of,
)
from engine.kit.outline import arc

TALL = 22.0
"""Height of the drawn picture, in cm."""
CLOSE = 1e-6 * TALL
"""Largest gap that counts as contact, in cm."""

percents = st.floats(0.0, 100.0)
settled = st.floats(SETTLED, 100.0)
ways = st.sampled_from(Way)


def sole(pose: Pose, way: Way) -> list[tuple[float, float]]:
    """Points along the underside of the sole, from its inner to its outer edge, as it lies."""
    inner, outer = -ON_BRAKE[way], REACH[way]
    flat = [(inner * step / 50, 0.0) for step in range(50, 0, -1)]
    flat += [(outer * step / 150, 0.0) for step in range(151)]
    round_inner = arc((inner, BALL_ROUND), BALL_ROUND, 180, 270)
    round_outer = arc((outer, EDGE_ROUND), EDGE_ROUND, 270, 360)
    return [pose.place(point) for point in (*round_inner, *flat, *round_outer)]


def lowest_on_brake(pose: Pose, way: Way) -> float:
    """Height of the sole's lowest point at the brake, exact on its round inner edge."""
    flat = min(y for x, y in sole(pose, way) if x <= BRAKE_FACE[1] + 1e-9)
    inner = pose.place((-ON_BRAKE[way], BALL_ROUND))
    return min(flat, inner[1] - BALL_ROUND) if pose.angle < 0 else flat


def lowest_of_edge(pose: Pose, way: Way) -> float:
    """Height of the lowest point of the round edge, or heel, that presses the throttle."""
    return pose.place((REACH[way], EDGE_ROUND))[1] - EDGE_ROUND


@given(settled, percents, ways)
def test_the_ball_touches_the_face_of_a_pressed_brake(
    brake: float, throttle: float, way: Way
) -> None:
    pose = pose_of(Pressed(brake, throttle), way)

    assert pose.ball_gap == 0
    assert abs(lowest_on_brake(pose, way) - pose.brake) < CLOSE


@given(percents, settled, ways)
def test_the_edge_or_heel_touches_the_face_of_a_pressed_throttle(
    brake: float, throttle: float, way: Way
) -> None:
    pose = pose_of(Pressed(brake, throttle), way)

    assert pose.edge_gap == 0
    assert abs(lowest_of_edge(pose, way) - pose.throttle) < CLOSE


@given(settled, percents)
def test_the_edge_of_a_rolling_foot_stays_over_the_throttle(brake: float, throttle: float) -> None:
    pose = pose_of(Pressed(brake, throttle), Way.ROLL)

    assert THROTTLE_FACE[0] <= pose.place((REACH[Way.ROLL], EDGE_ROUND))[0] <= THROTTLE_FACE[1]


@given(percents, percents)
def test_no_part_of_the_sole_goes_through_a_face(brake: float, throttle: float) -> None:
    pose = pose_of(Pressed(brake, throttle), Way.ROLL)

    for x, y in sole(pose, Way.ROLL):
        if BRAKE_FACE[0] <= x <= BRAKE_FACE[1]:
            assert y > pose.brake - CLOSE
        if THROTTLE_FACE[0] <= x <= THROTTLE_FACE[1]:
            assert y > pose.throttle - CLOSE


@given(percents, ways)
def test_a_turned_foot_goes_through_no_face_in_its_own_section(throttle: float, way: Way) -> None:
    for brake in range(0, 101, 10):
        pose = pose_of(Pressed(brake, throttle), way)

        assert min(y for x, y in sole(pose, way) if x <= 0) > pose.brake - CLOSE
        assert min(y for _, y in sole(pose, way)) > min(pose.brake, pose.throttle) - CLOSE


@given(percents, ways)
def test_the_angle_grows_with_the_throttle(brake: float, way: Way) -> None:
    angles = [pose_of(Pressed(brake, throttle / 2), way).angle for throttle in range(201)]

    assert angles == sorted(set(angles))


@given(percents, ways)
def test_the_angle_falls_as_the_brake_sinks(throttle: float, way: Way) -> None:
    angles = [pose_of(Pressed(brake / 2, throttle), way).angle for brake in range(201)]

    assert angles == sorted(set(angles), reverse=True)


@pytest.mark.parametrize("way", Way)
@pytest.mark.parametrize("other", [0.0, 1.0, 40.0, 100.0])
def test_the_foot_never_jumps(other: float, way: Way) -> None:
    step = 0.01
    travels = [number * step for number in range(round(100 / step) + 1)]

    for poses in (
        [pose_of(Pressed(travel, other), way) for travel in travels],
        [pose_of(Pressed(other, travel), way) for travel in travels],
    ):
        ends = [(*pose.place((-2.0, 0.0)), *pose.place((REACH[way], 0.0))) for pose in poses]
        moves = [math.dist(one, two) for one, two in pairwise(ends)]
        turns = [abs(one.yaw - two.yaw) for one, two in pairwise(poses)]

        assert max(moves) < 0.05
        assert max(turns) < math.radians(0.05)


@given(percents, percents, percents, ways)
def test_the_clutch_moves_nothing_of_the_right_foot(
    brake: float, throttle: float, clutch: float, way: Way
) -> None:
    pose = pose_of(Pressed(brake, throttle, clutch), way)

    assert pose.clutch is not None
    assert replace(pose, clutch=None) == pose_of(Pressed(brake, throttle), way)


@pytest.mark.parametrize("way", Way)
def test_a_foot_on_released_pedals_touches_neither(way: Way) -> None:
    pose = pose_of(Pressed(0.0), way)

    assert lowest_on_brake(pose, way) > pose.brake + 0.5
    assert lowest_of_edge(pose, way) > pose.throttle + 0.5
    assert (pose.ball_gap > 0, pose.edge_gap > 0) == (True, True)


@pytest.mark.parametrize("way", Way)
def test_a_foot_that_holds_the_brake_hovers_above_the_throttle(way: Way) -> None:
    pose = pose_of(Pressed(60.0), way)

    assert pose.ball_gap == 0
    assert 0.5 < lowest_of_edge(pose, way) - pose.throttle < 2.0


@given(percents)
def test_the_heel_swings_out_as_the_throttle_sinks(brake: float) -> None:
    turns = [pose_of(Pressed(brake, throttle), Way.HEEL).yaw for throttle in range(101)]

    assert turns == sorted(set(turns))
    assert pose_of(Pressed(brake, 50.0), Way.ROLL).yaw == 0


@pytest.mark.parametrize(("asked", "drawn"), [((-3, 104, 120), (0, 100, 100))])
def test_travel_beyond_an_end_is_drawn_as_that_end(
    asked: tuple[float, float, float], drawn: tuple[float, float, float]
) -> None:
    assert pose_of(Pressed(*asked), Way.ROLL) == pose_of(Pressed(*drawn), Way.ROLL)


def test_the_clutch_sinks_as_it_is_pressed() -> None:
    heights = [pose_of(Pressed(50.0, 0.0, clutch), Way.ROLL).clutch for clutch in range(101)]

    assert heights == sorted(set(heights), key=lambda height: -(height or 0.0))
    assert pose_of(Pressed(50.0), Way.ROLL).clutch is None


@given(percents, percents, ways)
def test_the_angle_solves_what_is_written_of_it(brake: float, throttle: float, way: Way) -> None:
    pose = pose_of(Pressed(brake, throttle), way)
    drop = pose.brake + pose.ball_gap - pose.throttle - pose.edge_gap
    sin, flat = math.sin(pose.angle), 1 - math.cos(pose.angle)

    outward = REACH[way] * sin + EDGE_ROUND * flat
    inward = (REACH[way] + ON_BRAKE[way]) * sin + (EDGE_ROUND - BALL_ROUND) * flat

    assert (pose.angle >= 0) == (drop >= 0) or abs(drop) < 1e-9
    assert drop == pytest.approx(outward if drop >= 0 else inward, abs=1e-9)
