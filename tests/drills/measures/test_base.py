"""The base of a blip, held before the foot could answer, and how early the brake left it."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.measures.base import base_at_cue, base_before_beat
from drills.measures.blip import find_blips
from drills.measures.disturbance import Run, Unscored, measure_run
from drills.trace import STEP, Grid
from tests.drills.shapes import Values, grid_of, half_sine, near

CUE = 2000  # ms
ONSET = 2300  # ms
LENGTH = 5000  # ms


def stab(onset: int = ONSET, peak: float = 80.0) -> Values:
    """Throttle of one square stab of 0.2 s."""
    throttle = np.zeros(LENGTH)
    throttle[onset : onset + 200] = peak
    return throttle


def run_of(grid: Grid, base: slice | None) -> Run:
    """The run of all blips on a grid."""
    run = measure_run(grid, find_blips(grid), base=base)
    assert isinstance(run, Run)
    return run


def cued(brake: Values, throttle: Values, cue: int = CUE) -> Run:
    """The run of all blips where a cue at a millisecond asks for the first."""
    grid = grid_of(brake, throttle)
    return run_of(grid, base_at_cue(grid, cue * STEP))


def counted(brake: Values, throttle: Values, beat: int = CUE) -> Run:
    """The run of all blips where the first is due on a counted-in beat at a millisecond."""
    grid = grid_of(brake, throttle)
    return run_of(grid, base_before_beat(grid, beat * STEP))


def numbered() -> Values:
    """A brake that says which millisecond it is: 0.01 % each."""
    return np.arange(LENGTH) / 100


def test_the_base_at_a_cue_is_what_was_held_about_it() -> None:
    run = cued(numbered(), stab())

    assert run.base == near(np.mean(np.arange(CUE - 400, CUE + 100)) / 100)
    assert run.start == near((CUE + 100) / 1000)


def test_the_base_of_a_counted_in_run_is_what_was_held_before_a_foot_would_roll() -> None:
    run = counted(numbered(), stab(CUE))

    assert run.base == near(np.mean(np.arange(CUE - 900, CUE - 400)) / 100)
    assert run.start == near((CUE - 400) / 1000)


def test_the_base_of_a_blip_that_nothing_asked_for_ends_a_tenth_of_a_second_before_it() -> None:
    run = run_of(grid_of(numbered(), stab()), None)

    assert run.base == near(np.mean(np.arange(ONSET - 500, ONSET - 100)) / 100)
    assert run.start == near((ONSET - 100) / 1000)


def test_a_blip_before_the_window_of_its_beat_has_ended_answers_nothing() -> None:
    run = counted(numbered(), stab(CUE - 401))

    assert run == run_of(grid_of(numbered(), stab(CUE - 401)), None)
    assert counted(numbered(), stab(CUE - 400)).start == near((CUE - 400) / 1000)


def test_a_trace_that_begins_later_has_what_there_is_of_the_window() -> None:
    brake = numbered()
    brake[:50] = 90

    run = cued(brake, stab(), cue=100)

    assert run.base == near(brake[:200].mean())


@pytest.mark.parametrize(("cue", "scored"), [(0, True), (-1, False)])
def test_a_base_at_a_cue_needs_a_tenth_of_a_second(cue: int, scored: bool) -> None:
    grid = grid_of(np.full(LENGTH, 60.0), stab())

    run = measure_run(grid, find_blips(grid), base=base_at_cue(grid, cue * STEP))

    assert isinstance(run, Run) == scored
    assert scored or run is Unscored.NO_BASE


def test_the_first_window_begins_where_the_base_ends_and_a_later_one_before_its_blip() -> None:
    brake, throttle = np.full(LENGTH, 60.0), stab() + stab(3500)
    brake[CUE + 99], brake[CUE + 100] = 20, 45
    brake[3399], brake[3400] = 45, 50

    run = cued(brake, throttle)

    (_, first), (_, second) = run.blips
    assert first.dip == near(run.base - 45)
    assert first.dip_at == near((CUE + 100 - ONSET) / 1000)
    assert second.dip == near(run.base - 50)
    assert second.dip_at == near(-0.1)
    assert run.swing == 15


def test_of_two_stabs_in_one_movement_the_first_keeps_a_window() -> None:
    throttle = np.zeros(LENGTH)
    throttle[CUE + 100 : CUE + 140] = throttle[CUE + 150 : CUE + 300] = 80

    run = cued(np.full(LENGTH, 60.0), throttle)

    assert len(run.blips) == 2
    assert run.dip == 0


@pytest.mark.parametrize(
    ("depth", "lead"), [(10.0, 0.169), (30.0, 0.189), (5.0, 0.139), (4.9, None)]
)
def test_the_lead_counts_from_where_the_brake_is_3_points_down(
    depth: float, lead: float | None
) -> None:
    # Straight down over 0.1 s from 0.2 s before the onset: the last point at 3 points comes after
    # 0.3 / depth s, and the next one is 1 ms later.
    brake = np.full(LENGTH, 60.0)
    brake[ONSET - 200 : ONSET] -= np.minimum(np.arange(200) / 100, 1.0) * depth

    run = cued(brake, stab())

    assert run.lead == (lead if lead is None else near(lead))


def test_a_brake_that_follows_the_throttle_has_a_negative_lead() -> None:
    brake = np.full(LENGTH, 60.0)
    brake[ONSET + 30 : ONSET + 200] = 45

    assert cued(brake, stab()).lead == near(-0.03)


def test_the_lead_is_that_of_the_last_time_that_the_brake_left() -> None:
    brake = np.full(LENGTH, 60.0)
    brake[ONSET - 190 : ONSET - 150] = 50
    brake[ONSET - 120 : ONSET + 100] = 40

    assert cued(brake, stab()).lead == near(0.12)


def test_a_brake_that_was_down_from_the_first_left_where_the_window_begins() -> None:
    brake = np.full(LENGTH, 60.0)
    brake[CUE + 100 : ONSET + 100] = 40

    assert cued(brake, stab()).lead == near((ONSET - CUE - 100) / 1000)


@pytest.mark.parametrize(("after", "lead"), [(99, -0.299), (100, None)])
def test_a_dip_after_the_blip_is_no_part_of_the_roll(after: int, lead: float | None) -> None:
    brake = np.full(LENGTH, 60.0)
    brake[ONSET + 200 + after :] = 40

    run = cued(brake, stab())

    assert run.lead == (lead if lead is None else near(lead))


def test_only_the_first_blip_of_a_run_leads() -> None:
    brake = np.full(LENGTH, 60.0)
    brake[3400:3600] = 30

    run = cued(brake, stab() + stab(3500))

    assert (run.dip, run.lead) == (30, None)


@pytest.mark.parametrize(("peak", "expected"), [(50.0, 12.0), (100.0, 6.0), (25.0, 24.0)])
def test_a_dip_is_compared_as_if_the_throttle_had_gone_in_by_half(
    peak: float, expected: float
) -> None:
    brake = np.full(LENGTH, 60.0)
    brake[ONSET : ONSET + 100] = 48

    [(_, done)] = cued(brake, stab(peak=peak)).blips

    assert done.dip_at_50 == near(expected)


@st.composite
def rolls(draw: st.DrawFn) -> tuple[int, Values, float]:
    """How long before its throttle (ms) a foot rolls, its brake, and its true dip in points."""
    lead, depth = draw(st.integers(150, 350)), draw(st.floats(6, 40))
    down, back = draw(st.integers(40, lead + 100)), draw(st.integers(80, 400))
    at, sway = np.arange(LENGTH) - ONSET, draw(st.floats(0, 0.4))
    corners = [-lead, down - lead, 220, 220 + back]
    lost = np.interp(at, corners, [0.0, depth, depth, 0.0])
    return lead, 60 - lost + sway * np.sin(2 * np.pi * at / 700), depth


@given(rolls(), st.integers(100, 400))
def test_a_foot_that_rolls_early_after_a_cue_reads_its_true_dip(
    rolled: tuple[int, Values, float], reaction: int
) -> None:
    lead, brake, depth = rolled

    run = cued(brake, stab(), cue=ONSET - lead - reaction)

    assert run.dip == near(depth, abs=1)
    assert run.base == near(60, abs=0.5)


@given(rolls(), st.integers(-50, 200))
def test_a_foot_that_rolls_early_to_a_beat_reads_its_true_dip(
    rolled: tuple[int, Values, float], late: int
) -> None:
    _, brake, depth = rolled

    run = counted(brake, stab(), beat=ONSET - late)

    assert run.dip == near(depth, abs=1)


def test_a_base_up_to_the_onset_would_take_an_early_roll_for_the_hold() -> None:
    brake = 60 - 20 * half_sine(0.8)((np.arange(LENGTH) - ONSET + 300) / 1000)

    assert cued(brake, stab(), cue=ONSET - 400).dip == near(20, abs=0.01)
    assert run_of(grid_of(brake, stab()), None).dip < 18
