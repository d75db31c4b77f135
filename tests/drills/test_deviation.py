"""The picture of a repetition: deviation over time, aligned on the blip."""

from dataclasses import replace

import numpy as np
import pytest

from drills.deviation import Bound, Deviation, of_run, of_window
from drills.measures.blip import find_blips
from drills.measures.disturbance import Run, measure_run
from drills.score import Reason, unjudged
from drills.task import Performance
from drills.trace import STEP, Grid, Trace
from drills.typical import median_of, median_of_most
from tests.drills.shapes import grid_of, near, trace_of
from tests.made import BLIP, BLIP_TASK, HOLD, HOLD_TASK, level


def of_the_hold(done: Performance) -> Deviation | None:
    """The picture of a hold."""
    return HOLD.kind.picture(HOLD, HOLD.kind.judge(HOLD, HOLD_TASK, done))


def ramp() -> np.ndarray:
    """A brake that says which millisecond it is: 0.01 % each."""
    return np.arange(5000) / 100


def blipped(seconds: float = 5.0, onset: int = 2000) -> Performance:
    """A brake at 60 % that dips by 10, and a blip a quarter of a second after its cue."""
    time = np.arange(round(seconds * 1000))
    brake, throttle = np.full(time.size, 60.0), np.zeros(time.size)
    brake[onset + 50 : onset + 150] = 50.0
    throttle[onset : onset + 250] = 80.0
    return Performance(trace_of(brake, throttle), 0, ((onset - 250) * STEP,))


def pictured(done: Performance, **limits: float) -> Deviation:
    """The picture of a blip of a level with these limits."""
    asked = level(limits=limits)
    task = replace(BLIP_TASK, target=60.0)
    shown = asked.kind.picture(asked, asked.kind.judge(asked, task, done))
    assert shown is not None
    return shown


def test_a_blip_is_shown_from_half_a_second_before_to_one_and_a_half_after() -> None:
    shown = pictured(blipped(), dip=15.0)

    assert shown.time[[0, -1]] == pytest.approx([-0.5, 1.499])
    assert (shown.deviation.min(), shown.deviation.max()) == (-10.0, 0.0)
    assert shown.span == (-0.5, 1.5)
    assert shown.blips == (near((0.0, 0.25)),)
    assert shown.cues == (near(-0.25),)
    assert shown.throttle is not None
    assert shown.throttle.max() == 80.0


def test_each_limit_is_shown_where_it_is_judged() -> None:
    # A tenth of a second after the cue, which was a quarter before the blip, the foot may answer.
    shown = pictured(blipped(), dip=15.0, surge=12.0, rebound=8.0, offset=4.0, settle=0.6)

    assert shown.bounds == (
        Bound("dip 15 allowed", -15.0, None, (near(-0.15), near(1.25))),
        Bound("overshoot 12 allowed", None, 12.0, (near(-0.15), near(1.25))),
        Bound("coming back 8 allowed", None, 8.0, (near(0.05), near(1.25))),
        Bound("end ±4 allowed", -4.0, 4.0, (near(1.05), near(1.25))),
        Bound("settled within 5", -5.0, 5.0, (0.6, near(1.25))),
    )


def test_a_blip_long_after_its_cue_is_shown_from_its_cue_on() -> None:
    done = blipped()
    early = replace(done, cues=(done.cues[0] - 600 * STEP,))

    shown = pictured(early, dip=15.0)

    assert shown.bounds[0].during[0] == near(-0.75)
    assert shown.cues == (near(-0.85),)
    assert shown.span == (-0.9, 1.5)
    assert shown.time[0] == near(-0.9)


@pytest.mark.parametrize(("dip", "reach"), [(6.0, 15.0), (15.0, 30.0), (45.0, 85.0)])
def test_the_scale_is_that_of_the_level_and_not_of_the_try(dip: float, reach: float) -> None:
    assert pictured(blipped(), dip=dip).reach == reach


def test_a_repetition_that_did_not_wait_is_shown_about_the_cue_that_was_due() -> None:
    trace = trace_of(np.full(1901, 62.0), np.append(np.zeros(1900), 12.0))
    done = Performance(trace, 800 * STEP)

    shown = BLIP.kind.picture(BLIP, unjudged(Reason.ANTICIPATION, BLIP_TASK, done))

    assert shown is not None
    assert (shown.zero, shown.cues, shown.bounds) == ("target", (0.0,), ())
    # The wait of 1.5 s began at 0.8 s; the throttle came at 1.9 s.
    assert shown.time[-1] == pytest.approx(-0.4)
    assert shown.deviation.max() == 2.0


def test_the_median_of_pictures_is_their_middle_where_all_of_them_reach() -> None:
    time = np.arange(5) / 10
    pictures = [
        Deviation(
            time[:stop], np.full(stop, value), (0.0, 1.0), bounds=(Bound("x", -1, 1, (0, 1)),)
        )
        for stop, value in ((5, 1.0), (4, 7.0), (5, 2.0))
    ]

    middle = median_of(pictures)

    assert middle.deviation.tolist() == [2.0] * 4
    assert middle.bounds == pictures[-1].bounds


def test_no_pictures_have_no_median() -> None:
    with pytest.raises(ValueError, match=r"^pictures: expected at least one, found none$"):
        median_of([])


def test_a_hold_is_shown_from_where_its_window_opened_against_the_target() -> None:
    done = Performance(trace_of(ramp(), np.zeros(5000)), 1000 * STEP)

    shown = of_the_hold(done)

    assert shown is not None
    assert shown.time[[0, -1]] == pytest.approx([0.0, 1.999])
    assert shown.deviation[[0, -1]] == pytest.approx([15 - 60, 34.99 - 60])
    assert (shown.zero, shown.span, shown.blips) == ("target", (0.0, 2.0), ())
    assert shown.bounds == (Bound("±4 allowed on average", -4.0, 4.0, (0.0, 2.0)),)


def test_a_void_hold_is_shown_without_limits_once_its_window_opened() -> None:
    done = Performance(trace_of(ramp()[:1800], np.zeros(1800)), 1000 * STEP)

    shown = HOLD.kind.picture(HOLD, unjudged(Reason.GAP, HOLD_TASK, done))

    assert shown is not None
    assert shown.time[[0, -1]] == pytest.approx([0.0, 0.299])
    assert (shown.zero, shown.span, shown.bounds) == ("target", (0.0, 2.0), ())


def test_a_void_hold_that_ended_before_its_window_has_no_picture() -> None:
    done = Performance(trace_of(ramp()[:1400], np.zeros(1400)), 1000 * STEP)

    assert HOLD.kind.picture(HOLD, unjudged(Reason.GAP, HOLD_TASK, done)) is None


def test_a_picture_is_the_same_on_another_time_axis() -> None:
    trace = trace_of(ramp(), np.zeros(5000))
    shift = 3600 * 10**9
    later = Trace(trace.time + shift, trace.brake, trace.throttle)

    here = of_the_hold(Performance(trace, STEP))
    there = of_the_hold(Performance(later, shift + STEP))

    assert here is not None
    assert there is not None
    assert there.time == pytest.approx(here.time, abs=1e-9)
    assert np.array_equal(there.deviation, here.deviation)


def test_a_blip_near_the_ends_of_its_trace_is_shown_as_far_as_it_reaches() -> None:
    shown = pictured(blipped(seconds=2.6, onset=400), dip=15.0)

    assert shown.time[[0, -1]] == pytest.approx([-0.4, 1.499])


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
    assert shown.blips[0] == pytest.approx((0.0, 0.2))
    assert len(shown.blips) == (1 if last is None else 2)
    assert not shown.deviation.any()


def of_length(depth: float, first: float, last: float) -> Deviation:
    """A flat picture so deep from one time to another, a point a millisecond."""
    time = np.arange(round(1000 * first), round(1000 * last)) / 1000
    return Deviation(time, np.full(time.size, -depth), (first, last))


def test_the_median_of_most_is_told_where_half_of_the_pictures_are() -> None:
    pictures = [of_length(4, -0.1, 0.3), of_length(8, -0.1, 0.5), of_length(6, -0.05, 0.6)]

    median = median_of_most(pictures)

    at = dict(zip(median.time.round(3).tolist(), median.deviation.tolist(), strict=True))
    assert (min(at), max(at)) == (-0.1, 0.499)
    assert (at[-0.1], at[0.0], at[0.4]) == (-6.0, -6.0, -7.0)
    assert median.throttle is None


def test_the_median_of_most_of_pictures_alike_is_the_median() -> None:
    pictures = [of_length(depth, -0.1, 0.4) for depth in (3.0, 9.0, 5.0, 4.0)]

    most, whole = median_of_most(pictures), median_of(pictures)

    assert most.deviation == pytest.approx(whole.deviation)
    assert most.time == pytest.approx(whole.time)


def test_the_median_of_most_of_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="expected at least one"):
        median_of_most([])
