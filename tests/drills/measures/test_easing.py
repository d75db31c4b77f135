"""Easing off, against closed forms."""

import math
from dataclasses import asdict

import numpy as np
import pytest

from drills.measures.easing import Easing, measure_easing, ramp, ramp_points, release_start
from tests.drills.shapes import Values

HELD = 60.0
CUE = 500
"""Grid index of the cue."""
LATE = 350
"""Grid points after it that the foot begins."""
START = CUE + LATE
LENGTH = 2.0
"""s the release should take."""
POINTS = 2000
"""Grid points of it."""
BEGINS = 56.0
"""%, brake where the foot is first seen to ease off: under 95 % of what was held."""
GRID = 0.001
"""s, one grid step."""


def eased(change: Values | float = 0.0) -> Values:
    """Held, then at once on a straight line from BEGINS to nothing, with a change on that line."""
    line = BEGINS * (1 - np.arange(POINTS) / POINTS) + change
    return np.concatenate([np.full(START, HELD), line, np.zeros(500)])


def dip(depth: float, first: int, points: int) -> Values:
    """A half sine downward over some grid points of the ramp."""
    change = np.zeros(POINTS)
    change[first : first + points] = -depth * np.sin(np.pi * np.arange(points) / points)
    return change


def measured(brake: Values, *aside: tuple[int, int]) -> Easing:
    """The release of a brake over the time it should take."""
    return measure_easing(brake, CUE, HELD, LENGTH, aside)


def test_a_foot_that_answers_a_third_of_a_second_late_and_then_keeps_to_the_ramp_has_no_error() -> (
    None
):
    easing = measured(eased())

    assert easing.release_start == 0.350
    assert easing.ramp_error == pytest.approx(0, abs=1e-12)
    assert easing.ramp_worst == pytest.approx(0, abs=1e-12)
    assert easing.reversals == 0
    # 56 (1 - t / 2) = 5, by hand.
    assert easing.release_time == pytest.approx(2 * (1 - 5 / 56), abs=GRID)


@pytest.mark.parametrize("late", [0, 35, 350, 900])
def test_how_late_the_foot_answers_changes_only_the_start(late: int) -> None:
    here, there = eased(), np.concatenate([np.full(CUE + late, HELD), eased()[START:]])

    easing = measured(there)

    assert easing.release_start == late / 1000
    assert asdict(easing) | {"release_start": 0.350} == asdict(measured(here))


def test_a_straight_line_from_what_was_held_is_off_by_a_triangle_of_under_a_twentieth() -> None:
    # The ramp begins at 95 % and takes the whole time from there, so the line is at nothing after
    # 0.95 of it, where the ramp is still at 0.05 of 0.95 held. They part and meet as a triangle,
    # whose root mean square is its height over root three (closed form).
    line = HELD * (1 - np.arange(POINTS) / POINTS)
    brake = np.concatenate([np.full(CUE, HELD), line, np.zeros(1000)])
    height = 0.05 * 0.95 * HELD

    easing = measured(brake)

    assert easing.release_start == pytest.approx(0.05 * LENGTH + GRID / 2, abs=GRID)
    assert easing.release_time == pytest.approx((0.95 * HELD - 5) / HELD * LENGTH, abs=GRID)
    assert easing.ramp_worst == pytest.approx(height, abs=HELD / POINTS)
    assert easing.ramp_error == pytest.approx(height / math.sqrt(3), abs=HELD / POINTS)


@pytest.mark.parametrize("off", [-7.0, 4.0, 12.0])
def test_a_ramp_of_another_slope_is_off_by_what_it_ends_off_over_root_three(off: float) -> None:
    # The integral of (off t)^2 over 0 to 1 is off^2 / 3 (closed form).
    easing = measured(eased(off * np.arange(POINTS) / POINTS))

    assert easing.ramp_error == pytest.approx(abs(off) / math.sqrt(3), rel=1e-3)
    assert easing.ramp_worst == pytest.approx(abs(off), rel=1e-3)


@pytest.mark.parametrize("points", [100, 250, 800])
@pytest.mark.parametrize("depth", [3.0, 11.0])
def test_a_half_sine_dip_on_the_ramp_has_the_error_of_its_closed_form(
    depth: float, points: int
) -> None:
    # The mean of sin^2 over half a turn is a half, over the share of the time that the dip lasts.
    easing = measured(eased(dip(depth, 600, points)))

    assert easing.ramp_error == pytest.approx(depth * math.sqrt(points / POINTS / 2), rel=1e-9)
    assert easing.ramp_worst == pytest.approx(depth, rel=1e-9)


def test_a_window_left_out_takes_exactly_its_own_points_out_of_the_error() -> None:
    outside, inside = dip(4, 1500, 200), dip(15, 600, 300)
    window = (START + 550, START + 950)

    whole = measured(eased(outside + inside))
    left = measured(eased(outside + inside), window)

    assert whole.ramp_worst == pytest.approx(15)
    assert left.ramp_worst == pytest.approx(4)
    # The dip outside lasts 200 of the 1600 points that are left.
    assert left.ramp_error == pytest.approx(4 * math.sqrt(200 / 1600 / 2), rel=1e-9)
    assert left == measured(eased(outside), window)


def test_a_window_left_out_is_half_open() -> None:
    spike = np.zeros(POINTS)
    spike[[600, 899]] = 9

    assert measured(eased(spike), (START + 600, START + 900)).ramp_worst == pytest.approx(0)
    assert measured(eased(spike), (START + 601, START + 900)).ramp_worst == pytest.approx(9)
    assert measured(eased(spike), (START + 600, START + 899)).ramp_worst == pytest.approx(9)


@pytest.mark.parametrize(
    ("left_out", "points"),
    [
        pytest.param([], [10, 11, 12, 13, 14], id="none"),
        pytest.param([(11, 13)], [10, 13, 14], id="inside"),
        pytest.param([(5, 12)], [12, 13, 14], id="from before"),
        pytest.param([(13, 99)], [10, 11, 12], id="to after"),
        pytest.param([(-9, 4), (20, 30)], [10, 11, 12, 13, 14], id="beside"),
        pytest.param([(10, 12), (11, 14)], [14], id="two that overlap"),
        pytest.param([(0, 99)], [], id="all"),
    ],
)
def test_the_points_kept_are_those_in_no_span(
    left_out: list[tuple[int, int]], points: list[int]
) -> None:
    assert ramp_points(10, 15, left_out).tolist() == points


def test_with_every_point_left_out_there_is_no_error_to_tell() -> None:
    easing = measured(eased(), (0, 10_000))

    assert (easing.ramp_error, easing.ramp_worst, easing.release_start) == (None, None, 0.350)


def test_the_ramp_goes_from_what_was_held_to_nothing() -> None:
    assert ramp(np.array([100, 600, 1100]), 100, 40, 1.0).tolist() == [40, 20, 0]


@pytest.mark.parametrize(
    ("rises", "count"),
    [
        pytest.param([], 0, id="none"),
        pytest.param([(400, 1.9)], 0, id="a rise under 2"),
        pytest.param([(400, 2.1)], 1, id="a rise over 2"),
        pytest.param([(400, 5), (900, 5)], 2, id="two"),
        pytest.param([(400, 5), (900, 5), (1400, 5)], 3, id="three"),
    ],
)
def test_upward_turns_over_2_percent_are_counted(
    rises: list[tuple[int, float]], count: int
) -> None:
    brake = eased()
    for at, rise in rises:
        brake[START + at : START + at + 50] = brake[START + at - 1] + rise

    assert measured(brake).reversals == count


def test_an_upward_turn_within_a_window_left_out_is_none() -> None:
    brake = eased()
    brake[START + 400 : START + 450] += 10

    assert measured(brake).reversals == 1
    assert measured(brake, (START + 380, START + 500)).reversals == 0


def test_an_upward_turn_after_the_time_of_the_ramp_is_none() -> None:
    brake = eased()
    brake[START + POINTS : START + POINTS + 100] = 20

    assert measured(brake).reversals == 0


@pytest.mark.parametrize("points", [0, 99])
def test_a_brake_that_is_never_eased_off_for_a_tenth_of_a_second_gives_none(points: int) -> None:
    brake = np.full(4000, HELD)
    brake[1000 : 1000 + points] = 40

    assert measured(brake) == Easing(None, None, None, None, None)


def test_the_foot_begins_where_the_brake_stays_under_95_percent_for_a_tenth_of_a_second() -> None:
    brake = np.full(4000, HELD)
    brake[700:799] = 40
    brake[1000:1100] = 56.9
    brake[1100:] = 57.0

    assert release_start(brake, CUE, HELD) == 1000


def test_a_brake_that_sits_at_95_percent_has_not_begun() -> None:
    assert release_start(np.full(2000, 57.0), CUE, HELD) is None


def test_a_brake_already_falling_at_the_cue_begins_at_the_cue() -> None:
    assert measured(np.concatenate([np.full(400, HELD), np.full(2000, 30.0)])).release_start == 0


def test_a_brake_that_stays_at_5_percent_is_never_off() -> None:
    easing = measured(np.maximum(eased(), 5.0))

    assert easing.release_time is None
    assert easing.ramp_worst == pytest.approx(5, abs=BEGINS / POINTS)


def test_a_trace_that_ends_before_the_ramp_is_measured_as_far_as_it_goes() -> None:
    easing = measured(eased(np.where(np.arange(POINTS) > 0, -3.0, 0.0))[: START + 1000])

    assert easing.ramp_error == pytest.approx(3 * math.sqrt(0.999))
    assert easing.release_time is None


@pytest.mark.parametrize(("held", "length"), [(0, 2), (60, 0)])
def test_nothing_held_or_no_time_is_refused(held: float, length: float) -> None:
    with pytest.raises(ValueError, match=r"^expected something held and some time, found "):
        measure_easing(eased(), CUE, held, length)
