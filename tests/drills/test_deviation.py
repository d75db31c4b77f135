"""The picture of a repetition: deviation over time, aligned on the blip."""

import numpy as np
import pytest

from drills.deviation import Deviation, of_run, of_window
from drills.measures.blip import find_blips
from drills.measures.disturbance import Run, measure_run
from drills.score import Reason, Verdict
from drills.task import Performance
from drills.trace import STEP, Grid, Trace
from tests.drills.shapes import grid_of, trace_of
from tests.made import BLIP, BLIP_TASK, HOLD, HOLD_TASK


def of_the_blip(done: Performance, verdict: Verdict) -> Deviation | None:
    """The picture of a blip."""
    return BLIP.kind.deviation(BLIP, BLIP_TASK, done, verdict)


def of_the_hold(done: Performance, verdict: Verdict) -> Deviation | None:
    """The picture of a hold."""
    return HOLD.kind.deviation(HOLD, HOLD_TASK, done, verdict)


def ramp() -> np.ndarray:
    """A brake that says which millisecond it is: 0.01 % each."""
    return np.arange(5000) / 100


def test_a_blip_is_shown_from_half_a_second_before_to_one_and_a_half_after() -> None:
    verdict = Verdict(Reason.CLEAN, 90.0, (), {"base": 10.0, "onset": 2.0, "end": 2.25})
    done = Performance(trace_of(ramp(), np.zeros(5000)), 0, (STEP,))

    shown = of_the_blip(done, verdict)

    assert shown is not None
    assert shown.time[[0, -1]] == pytest.approx([-0.5, 1.499])
    assert shown.deviation[[0, -1]] == pytest.approx([5.0, 24.99])
    assert shown.blip == (0.0, 0.25)


def test_a_hold_is_shown_from_where_its_window_opened_against_the_target() -> None:
    done = Performance(trace_of(ramp(), np.zeros(5000)), 1000 * STEP)

    shown = of_the_hold(done, Verdict(Reason.OVER_LIMIT, 10.0))

    assert shown is not None
    assert shown.time[[0, -1]] == pytest.approx([0.0, 1.999])
    assert shown.deviation[[0, -1]] == pytest.approx([15 - 60, 34.99 - 60])
    assert shown.blip is None


def test_a_picture_is_the_same_on_another_time_axis() -> None:
    trace = trace_of(ramp(), np.zeros(5000))
    shift = 3600 * 10**9
    later = Trace(trace.time + shift, trace.brake, trace.throttle)

    here = of_the_hold(Performance(trace, STEP), Verdict(Reason.CLEAN))
    there = of_the_hold(Performance(later, shift + STEP), Verdict(Reason.CLEAN))

    assert here is not None
    assert there is not None
    assert there.time == pytest.approx(here.time, abs=1e-9)
    assert np.array_equal(there.deviation, here.deviation)


@pytest.mark.parametrize("missing", ["base", "onset", "end"])
def test_a_blip_without_measures_has_no_picture(missing: str) -> None:
    measures = {"base": 10.0, "onset": 2.0, "end": 2.25, missing: None}
    done = Performance(trace_of(ramp(), np.zeros(5000)), 0, (STEP,))

    assert of_the_blip(done, Verdict(Reason.NO_BLIP, 6.0, (), measures)) is None
    assert of_the_blip(done, Verdict(Reason.NO_BLIP)) is None


def test_a_blip_near_the_ends_of_its_trace_is_shown_as_far_as_it_reaches() -> None:
    verdict = Verdict(Reason.CLEAN, 90.0, (), {"base": 0.0, "onset": 0.2, "end": 0.4})
    done = Performance(trace_of(ramp()[:600], np.zeros(600)), 0, (STEP,))

    shown = of_the_blip(done, verdict)

    assert shown is not None
    assert shown.time[[0, -1]] == pytest.approx([-0.2, 0.399])


def test_a_window_of_less_than_two_points_has_no_picture() -> None:
    grid = Grid.of(trace_of(ramp(), np.zeros(5000)))

    assert of_window(grid, 1.0, 1.001, 60) is None
    assert of_window(grid, 9.0, 10.0, 60) is None
    two = of_window(grid, 1.0, 1.002, 60)
    assert two is not None
    assert two.deviation == pytest.approx([-50, -49.99])


@pytest.mark.parametrize(("last", "until"), [(None, 1.5), (1.0, 2.2)])
def test_a_run_is_shown_from_before_its_first_blip_to_a_second_past_its_last(
    last: float | None, until: float
) -> None:
    throttle = np.zeros(6000)
    throttle[2000:2200] = 80
    if last is not None:
        throttle[3000:3200] = 80
    grid = grid_of(np.full(6000, 60.0), throttle)
    run = measure_run(grid, find_blips(grid))
    assert isinstance(run, Run)

    shown = of_run(grid, run)

    assert isinstance(shown, Deviation)
    assert shown.time[[0, -1]] == pytest.approx([-0.5, until - 0.001])
    assert shown.blip == pytest.approx((0.0, 0.2))
    assert not shown.deviation.any()
