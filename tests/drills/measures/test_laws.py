"""Laws that the measures of a run keep whatever the foot did."""

from dataclasses import asdict, replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.measures.blip import find_blips
from drills.measures.disturbance import Disturbance, Run, measure_run
from drills.trace import SECOND, STEP, Grid, Trace
from tests.drills.shapes import Values, half_sine, seconds, trace_of

HELD = 50.0
LENGTH = 4.0
AT = 1.5
DEVIATES = ("dip", "rebound", "surge", "swing", "shortfall", "excess")


@st.composite
def deviations(draw: st.DrawFn) -> Values:
    """A brake that strays from 50 % by up to 20, in steps, from the onset on."""
    steps = draw(st.lists(st.floats(-20, 20), min_size=1, max_size=12))
    each = draw(st.integers(20, 120))
    moved = np.zeros(round(LENGTH * 1000))
    for number, step in enumerate(steps):
        moved[1500 + number * each : 1500 + (number + 1) * each] = step
    return moved


def stabs(*at: float) -> Values:
    """Throttle of half sines at some times."""
    return sum((80 * half_sine(0.2)(seconds(LENGTH) - t) for t in at), np.zeros(4000))


def measured(trace: Trace) -> Run:
    """The run of all blips of a trace."""
    grid = Grid.of(trace)
    run = measure_run(grid, find_blips(grid))
    assert isinstance(run, Run)
    return run


def only(run: Run) -> Disturbance:
    """What the one blip of a run did."""
    return run.blips[0][1]


@given(deviations(), st.integers(1, 999_999))
def test_samples_that_repeat_the_one_before_change_nothing(moved: Values, part: int) -> None:
    trace = trace_of(HELD + moved, stabs(AT))
    split = Trace(
        np.sort(np.concatenate([trace.time, trace.time[:-1] + part])),
        np.repeat(trace.brake, 2)[:-1],
        np.repeat(trace.throttle, 2)[:-1],
    )

    assert measured(split) == measured(trace)
    assert measured(trace.changes()) == measured(trace)


@given(deviations(), st.integers(-(10**6), 10**6))
def test_another_time_axis_changes_only_the_times_on_it(moved: Values, shift: int) -> None:
    trace = trace_of(HELD + moved, stabs(AT, 2.5))
    later = Trace(trace.time + shift * STEP, trace.brake, trace.throttle)

    here, there = measured(trace), measured(later)

    for (blip, _), (other, _) in zip(here.blips, there.blips, strict=True):
        assert other.onset == pytest.approx(blip.onset + shift * STEP / SECOND, abs=1e-9)
        assert other.end == pytest.approx(blip.end + shift * STEP / SECOND, abs=1e-9)
    blips = [
        (replace(other, onset=blip.onset, end=blip.end), done)
        for (blip, _), (other, done) in zip(here.blips, there.blips, strict=True)
    ]
    assert there.stop == pytest.approx(here.stop + shift * STEP / SECOND, abs=1e-9)
    assert there.start == pytest.approx(here.start + shift * STEP / SECOND, abs=1e-9)
    assert replace(there, blips=tuple(blips), start=here.start, stop=here.stop) == here


@given(deviations(), st.floats(0.1, 2.0))
def test_straying_so_many_times_as_far_measures_so_many_times_as_much(
    moved: Values, times: float
) -> None:
    once = measured(trace_of(HELD + moved, stabs(AT)))

    scaled = measured(trace_of(HELD + times * moved, stabs(AT)))

    expected = {name: times * asdict(only(once))[name] for name in DEVIATES}
    assert {name: asdict(only(scaled))[name] for name in DEVIATES} == pytest.approx(
        expected, abs=1e-9
    )
    coupling = only(once).coupling
    if coupling is not None and only(scaled).lag == only(once).lag:
        assert only(scaled).coupling == pytest.approx(times * coupling, abs=1e-9)


@given(deviations(), st.integers(-20, 25))
def test_holding_a_heavier_brake_changes_only_what_it_costs(moved: Values, more: int) -> None:
    # Eighths of a percent are exact, so that no rounding decides at the edge of the band.
    moved = np.round(moved * 8) / 8
    light = only(measured(trace_of(HELD + moved, stabs(AT))))

    heavy = only(measured(trace_of(HELD + more + moved, stabs(AT))))

    assert replace(heavy, extra_distance=light.extra_distance) == light


@given(deviations())
def test_a_dip_never_exceeds_what_was_held_and_parts_never_exceed_the_whole(moved: Values) -> None:
    run = measured(trace_of(np.clip(HELD + 5 * moved, 0, 100), stabs(AT, 2.3)))

    assert 0 <= run.mean_dip <= run.dip <= run.base
    assert 0 <= run.rebound <= run.surge
    assert run.surge <= 100 - run.base
    assert run.shortfall >= 0
    assert run.excess >= 0
    for _, done in run.blips:
        assert done.swing <= run.swing
        assert done.extra_distance >= -1e-9
        assert done.swing <= done.dip + done.surge + 1e-9
        assert done.lag is None or -0.1 <= done.lag <= 0.25


@given(deviations(), st.floats(5, 20), st.floats(0, 20))
def test_a_wider_band_never_settles_later(moved: Values, band: float, wider: float) -> None:
    grid = Grid.of(trace_of(HELD + moved, stabs(AT)))
    blips = find_blips(grid)

    narrow, wide = measure_run(grid, blips, band), measure_run(grid, blips, band + wider)

    assert isinstance(narrow, Run)
    assert isinstance(wide, Run)
    assert narrow.settle is None or (wide.settle is not None and wide.settle <= narrow.settle)


@given(deviations())
def test_what_happens_after_the_window_changes_nothing(moved: Values) -> None:
    brake, throttle = HELD + moved, stabs(AT)
    whole = measured(trace_of(brake, throttle))
    stop = whole.blips[0][0].after + 1000

    changed = brake.copy()
    changed[stop:] = 0

    assert measured(trace_of(changed, throttle)) == whole
