"""Finding and timing blips, against exact shapes and a signal library."""

import numpy as np
import pytest
from scipy import signal

from drills.measures.blip import (
    find_blips,
    find_braked_blips,
    find_jumps,
    measure_blip,
    resting_throttle,
    runs_of,
)
from tests.drills.shapes import (
    Shape,
    gaussian,
    grid_of,
    half_sine,
    raised_cosine,
    seconds,
    trapezoid,
    triangle,
)

GRID = 0.001  # s
START = 1.0004  # s, where pulses begin: no level is crossed exactly on a grid point


def pulse(shape: Shape, height: float = 80.0, rest: float = 0.0, length: float = 3.0) -> np.ndarray:
    """Throttle with one pulse of a shape over a rest."""
    return rest + (height - rest) * shape(seconds(length) - START)


def held(length: float = 3.0, at: float = 60.0) -> np.ndarray:
    """A brake held still."""
    return np.full(round(length * 1000), at)


# Exact widths at half height and rises from 10 to 90 % (computed); levels after IEEE Std 181
# (memory).
SHAPES = [
    pytest.param(half_sine(0.2), 0.133333, 0.064910, 0.064910, id="half-sine"),
    pytest.param(raised_cosine(0.2), 0.1, 0.059033, 0.059033, id="raised cosine"),
    pytest.param(triangle(0.2), 0.1, 0.08, 0.08, id="triangle"),
    pytest.param(gaussian(0.05, 0.4), 0.117741, 0.084346, 0.084346, id="Gaussian"),
    pytest.param(trapezoid(0.04, 0.1, 0.06), 0.15, 0.032, 0.048, id="trapezoid"),
]


@pytest.mark.parametrize("rest", [0.0, 4.0])
@pytest.mark.parametrize(("shape", "width", "rise", "fall"), SHAPES)
def test_a_pulse_of_exact_shape_has_its_width_rise_and_fall(
    shape: Shape, width: float, rise: float, fall: float, rest: float
) -> None:
    grid = grid_of(held(), pulse(shape, rest=rest))
    [found] = find_blips(grid)

    blip = measure_blip(grid, found, resting_throttle(grid, found))

    assert blip.peak == pytest.approx(80, abs=0.4)  # the steepest moves 0.8 % a step
    assert blip.width == pytest.approx(width, abs=GRID)
    assert blip.rise == pytest.approx(rise, abs=GRID)
    # From the last point at 90 % to the first past 10 %: each lies outside by up to a step.
    assert fall <= blip.fall <= fall + 2 * GRID


@pytest.mark.parametrize("shape", [pytest.param(row.values[0], id=row.id) for row in SHAPES])
def test_widths_agree_with_a_signal_library(shape: Shape) -> None:
    # scipy.signal.peak_widths interpolates; rel_height counts down from the peak (computed).
    throttle = pulse(shape)
    grid = grid_of(held(), throttle)
    [found] = find_blips(grid)

    blip = measure_blip(grid, found, 0.0)

    half = signal.peak_widths(throttle, [found.top], 0.5)[0][0] / 1000
    tenth = signal.peak_widths(throttle, [found.top], 0.9)[0][0] / 1000
    assert blip.width == pytest.approx(half, abs=GRID)
    assert blip.end - blip.onset == pytest.approx(tenth, abs=GRID)


@pytest.mark.parametrize(("peak", "count"), [(14.9, 0), (15.0, 1), (100.0, 1)])
def test_a_pulse_counts_from_a_peak_of_15_percent(peak: float, count: int) -> None:
    grid = grid_of(held(), pulse(trapezoid(0.02, 0.1, 0.02), height=peak))

    assert len(find_blips(grid)) == count


@pytest.mark.parametrize(("points", "count"), [(1000, 1), (1001, 0)])
def test_a_pulse_may_last_one_second(points: int, count: int) -> None:
    throttle = np.zeros(4000)
    throttle[1000 : 1000 + points] = 60

    assert len(find_blips(grid_of(held(4), throttle))) == count


@pytest.mark.parametrize("floor", [0.0, 6.0])
@pytest.mark.parametrize(("points", "count"), [(29, 0), (30, 1)])
def test_a_pulse_is_at_least_three_hundredths_of_a_second_wide(
    points: int, count: int, floor: float
) -> None:
    # Wide at its foot, and over half its height above the floor for so many points.
    throttle = np.full(3000, floor)
    throttle[1000:1200] = floor + 29.9
    throttle[1100 : 1100 + points] = floor + 60
    grid = grid_of(held(), throttle)

    assert len(find_blips(grid, floor)) == count
    assert len(find_jumps(grid, floor)) == 1 - count
    assert len(find_braked_blips(grid, floor)) == count


@pytest.mark.parametrize(("brake", "count"), [(9.9, 0), (10.0, 1)])
def test_a_blip_on_the_road_with_under_10_percent_brake_is_none(brake: float, count: int) -> None:
    # Common practice: with hardly any brake a blip says nothing. In a drill it counts all the same.
    grid = grid_of(held(at=brake), pulse(half_sine(0.2)))

    assert len(find_braked_blips(grid)) == count
    assert len(find_blips(grid)) == 1


def test_a_pulse_still_open_at_the_end_does_not_count() -> None:
    throttle = np.zeros(2000)
    throttle[1900:] = 60

    assert find_blips(grid_of(held(2), throttle)) == []


def test_throttle_between_5_and_10_percent_neither_starts_nor_ends_a_pulse() -> None:
    throttle = np.zeros(3000)
    throttle[900:1000], throttle[1000:1100], throttle[1100:1300] = 9.9, 50, 5.0

    [found] = find_blips(grid_of(held(), throttle))

    assert (found.start, found.stop, found.top) == (1000, 1300, 1000)


@pytest.mark.parametrize(("start", "count"), [(0, 0), (1, 1)])
def test_a_blip_needs_one_grid_point_that_shows_the_brake_before_it(start: int, count: int) -> None:
    throttle = np.zeros(1000)
    throttle[start : start + 200] = 60

    assert len(find_braked_blips(grid_of(held(1), throttle))) == count


def test_the_tenth_of_a_second_before_a_blip_decides_whether_the_brake_was_on() -> None:
    brake, throttle = np.full(1000, 60.0), np.zeros(1000)
    brake[200:300], throttle[300:500] = 9.9, 60
    off = len(find_braked_blips(grid_of(brake, throttle)))
    brake[299] = 20.0

    assert (off, len(find_braked_blips(grid_of(brake, throttle)))) == (0, 1)


@pytest.mark.parametrize(("floor", "count"), [(0.0, 1), (6.0, 1), (89.0, 1), (91.0, 0)])
def test_throttle_counts_above_its_floor(floor: float, count: int) -> None:
    grid = grid_of(held(), floor / 2 + pulse(half_sine(0.2), height=60))

    found = find_blips(grid, floor)

    assert len(found) == count
    assert all(grid.throttle[blip.start] >= floor + 10 for blip in found)
    assert all(grid.throttle[blip.stop] < floor + 5 for blip in found)


@pytest.mark.parametrize(("off", "runs"), [(99, 1), (100, 2)])
def test_a_brake_let_go_between_two_blips_parts_two_runs(off: int, runs: int) -> None:
    throttle, brake = np.zeros(4000), held(4)
    throttle[1000:1200] = throttle[2000:2200] = 60
    brake[1500 : 1500 + off] = 4.9
    grid = grid_of(brake, throttle)

    assert len(runs_of(grid, find_blips(grid))) == runs


@pytest.mark.parametrize(("apart", "runs"), [(2.0, 1), (2.001, 2)])
def test_blips_whose_starts_are_up_to_two_seconds_apart_are_one_run(
    apart: float, runs: int
) -> None:
    throttle = np.zeros(6000)
    second = 1000 + round(apart * 1000)
    throttle[1000:1200] = throttle[second : second + 200] = 60

    grid = grid_of(held(6), throttle)
    blips = find_blips(grid)

    assert len(blips) == 2
    assert len(runs_of(grid, blips)) == runs


def test_the_top_is_the_first_point_of_the_maximum() -> None:
    throttle = np.zeros(3000)
    throttle[1000:1200] = 60
    throttle[1050:1060] = throttle[1100:1110] = 70

    [found] = find_blips(grid_of(held(), throttle))

    assert found.top == 1050


@pytest.mark.parametrize("points", [60, 256, 257, 700, 1000])
def test_a_flat_pulse_is_as_wide_as_it_is_long(points: int) -> None:
    throttle = np.zeros(4000)
    throttle[1000 : 1000 + points] = 60
    grid = grid_of(held(4), throttle)
    [found] = find_blips(grid)

    blip = measure_blip(grid, found, 0.0)

    assert (blip.onset, blip.end) == (1.0, (1000 + points) / 1000)
    assert (blip.width, blip.rise, blip.fall) == (points / 1000, 0.0, 0.001)


@pytest.mark.parametrize("points", [60, 257, 258, 700])
def test_a_blip_begins_however_long_before_its_top(points: int) -> None:
    throttle = np.zeros(4000)
    throttle[1000 : 1000 + points] = np.linspace(20, 60, points)
    grid = grid_of(held(4), throttle)
    [found] = find_blips(grid)

    blip = measure_blip(grid, found, 0.0)

    assert (blip.onset, blip.end) == (1.0, (1000 + points) / 1000)
    # Half of the top comes after a quarter of the way from 20 to 60 %.
    assert blip.width == pytest.approx(0.75 * points / 1000, abs=GRID)


def test_the_throttle_rests_where_it_was_from_half_to_a_tenth_of_a_second_before() -> None:
    throttle = np.zeros(3000)
    throttle[499], throttle[500:900], throttle[900:1000], throttle[1000:1200] = 9, 2, 8, 60
    grid = grid_of(held(), throttle)
    [found] = find_blips(grid)

    assert resting_throttle(grid, found) == 2


def test_the_pulse_ends_at_the_trace_where_the_throttle_stays_over_its_first_tenth() -> None:
    throttle = np.zeros(1400)
    throttle[1000:1200], throttle[1200:] = 20, 3
    grid = grid_of(held(1.4), throttle)
    [found] = find_blips(grid)

    blip = measure_blip(grid, found, 0.0)

    assert (blip.onset, blip.end) == (1.0, 1.4)


def test_a_point_exactly_on_a_level_belongs_to_the_stretch_on_either_side() -> None:
    throttle = np.zeros(2000)
    throttle[1000:1030] = throttle[1070:1100] = 10
    throttle[1030:1040] = throttle[1060:1070] = 50
    throttle[1040:1060] = 100
    grid = grid_of(held(2), throttle)
    [found] = find_blips(grid)

    blip = measure_blip(grid, found, 0.0)

    assert (blip.onset, blip.end, blip.width) == (1.0, 1.1, 0.04)
