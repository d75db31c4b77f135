"""The clutch of a downshift: hand-made samples, ties, and the page written a second time."""

import random
from dataclasses import asdict

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.measures.blip import Pulse, find_blips, measure_blip
from drills.measures.clutch import ClutchWork, in_order, measure_clutch, tie
from drills.trace import STEP, Grid, Trace
from tests.drills.measures import plain, plain_ladder

SECONDS = 2
CUE = 500
"""ms after the first sample."""
ONSET, END = 800, 1000
"""ms after the first sample, a square blip."""
ORIGIN = 7_123_456_789
"""ns, so that no time axis begins at 0."""


def trace_of(clutch: list[tuple[int, float]], onset: int = ONSET, end: int = END) -> Trace:
    """Samples only where something changes: a clutch by (ms, %), a throttle of one square blip."""
    moments = sorted({0, onset, end, SECONDS * 1000, *(at for at, _ in clutch)})
    held = [[value for at, value in [(0, 0.0), *clutch] if at <= moment][-1] for moment in moments]
    return Trace(
        ORIGIN + np.array(moments, dtype=np.int64) * STEP,
        np.full(len(moments), 60.0),
        np.array([70.0 if onset <= moment < end else 0.0 for moment in moments]),
        np.array(held),
    )


def pulse_of(grid: Grid) -> Pulse:
    """The one blip of a grid whose throttle rests at 0."""
    return measure_blip(grid, find_blips(grid)[0], 0.0)


def measured(trace: Trace, cue: int = ORIGIN + CUE * STEP) -> ClutchWork:
    """The clutch of a trace with one blip, from a cue in ns on."""
    grid = Grid.of(trace)
    assert grid.clutch is not None
    return measure_clutch(grid.clutch, grid.index(cue), pulse_of(grid))


def ordered(work: ClutchWork, together: float) -> tuple[bool, bool]:
    """Whether the clutch was down before the blip, and up after it."""
    assert work.down_late is not None
    assert work.up_early is not None
    return in_order(work.down_late, together), in_order(work.up_early, together)


def test_clutch_down_blip_clutch_up_is_timed_from_the_cue_and_in_order() -> None:
    work = measured(trace_of([(650, 30), (700, 50), (720, 100), (1050, 20), (1060, 19.9)]))

    assert work.clutch_down == 0.200
    assert work.clutch_up == 0.560
    assert work.under_clutch == 1
    assert ordered(work, tie(None)) == (True, True)


def test_a_blip_before_the_clutch_and_a_clutch_up_before_its_end_are_out_of_order() -> None:
    work = measured(trace_of([(850, 100), (950, 0)]))

    assert (work.down_late, work.up_early) == (0.050, 0.050)
    assert work.under_clutch == 0.5
    assert ordered(work, tie(None)) == (False, False)


@pytest.mark.parametrize(
    ("late", "right"),
    [(-100, True), (0, True), (19, True), (20, False), (21, False)],
)
def test_only_what_is_closer_than_20_ms_is_a_tie(late: int, right: bool) -> None:
    down = measured(trace_of([(ONSET + late, 100), (1100, 0)]))
    up = measured(trace_of([(700, 100), (END - late, 0)]))

    assert down.down_late == late / 1000
    assert up.up_early == late / 1000
    assert ordered(down, tie(None))[0] is right
    assert ordered(up, tie(None))[1] is right


@pytest.mark.parametrize(
    ("interval", "late", "right"),
    [
        pytest.param(0.008, 19, True, id="a quick device keeps the tie of 20 ms"),
        pytest.param(0.008, 20, False, id="and does not add to it"),
        pytest.param(0.032, 31, True, id="closer than a slow device reports"),
        pytest.param(0.032, 32, False, id="as far as a slow device reports"),
        pytest.param(0.032, 33, False, id="farther than a slow device reports"),
    ],
)
def test_what_is_closer_than_the_reports_of_the_device_is_a_tie(
    interval: float, late: int, right: bool
) -> None:
    work = measured(trace_of([(ONSET + late, 100), (END - late, 0)]))

    assert ordered(work, tie(interval)) == (right, right)


def test_a_clutch_that_never_goes_down_has_neither_time() -> None:
    work = measured(trace_of([(700, 49.9)]))

    assert work == ClutchWork(None, None, 0.0, None, None)


def test_a_clutch_that_stays_down_has_no_time_up() -> None:
    work = measured(trace_of([(700, 80), (1100, 20)]))

    assert (work.clutch_down, work.clutch_up, work.up_early) == (0.200, None, None)


def test_what_the_clutch_did_before_the_cue_is_not_its_answer() -> None:
    work = measured(trace_of([(100, 100), (200, 0), (700, 100), (1100, 0)]))

    assert (work.clutch_down, work.clutch_up) == (0.200, 0.600)


def test_a_clutch_pumped_twice_is_timed_by_its_first_stroke() -> None:
    work = measured(trace_of([(600, 100), (700, 0), (780, 100), (1100, 0)]))

    assert (work.clutch_down, work.clutch_up) == (0.100, 0.200)
    assert ordered(work, tie(None)) == (True, False)


def test_half_up_is_neither_down_nor_up() -> None:
    work = measured(trace_of([(700, 100), (900, 49.9), (1100, 20), (1200, 0)]))

    assert (work.clutch_up, work.under_clutch) == (0.700, 0.5)


STROKES = st.lists(
    st.tuples(st.integers(1, 1900), st.floats(0, 100)),
    max_size=8,
    unique_by=lambda stroke: stroke[0],
).map(sorted)


@given(STROKES, st.integers(1, 999_999))
def test_samples_that_repeat_the_one_before_change_nothing(
    clutch: list[tuple[int, float]], part: int
) -> None:
    trace = trace_of(clutch)
    assert trace.clutch is not None
    split = Trace(
        np.sort(np.concatenate([trace.time, trace.time[:-1] + part])),
        np.repeat(trace.brake, 2)[:-1],
        np.repeat(trace.throttle, 2)[:-1],
        np.repeat(trace.clutch, 2)[:-1],
    )

    assert measured(split) == measured(trace)


@given(STROKES, st.integers(-(10**12), 10**12))
def test_a_shift_in_time_changes_nothing(clutch: list[tuple[int, float]], shift: int) -> None:
    trace = trace_of(clutch)
    later = Trace(trace.time + shift, trace.brake, trace.throttle, trace.clutch)

    assert measured(later, ORIGIN + CUE * STEP + shift) == measured(trace)


@pytest.mark.parametrize("seed", range(40))
def test_any_clutch_measures_what_the_plain_version_does(seed: int) -> None:
    rng = random.Random(seed)
    onset = rng.randint(700, 1000)
    end = onset + rng.randint(80, 300)
    down = onset + round(rng.gauss(0, 40))
    up = max(end + round(rng.gauss(0, 40)), down + 1)
    strokes = [(down, rng.uniform(30, 100)), (up, rng.uniform(0, 60)), (1600, rng.uniform(0, 40))]
    interval = rng.choice([None, 0.004, 0.030])
    trace = trace_of(strokes, onset, end)
    assert trace.clutch is not None
    samples = [(t, c, 0.0) for t, c in zip(trace.time.tolist(), trace.clutch.tolist(), strict=True)]

    work = measured(trace)

    expected = plain_ladder.clutch(plain.grid(samples)[0], CUE, onset, end, interval)
    together = tie(interval)
    assert asdict(work) | {
        "down_in_order": None if work.down_late is None else in_order(work.down_late, together),
        "up_in_order": None if work.up_early is None else in_order(work.up_early, together),
    } == expected | {"down_late": work.down_late, "up_early": work.up_early}
