"""Braking zones whose measures are known: exact feet, late feet, and feet at every edge."""

from dataclasses import asdict

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.measures.blip import find_blips
from drills.measures.chord import ChordDisturbance
from drills.measures.distance import Stop
from drills.measures.zone import ZoneWork, measure_zone
from drills.trace import STEP, Grid, Trace
from tests.drills.kinds.made import TIME, bump, lines
from tests.drills.kinds.zone_case import (
    BEATS,
    PEAK,
    POINT,
    TURN_IN,
    ZONE,
    between,
    blips,
    on_line,
)
from tests.drills.shapes import Values

LINE = ZONE.kind.task(ZONE, PEAK, np.random.default_rng(1)).line
START, BRAKING = (int(np.flatnonzero(between(at, 9.0))[0]) for at in (0.0, POINT))
MS = 0.001
STEEP = PEAK * MS
"""Points that the last second of the line falls in a grid step."""


def grid_of(brake: Values, throttle: Values) -> Grid:
    """Grid of pedals read every millisecond."""
    return Grid.of(Trace(np.arange(brake.size, dtype=np.int64) * STEP, brake, throttle))


def found(brake: Values, throttle: Values | None = None) -> ZoneWork | None:
    """Measures of a zone with three blips on their beats, unless others are given."""
    grid = grid_of(brake, blips() if throttle is None else throttle)
    return measure_zone(grid, START, BRAKING, LINE, find_blips(grid), Stop())


def measured(brake: Values, throttle: Values | None = None) -> ZoneWork:
    """The same of a brake that was on."""
    work = found(brake, throttle)
    assert work is not None
    return work


def dips(work: ZoneWork) -> list[float]:
    """Dip of each blip, in points."""
    return [done.dip for _, done in work.blips if isinstance(done, ChordDisturbance)]


def surges(work: ZoneWork) -> list[float]:
    """Rise of the brake with each blip, in points."""
    return [done.surge for _, done in work.blips if isinstance(done, ChordDisturbance)]


@pytest.mark.parametrize("late", [0.0, 0.1, 0.25])
@pytest.mark.parametrize("beside", [-0.1, 0.0, 0.1])
def test_a_blip_where_the_line_bends_reads_no_rise_of_a_brake_that_follows_it(
    beside: float, late: float
) -> None:
    bends = TURN_IN - ZONE.own["ease"] + late
    at = [BEATS[0], bends - 0.15 + beside]

    work = measured(on_line(late), blips(at))

    assert work.line_lag == pytest.approx(late)
    assert dips(work) == pytest.approx([0, 0], abs=STEEP)
    assert surges(work) == pytest.approx([0, 0], abs=STEEP)


def test_a_foot_exactly_on_the_line_reads_0_in_everything() -> None:
    work = measured(on_line())

    assert work.off_at is not None
    assert work.line_error == pytest.approx(0, abs=1e-9)
    assert work.line_worst == pytest.approx(0, abs=1e-9)
    assert (work.brake_on, work.rise, work.reversals, work.line_lag) == (0, 0, 0, 0)
    assert work.peak_error == pytest.approx(0, abs=1e-9)
    # Under 5 % it is off: the last second takes 80 % evenly.
    assert work.off_at == pytest.approx(-5 / PEAK, abs=2 * MS)
    assert dips(work) == pytest.approx([0, 0, 0], abs=STEEP)
    assert surges(work) == pytest.approx([0, 0, 0], abs=STEEP)


@pytest.mark.parametrize("late", [0.05, 0.15, 0.3])
def test_a_foot_late_by_a_time_reads_that_delay_and_no_error(late: float) -> None:
    work = measured(on_line(late))

    assert work.line_lag == pytest.approx(late)
    assert work.line_error == pytest.approx(0, abs=1e-9)
    assert work.brake_on == pytest.approx(late)
    assert work.off_at == pytest.approx(late - 5 / PEAK, abs=2 * MS)


def test_a_foot_later_than_a_reaction_is_off_the_line_by_the_rest() -> None:
    work = measured(on_line(0.5))

    # It is 0.2 s more behind on a line that falls by 80 points a second.
    assert work.line_lag == 0.3
    assert work.line_worst == pytest.approx(0.2 * PEAK, abs=2 * STEEP)


@pytest.mark.parametrize("depth", [3.0, 9.0, 24.0])
@pytest.mark.parametrize("place", [0, 1])
def test_a_notch_at_a_blip_reads_its_depth_there_and_leaves_the_line_as_it_is(
    depth: float, place: int
) -> None:
    work = measured(on_line() + bump(-depth, BEATS[place]))

    assert dips(work)[place] == pytest.approx(depth, abs=0.2)
    assert work.line_error == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize("away", [-7.0, 5.0])
def test_a_brake_beside_its_line_is_off_by_that_with_its_side(away: float) -> None:
    work = measured(on_line() + np.where(between(POINT, TURN_IN - 1.0), away, 0.0))

    assert work.peak_error == pytest.approx(away)
    assert work.line_worst == pytest.approx(away)


@pytest.mark.parametrize("rises", [0.1, 0.3, 0.45])
def test_a_straight_squeeze_rises_in_its_eight_tenths_and_is_no_turn_of_the_line(
    rises: float,
) -> None:
    work = measured(np.minimum(on_line(), lines((POINT, 0.0), (POINT + rises, PEAK))))

    assert work.rise == pytest.approx(0.8 * rises, abs=2 * MS)
    assert work.brake_on == pytest.approx(0.1 * rises, abs=2 * MS)
    assert work.peak_error == pytest.approx(0)
    assert work.reversals == 0
    assert work.line_error == pytest.approx(0, abs=0.1)


def test_a_squeeze_that_never_reaches_its_peak_has_no_rise_and_is_judged_on_the_line() -> None:
    work = measured(np.minimum(on_line(), 60.0))

    assert work.rise is None
    assert work.peak_error == pytest.approx(-20)
    assert work.line_worst == pytest.approx(-20)


def test_a_peak_that_comes_only_with_a_blip_is_not_that_of_the_squeeze() -> None:
    brake = np.minimum(on_line(), 60.0) + np.where(between(BEATS[1], BEATS[1] + 0.1), 30.0, 0.0)

    work = measured(brake)

    assert work.rise is None
    assert work.peak_error == pytest.approx(-20)


def test_a_blip_under_the_squeeze_leaves_it_two_tenths_of_a_second() -> None:
    throttle = blips((POINT + 0.1, *BEATS[1:]))

    work = measured(np.minimum(on_line(), lines((POINT, 0.0), (POINT + 0.15, PEAK))), throttle)

    assert work.squeeze[1] - work.squeeze[0] == 200
    assert work.peak_error == pytest.approx(0)


@pytest.mark.parametrize("since", [0.0, 0.7, POINT - 0.05])
def test_a_brake_that_is_on_before_its_point_is_on_from_there(since: float) -> None:
    brake = np.where(between(since, POINT), PEAK, on_line())

    work = measured(brake)

    assert work.brake_on == pytest.approx(since - POINT)


def test_a_touch_in_the_count_in_is_not_the_braking() -> None:
    work = measured(np.where(between(0.5, 0.9), 30.0, on_line(0.1)))

    assert work.brake_on == pytest.approx(0.1)
    assert work.peak_error == pytest.approx(0)


@pytest.mark.parametrize("brake", [on_line() * 0.0, np.where(between(0.5, 1.7), 60.0, 0.0)])
def test_a_brake_that_is_not_on_from_its_point_to_turn_in_measures_nothing(brake: Values) -> None:
    assert found(brake) is None
    assert found(np.where(TIME >= TURN_IN, 50.0, brake)) is None


def test_a_brake_let_go_and_pressed_again_is_off_at_its_end_and_off_its_line_between() -> None:
    gap = between(POINT + 1.6, POINT + 1.9)

    work = measured(np.where(gap, 0.0, on_line()))

    assert work.off_at == pytest.approx(-5 / PEAK, abs=2 * MS)
    assert work.reversals is not None
    assert work.reversals <= 1


def test_a_brake_let_go_before_its_last_blip_was_off_from_then_on() -> None:
    gone = BEATS[1] + 0.6

    work = measured(np.where(gone <= TIME, 0.0, on_line()))

    assert work.off_at == pytest.approx(gone - TURN_IN, abs=2 * MS)
    assert work.line_worst is not None
    assert work.line_worst < -30


@pytest.mark.parametrize("more", [0.1, 0.25, 0.9])
def test_a_brake_that_stays_on_after_turn_in_is_over_its_line_by_what_is_left(more: float) -> None:
    brake = np.where(between(TURN_IN - 0.4, TURN_IN + more), 32.0, on_line())

    work = measured(brake)

    assert work.off_at == pytest.approx(more, abs=2 * MS)
    assert work.line_worst is not None
    assert work.line_worst > 0


def test_a_brake_that_never_comes_off_has_no_end() -> None:
    work = measured(np.where(TIME >= TURN_IN - 0.2, 16.0, on_line()))

    assert work.off_at is None
    assert work.line_worst == pytest.approx(16.0, abs=0.2)


def test_a_brake_off_too_early_is_under_its_line_up_to_turn_in() -> None:
    work = measured(np.where(TIME >= TURN_IN - 0.4, 0.0, on_line()))

    assert work.off_at == pytest.approx(-0.4, abs=2 * MS)
    assert work.line_worst == pytest.approx(-0.4 * PEAK, abs=0.2)


def test_a_trace_that_ends_in_the_zone_is_measured_up_to_there() -> None:
    ends = int(np.flatnonzero(between(TURN_IN - 0.5, 9.0))[0])

    work = measured(on_line()[:ends], blips()[:ends])

    assert work.off_at is None
    assert work.judged[-1] == ends - 1
    assert work.line_error == pytest.approx(0, abs=1e-9)


def test_too_little_line_between_the_blips_is_not_judged() -> None:
    work = measured(on_line(), blips([POINT + 0.35 + 0.4 * k for k in range(9)]))

    assert (work.line_error, work.line_worst, work.reversals) == (None, None, None)


@pytest.mark.parametrize("every", [8, 16])
def test_pedals_that_report_seldom_read_the_same_within_a_report(every: int) -> None:
    brake, throttle = (
        np.repeat(column[::every], every)[: TIME.size] for column in (on_line(0.1), blips())
    )

    work = measured(brake, throttle)

    step, exact = every * MS, 0.1
    assert work.brake_on == pytest.approx(exact, abs=step)
    assert work.line_lag == pytest.approx(exact, abs=step)
    assert work.line_worst == pytest.approx(0, abs=PEAK * step)
    assert work.off_at == pytest.approx(exact - 5 / PEAK, abs=step)


@pytest.mark.parametrize(("sway", "turns"), [(0.9, 0), (3.0, 3)])
def test_a_brake_that_turns_upward_is_counted_from_two_points_on(sway: float, turns: int) -> None:
    # Three whole waves between the squeeze and the first blip, and none anywhere else.
    begins, ends = POINT + 0.25, BEATS[0] - 0.15
    wave = np.where(
        between(begins, ends),
        -sway * (1 - np.cos(6 * np.pi * (TIME - begins) / (ends - begins))) / 2,
        0.0,
    )

    work = measured(on_line() + 2 * wave)

    assert work.reversals == turns


@given(st.integers(0, 10**6), st.integers(1, STEP - 1))
def test_samples_that_repeat_the_one_before_change_no_measure(seed: int, part: int) -> None:
    rng = np.random.default_rng(seed)
    brake = on_line(rng.uniform(0, 0.3)) + rng.uniform(0, 4) * np.sin(7 * TIME) * (TIME > POINT)
    brake = np.maximum(brake + bump(-rng.uniform(0, 30), BEATS[0]), 0.0)
    throttle, time = blips(), np.arange(TIME.size, dtype=np.int64) * STEP
    pressed, opened = (np.repeat(column, 2)[:-1] for column in (brake, throttle))
    split = Grid.of(Trace(np.sort(np.concatenate([time, time[:-1] + part])), pressed, opened))

    again = measure_zone(split, START, BRAKING, LINE, find_blips(split), Stop())

    once = measured(brake, throttle)
    assert again is not None
    assert np.array_equal(again.judged, once.judged)
    left = {"judged"}
    assert {k: v for k, v in asdict(again).items() if k not in left} == {
        k: v for k, v in asdict(once).items() if k not in left
    }
