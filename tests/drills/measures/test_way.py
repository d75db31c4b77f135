"""The way down from a cue: what was held before it, and the pace of the foot after it."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.measures.way import WayDown, measure_way
from drills.trace import STEP, Grid
from tests.drills.shapes import Values

HELD = 60.0
"""%, held and asked."""
CUE = 500
"""Grid index of the cue."""
LENGTH = 2.0
"""s the release should take."""
SLOPE = HELD / LENGTH
"""Points a second that were asked."""
GRID = 0.001
"""s, one grid step."""


def line_down(base: float, late: float, slope: float) -> Values:
    """Held at a base, then so many s after the cue straight down at some points a second."""
    since = (np.arange(8000) - CUE) / 1000 - late
    return np.maximum(base - slope * np.maximum(since, 0.0), 0.0)


def measured(brake: Values, asked: float, length: float) -> WayDown:
    """The way down of a brake that was to come from `asked` % to nothing over `length` s."""
    way = measure_way(Grid(0, brake, np.zeros(brake.size)), CUE * STEP, asked, length)
    assert way is not None
    return way


@given(
    asked=st.floats(30, 90),
    light=st.floats(-8, 8),
    late=st.floats(0.1, 1.2),
    length=st.floats(1.0, 4.0),
)
def test_a_release_timed_exactly_reads_nothing_whatever_the_reaction_and_the_base(
    asked: float, light: float, late: float, length: float
) -> None:
    brake = line_down(asked - light, late, asked / length)
    a_step = asked / length * GRID

    easing = measured(brake, asked, length).easing

    assert easing.release_start == pytest.approx(
        late + max(3.0, 0.05 * asked) * length / asked, abs=2 * GRID
    )
    assert easing.ramp_error == pytest.approx(0, abs=a_step)
    assert easing.ramp_worst == pytest.approx(0, abs=a_step)
    assert easing.reversals == 0


@pytest.mark.parametrize("pace", [1.05, 1.3, 2.0])
def test_a_release_too_slow_ends_off_by_what_the_pace_left_on(pace: float) -> None:
    # From 57 % on, the ramp is at nothing after 57 / 30 s, and a foot that takes `pace` times as
    # long still has 57 (1 - 1 / pace). It grows as a straight line, whose root mean square is its
    # end over root three (closed form).
    left = 0.95 * HELD * (1 - 1 / pace)

    easing = measured(line_down(HELD, 0.3, SLOPE / pace), HELD, LENGTH).easing

    assert easing.ramp_worst == pytest.approx(left, abs=2 * SLOPE * GRID)
    assert easing.ramp_error == pytest.approx(left / math.sqrt(3), abs=2 * SLOPE * GRID)
    assert easing.release_time == pytest.approx((57 - 5) / SLOPE * pace, abs=3 * GRID)


@pytest.mark.parametrize("pace", [0.95, 0.6])
def test_a_release_too_quick_is_off_most_where_the_brake_comes_to_nothing(pace: float) -> None:
    # At nothing after 57 pace / 30 s, where the ramp still has 57 (1 - pace); a triangle, whose
    # root mean square is its height over root three (closed form).
    left = 0.95 * HELD * (1 - pace)

    easing = measured(line_down(HELD, 0.3, SLOPE / pace), HELD, LENGTH).easing

    assert easing.ramp_worst == pytest.approx(left, abs=2 * SLOPE / pace * GRID)
    assert easing.ramp_error == pytest.approx(left / math.sqrt(3), abs=2 * SLOPE / pace * GRID)


def test_what_was_held_is_taken_from_before_the_foot_could_answer() -> None:
    brake = np.full(4000, 90.0)
    brake[CUE - 400 : CUE + 100] = np.linspace(58, 62, 500)
    brake[CUE + 100 :] = 30.0

    assert measured(brake, HELD, LENGTH).held == pytest.approx(60)


@pytest.mark.parametrize(("points", "is_measured"), [(99, False), (100, True)])
def test_under_a_tenth_of_a_second_of_held_brake_nothing_is_measured(
    points: int, is_measured: bool
) -> None:
    brake = np.full(points, HELD)

    assert (measure_way(Grid(0, brake, brake * 0), 0, HELD, LENGTH) is not None) == is_measured
