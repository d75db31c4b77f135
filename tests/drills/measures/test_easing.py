"""Easing off, against closed forms."""

import math
from dataclasses import asdict

import numpy as np
import pytest

from drills.measures.easing import Easing, Ramp, measure_easing, ramp_of
from tests.drills.shapes import Values

HELD = 60.0
"""%, held and asked."""
CUE = 500
"""Grid index of the cue."""
LATE = 350
"""Grid points after it that the foot begins."""
START = CUE + LATE
LENGTH = 2.0
"""s the release should take."""
SLOPE = HELD / LENGTH
"""Points a second that were asked."""
BEGINS = 56.0
"""%, brake where the foot is first seen to ease off: more than 3 points under what was held."""
POINTS = math.ceil(1000 * BEGINS / SLOPE)
"""Grid points from there to nothing."""
GRID = 0.001
"""s, one grid step."""


def eased(change: Values | float = 0.0) -> Values:
    """Held, then at once on a straight line from BEGINS to nothing, with a change on that line."""
    line = BEGINS - SLOPE * np.arange(POINTS) / 1000 + change
    return np.concatenate([np.full(START, HELD), line, np.zeros(500)])


def dip(depth: float, first: int, points: int) -> Values:
    """A half sine downward over some grid points of the ramp."""
    change = np.zeros(POINTS)
    change[first : first + points] = -depth * np.sin(np.pi * np.arange(points) / points)
    return change


def measured(brake: Values, *aside: tuple[int, int]) -> Easing:
    """The release of a brake over the time it should take."""
    return measure_easing(brake, CUE, ramp(brake, *aside), aside)


def ramp(brake: Values, *aside: tuple[int, int]) -> Ramp | None:
    """The ramp of a brake over the time that its release should take."""
    return ramp_of(brake, CUE, HELD, HELD, LENGTH, aside)


def test_a_foot_that_answers_a_third_of_a_second_late_and_then_keeps_to_the_ramp_has_no_error() -> (
    None
):
    easing = measured(eased())

    assert easing.release_start == 0.350
    assert easing.ramp_error == pytest.approx(0, abs=1e-12)
    assert easing.ramp_worst == pytest.approx(0, abs=1e-12)
    assert easing.reversals == 0
    # 56 - 30 t = 5, by hand.
    assert easing.release_time == pytest.approx(51 / 30 + GRID / 2, abs=GRID)


@pytest.mark.parametrize("late", [0, 35, 350, 900])
def test_how_late_the_foot_answers_changes_only_the_start(late: int) -> None:
    here, there = eased(), np.concatenate([np.full(CUE + late, HELD), eased()[START:]])

    easing = measured(there)

    assert easing.release_start == late / 1000
    assert asdict(easing) | {"release_start": 0.350} == asdict(measured(here))


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
    # The dip outside lasts 200 of the points that are left, 400 fewer than all.
    assert left.ramp_error == pytest.approx(4 * math.sqrt(200 / (POINTS - 400) / 2), rel=1e-9)
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
    assert Ramp(10, 15, HELD, SLOPE).points(100, left_out).tolist() == points


@pytest.mark.parametrize(("left", "is_judged"), [(299, False), (300, True)])
def test_under_three_tenths_of_a_second_beside_the_blips_there_is_no_error_to_tell(
    left: int, is_judged: bool
) -> None:
    easing = measured(eased(), (START + left, 10_000))

    assert easing.release_start == 0.350
    for value in (easing.ramp_error, easing.ramp_worst, easing.reversals):
        assert (value is not None) == is_judged


def test_a_brake_let_go_at_once_leaves_no_way_down_to_tell_of() -> None:
    easing = measured(np.concatenate([np.full(START, HELD), np.zeros(2000)]))

    assert easing == Easing(0.350, 0.0, None, None, None)


def test_the_ramp_goes_from_where_the_foot_began_to_nothing_at_the_slope_that_was_asked() -> None:
    along = ramp(eased())

    assert along == Ramp(START, START + POINTS, BEGINS, SLOPE)
    assert along.brake(np.array([START, START + 1000])).tolist() == [56, 26]
    assert along.brake(np.array([along.after - 1, along.after]))[0] > 0
    assert along.brake(np.array([along.after - 1, along.after]))[1] <= 0


@pytest.mark.parametrize(
    ("rises", "count"),
    [
        pytest.param([], 0, id="none"),
        pytest.param([(400, 1.9)], 0, id="a rise under 2"),
        pytest.param([(400, 2.1)], 1, id="a rise over 2"),
        pytest.param([(400, 5), (900, 5)], 2, id="two"),
        pytest.param([(400, 5), (900, 5), (1300, 5)], 3, id="three"),
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


@pytest.mark.parametrize(
    ("asked", "deep"), [(40.0, 3.0), (60.0, 3.0), (90.0, 4.5)], ids=["light", "usual", "heavy"]
)
def test_the_foot_begins_where_the_brake_stays_deep_enough_for_a_tenth_of_a_second(
    asked: float, deep: float
) -> None:
    brake = np.full(4000, asked)
    brake[700:799] = asked - 20
    brake[1000:1100] = asked - deep - 0.1
    brake[1100:] = asked - deep

    began = ramp_of(brake, CUE, asked, asked, LENGTH)

    assert began is not None
    assert began.start == 1000
    assert ramp_of(brake[1100:], CUE, asked, asked, LENGTH) is None


def test_a_hold_a_little_light_is_no_release() -> None:
    light = np.full(4000, 56.0)

    assert ramp_of(light, CUE, 56.0, HELD, LENGTH) is None


def test_a_dip_with_a_blip_before_the_foot_eases_off_is_no_start_of_it() -> None:
    brake = eased()
    brake[600:800] = 40

    assert measured(brake).release_start == 0.100
    assert measured(brake, (600, 800)).release_start == 0.350


def test_the_tenth_of_a_second_is_one_of_what_the_blips_leave() -> None:
    brake = np.full(4000, HELD)
    brake[1000:1060], brake[1060:1400], brake[1400:1440] = 50, 70, 50

    began = ramp(brake, (1060, 1400))

    assert began is not None
    assert (began.start, began.begins) == (1000, 50)
    assert ramp(brake, (1060, 1401)) is None


def test_a_brake_already_falling_at_the_cue_begins_at_the_cue() -> None:
    assert measured(np.concatenate([np.full(400, HELD), np.full(2000, 30.0)])).release_start == 0


def test_a_brake_that_stays_at_5_percent_is_never_off() -> None:
    easing = measured(np.maximum(eased(), 5.0))

    assert easing.release_time is None
    assert easing.ramp_worst == pytest.approx(5, abs=SLOPE * GRID)


def test_a_trace_that_ends_before_the_ramp_is_measured_as_far_as_it_goes() -> None:
    easing = measured(eased(np.where(np.arange(POINTS) > 0, -3.0, 0.0))[: START + 1000])

    assert easing.ramp_error == pytest.approx(3 * math.sqrt(0.999))
    assert easing.release_time is None


@pytest.mark.parametrize(("asked", "length"), [(0, 2), (60, 0)])
def test_nothing_asked_or_no_time_is_refused(asked: float, length: float) -> None:
    with pytest.raises(ValueError, match=r"^expected something asked and some time, found "):
        ramp_of(eased(), CUE, HELD, asked, length)
