"""A brake let go in the middle of a zone: for 0.1 s, outside the blips, where brake is asked."""

import numpy as np
import pytest

from drills.measures.blip import find_blips
from drills.measures.distance import Stop
from drills.measures.let_go import came_back, is_let_go
from drills.measures.zone import measure_zone
from drills.trace import STEP, Grid, Trace
from tests.drills.kinds.made import TIME
from tests.drills.kinds.zone_case import BEATS, PEAK, POINT, TURN_IN, ZONE, between, blips, on_line
from tests.drills.shapes import Values

LINE = ZONE.kind.task(ZONE, PEAK, np.random.default_rng(1)).line


def at(seconds: float) -> int:
    """Grid index of a time in s from the first knock."""
    return int(np.flatnonzero(between(seconds, 9.0))[0])


def grid_of(brake: Values) -> Grid:
    """Grid of a brake with three blips on their beats."""
    return Grid.of(Trace(np.arange(TIME.size, dtype=np.int64) * STEP, brake, blips()))


def let_go(brake: Values, until: float = BEATS[2]) -> bool:
    """Whether a brake was let go before a time in s from the first knock."""
    grid = grid_of(brake)
    work = measure_zone(grid, at(0.0), at(POINT), LINE, find_blips(grid), Stop())
    assert work is not None
    return is_let_go(grid, work, at(POINT), LINE, work.pulses, at(until))


def off(begins: float, lasts: float, level: float = 0.0) -> Values:
    """A brake on its line that is at a level for so many s from a time on."""
    return np.where(between(begins, begins + lasts), level, on_line())


@pytest.mark.parametrize(("lasts", "is_long"), [(0.099, False), (0.1, True), (0.4, True)])
def test_a_brake_is_let_go_from_a_tenth_of_a_second_on(lasts: float, is_long: bool) -> None:
    assert let_go(off(POINT + 0.4, lasts)) is is_long


@pytest.mark.parametrize(("lasts", "is_long"), [(0.06, False), (0.12, True)])
def test_of_several_gaps_the_longest_counts_and_not_their_sum(lasts: float, is_long: bool) -> None:
    gaps = np.minimum(off(POINT + 0.3, 0.06), off(POINT + 0.42, lasts))

    assert let_go(gaps) is is_long


@pytest.mark.parametrize(("level", "is_off"), [(4.99, True), (5.0, False)])
def test_a_brake_is_let_go_under_five_percent(level: float, is_off: bool) -> None:
    assert let_go(off(POINT + 0.4, 0.2, level)) is is_off


def test_a_brake_pulled_off_while_the_throttle_is_open_is_not_let_go() -> None:
    assert not let_go(off(BEATS[1], 0.2))
    assert not let_go(off(BEATS[1] - 0.05, 0.29))
    assert let_go(off(BEATS[1] - 0.06, 0.33))


def test_a_brake_that_is_off_later_or_where_hardly_any_is_asked_is_not_let_go() -> None:
    assert not let_go(off(BEATS[2], 9.0))
    assert not let_go(off(TURN_IN - 0.12, 9.0), until=TURN_IN + 0.5)
    assert let_go(off(TURN_IN - 0.24, 9.0), until=TURN_IN + 0.5)


def test_a_brake_came_back_where_it_was_off_and_then_at_ten_percent() -> None:
    begins, until = at(BEATS[2]), at(TURN_IN)

    assert came_back(grid_of(off(BEATS[2] + 0.1, 0.1)), begins, until)
    assert not came_back(grid_of(on_line()), begins, at(TURN_IN - 0.2))
    assert not came_back(grid_of(off(BEATS[2] + 0.1, 9.0)), begins, until)
    for level, back in ((9.9, False), (10.0, True)):
        pressed = np.where(between(BEATS[2] + 0.3, 9.0), level, off(BEATS[2] + 0.1, 9.0))
        assert came_back(grid_of(pressed), begins, until) is back
