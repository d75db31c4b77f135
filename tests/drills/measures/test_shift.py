"""The press of a shift button against its blip's peak: known answers, a reference, and laws."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.judging import pulses_on
from drills.measures.blip import Pulse
from drills.measures.shift import Shift, farthest_shift, measure_shifts, presses_of
from drills.trace import STEP, Grid, Trace
from tests.drills.measures.plain_shift import plain_farthest, plain_shifts
from tests.drills.shapes import Values

LENGTH = 4000
"""Grid points of a made trace: 4 s."""
Made = tuple[Values, Values, list[Pulse]]
"""Throttle and shift button of a trace, and the blips in it."""


def triangle(first: int, top: int, after: int, height: float = 60.0) -> Values:
    """A throttle pulse that goes up and down in straight lines, with its peak at `top`."""
    return np.interp(np.arange(LENGTH), [first, top, after], [0.0, height, 0.0])


def pressed(*at: int, length: int = 50) -> Values:
    """A button that goes down at some grid points."""
    button = np.zeros(LENGTH)
    for press in at:
        button[press : press + length] = 1.0
    return button


def grid_of(throttle: Values, button: Values | None, clutch: Values | None = None) -> Grid:
    """The grid of pedals read each millisecond, with the brake held."""
    time = np.arange(LENGTH, dtype=np.int64) * STEP
    return Grid.of(Trace(time, np.full(LENGTH, 60.0), throttle, clutch, shift=button))


def shifts(throttle: Values, button: Values | None) -> list[Shift | None]:
    """The shifts at the blips of a made trace."""
    grid = grid_of(throttle, button)
    return measure_shifts(grid, pulses_on(grid))


def times_of(found: Sequence[Shift | None]) -> list[float | None]:
    """Times of shifts from their blips' peaks."""
    return [None if shift is None else shift.shift_at for shift in found]


def test_a_press_is_timed_from_the_peak_of_its_blip() -> None:
    throttle = triangle(1000, 1060, 1160)

    late, early, on = (times_of(shifts(throttle, pressed(at))) for at in (1180, 1010, 1060))

    assert (late, early, on) == ([0.120], [-0.050], [0.0])


def test_a_press_is_told_from_the_onset_and_from_the_clutch_too() -> None:
    throttle = triangle(1000, 1060, 1160)
    clutch = np.zeros(LENGTH)
    clutch[900:1300] = 100.0
    grid = grid_of(throttle, pressed(1350), clutch)

    [shift] = measure_shifts(grid, pulses_on(grid))

    assert shift is not None
    assert shift.before_blip == -0.344  # the onset is at a tenth of the peak, 6 ms up
    assert shift.after_clutch == 0.050
    assert shift.peak == 1.060


@pytest.mark.parametrize(("up", "after_clutch"), [(1100, 0.250), (1300, 0.050), (None, None)])
def test_a_press_is_told_from_the_clutch_only_where_that_came_up(
    up: int | None, after_clutch: float | None
) -> None:
    # It is half down, just enough, and up under 20 %.
    clutch = np.where(np.arange(LENGTH) < 900, 0.0, 50.0)
    if up is not None:
        clutch[up:] = 19.9
    grid = grid_of(triangle(1000, 1060, 1160), pressed(1350), clutch)

    [shift] = measure_shifts(grid, pulses_on(grid))

    assert shift is not None
    assert shift.after_clutch == after_clutch


def test_of_a_flat_top_the_peak_is_its_first_point() -> None:
    throttle = np.minimum(triangle(1000, 1100, 1200, 80.0), 60.0)

    assert times_of(shifts(throttle, pressed(1100))) == [0.025]


def test_a_button_that_was_down_all_along_was_not_pressed() -> None:
    assert times_of(shifts(triangle(1000, 1060, 1160), np.ones(LENGTH))) == [None]
    assert presses_of(grid_of(np.zeros(LENGTH), np.ones(LENGTH))).size == 0


def test_without_a_button_there_is_no_press() -> None:
    assert times_of(shifts(triangle(1000, 1060, 1160), None)) == [None]
    assert presses_of(grid_of(np.zeros(LENGTH), None)).size == 0


@pytest.mark.parametrize(
    ("press", "counts"),
    [(505, False), (506, True), (1650, True), (1651, False)],
)
def test_a_press_counts_within_half_a_second_of_its_blip(press: int, counts: bool) -> None:
    # At a tenth of its peak the pulse is [1006, 1151).
    throttle = triangle(1000, 1060, 1160)
    [pulse] = pulses_on(grid_of(throttle, None))
    assert (pulse.first - 500, pulse.after + 500) == (506, 1651)

    [time] = times_of(shifts(throttle, pressed(press)))

    assert (time is not None) == counts


@pytest.mark.parametrize(("press", "place"), [(1277, 0), (1278, 1)])
def test_between_close_blips_the_middle_says_whose_press_it_is(press: int, place: int) -> None:
    throttle = triangle(1000, 1060, 1160) + triangle(1400, 1460, 1560)

    found = times_of(shifts(throttle, pressed(press)))

    assert [time is not None for time in found] == [place == 0, place == 1]


def test_of_several_presses_the_nearest_to_the_peak_is_the_one() -> None:
    throttle = triangle(1000, 1060, 1160)

    assert times_of(shifts(throttle, pressed(900, 1090, 1200))) == [0.030]


def test_of_several_blips_the_farthest_press_is_told_with_its_sign() -> None:
    throttle = triangle(1000, 1060, 1160) + triangle(2000, 2060, 2160)

    found = shifts(throttle, pressed(1100, 1970))

    assert times_of(found) == [0.040, -0.090]
    assert farthest_shift(found) == -0.090
    assert farthest_shift(shifts(throttle, pressed(1100))) is None
    assert farthest_shift([]) is None


@st.composite
def traces(draw: st.DrawFn) -> Made:
    """Random blips with random presses about them."""
    throttle, at = np.zeros(LENGTH), 600
    for _ in range(draw(st.integers(1, 4))):
        up, down = draw(st.integers(25, 120)), draw(st.integers(25, 150))
        throttle += triangle(at, at + up, at + up + down, draw(st.floats(20, 90)))
        at += up + down + draw(st.integers(20, 500))
    presses = draw(st.lists(st.integers(1, LENGTH - 60), max_size=8))
    button = pressed(*presses, length=draw(st.integers(1, 60)))
    return throttle, button, list(pulses_on(grid_of(throttle, None)))


@given(traces())
def test_any_trace_is_measured_as_plain_python_does(made: Made) -> None:
    throttle, button, pulses = made
    spans = [(pulse.first, pulse.after) for pulse in pulses]

    found = measure_shifts(grid_of(throttle, button), pulses)

    expected = plain_shifts(throttle.tolist(), button.tolist(), spans)
    assert times_of(found) == expected
    assert farthest_shift(found) == plain_farthest(expected)


@given(traces())
def test_no_press_is_taken_twice(made: Made) -> None:
    throttle, button, pulses = made

    found = measure_shifts(grid_of(throttle, button), pulses)

    taken = [round(1000 * (one.peak + one.shift_at)) for one in found if one is not None]
    assert len(set(taken)) == len(taken)


@given(st.integers(-150, 150), st.lists(st.integers(-100, 100), min_size=3, max_size=3))
def test_moving_every_press_moves_every_shift_by_as_much(by: int, offs: list[int]) -> None:
    tops = (1060, 2060, 3060)
    throttle = sum((triangle(top - 60, top, top + 100) for top in tops), np.zeros(LENGTH))
    first = [top + off for top, off in zip(tops, offs, strict=True)]

    before = times_of(shifts(throttle, pressed(*first)))
    after = times_of(shifts(throttle, pressed(*(press + by for press in first))))

    assert after == pytest.approx([(time or 0.0) + by / 1000 for time in before], abs=1e-12)


@given(traces(), st.integers(1, 7))
def test_a_trace_without_its_repeated_samples_has_the_same_shifts(made: Made, each: int) -> None:
    throttle, button, _ = made
    time = np.arange(LENGTH, dtype=np.int64) * STEP
    held = np.full(LENGTH, 60.0)
    coarse = slice(None, None, each)
    trace = Trace(time[coarse], held[coarse], throttle[coarse], shift=button[coarse])

    whole, fewer = Grid.of(trace), Grid.of(trace.changes())

    assert pulses_on(whole) == pulses_on(fewer)
    assert measure_shifts(whole, pulses_on(whole)) == measure_shifts(fewer, pulses_on(fewer))


def test_time_counts_from_the_trace_and_not_from_its_origin() -> None:
    throttle, button = triangle(1000, 1060, 1160), pressed(1200)
    grid = grid_of(throttle, button)

    later = replace(grid, start=86_400 * 10**9)

    assert times_of(measure_shifts(later, pulses_on(later))) == [0.140]
