"""The clutch, judged from made traces: order and ties, words, bubble, figures and picture."""

from dataclasses import replace

import numpy as np
import pytest

from drills.score import Reason, Verdict
from drills.task import Performance
from drills.trace import Trace
from tests.drills.kinds.clutch_cases import CASES, CLUTCH, HELD, shift
from tests.drills.kinds.made import CUE, TIME, bump, made, square

GRID = 0.001  # s


def test_the_measures_are_those_that_were_put_in() -> None:
    measures = shift(brake=HELD + bump(-8, 0.48)).verdict.measures

    assert measures["clutch_down"] == pytest.approx(0.30, abs=GRID)
    assert measures["clutch_up"] == pytest.approx(0.80, abs=GRID)
    assert measures["reaction"] == pytest.approx(0.45, abs=GRID)
    assert measures["width"] == pytest.approx(0.20, abs=GRID)
    assert measures["under_clutch"] == 1
    assert measures["dip"] == pytest.approx(8, abs=0.01)


@pytest.mark.parametrize(
    ("late", "in_order"), [(-100, True), (0, True), (19, True), (20, False), (21, False)]
)
def test_only_what_is_closer_than_20_ms_is_a_tie(late: int, in_order: bool) -> None:
    down = shift(down=0.45 + late / 1000).verdict.reason
    up = shift(up=0.65 - late / 1000).verdict.reason

    assert down is (Reason.CLEAN if in_order else Reason.BLIP_FIRST)
    assert up is (Reason.CLEAN if in_order else Reason.CLUTCH_FIRST)


@pytest.mark.parametrize(("late", "in_order"), [(31, True), (32, False), (33, False)])
def test_what_is_closer_than_the_reports_of_the_device_is_a_tie(late: int, in_order: bool) -> None:
    # A brake that changes every 32 ms makes the device one that reports so often, while the
    # throttle and the clutch change when they are made to.
    swaying = np.where(np.arange(TIME.size) // 32 % 2, 60.1, 60.0)

    verdict = shift(down=0.45 + late / 1000, brake=swaying).verdict

    assert verdict.reason is (Reason.CLEAN if in_order else Reason.BLIP_FIRST)


def test_a_clutch_pumped_before_the_blip_came_up_before_it() -> None:
    pumped = square(0.2, 0.1, 100.0) + square(0.4, 0.4, 100.0)

    verdict = made(CLUTCH, HELD, square(0.45), pumped).verdict

    assert verdict.reason is Reason.CLUTCH_FIRST


@pytest.mark.parametrize(("down", "onset"), [(0.05, 0.45), (0.3, 0.05)])
def test_a_foot_that_did_not_wait_for_the_cue_makes_it_count_for_nothing(
    down: float, onset: float
) -> None:
    # Under 0.100 s is a false start (World Athletics Technical Rules 16.6, read).
    one = shift(down=down, onset=onset)

    assert one.verdict.reason is Reason.ANTICIPATION
    assert one.said == (
        "The clutch or the throttle came too soon to answer the cue. Wait for the cue."
    )
    assert one.lean is None


def test_two_blips_are_too_many() -> None:
    throttle = square(0.45) + square(0.9)

    one = made(CLUTCH, HELD, throttle, square(0.3, 0.9, 100.0))

    assert one.verdict.reason is Reason.EXTRA_BLIP
    assert one.said == "More than one blip came. One blip, then leave the throttle shut."


def test_a_clutch_that_is_not_there_is_none() -> None:
    one = made(CLUTCH, HELD, square(0.45))

    assert one.verdict == Verdict(Reason.NO_CLUTCH, 0.0)


def test_too_little_held_brake_before_the_blip_is_not_scored() -> None:
    whole = shift()
    begins = round(1000 * (CUE + 0.45)) - 150
    trace = whole.done.trace
    assert trace.clutch is not None
    cut = Trace(
        trace.time[begins:], trace.brake[begins:], trace.throttle[begins:], trace.clutch[begins:]
    )

    verdict = CLUTCH.kind.judge(CLUTCH, whole.task, replace(whole.done, trace=cut)).verdict

    assert verdict == Verdict(Reason.NOT_SCORED, 0.0)
    assert CLUTCH.kind.missed(CLUTCH, verdict) is not None


def test_the_clutch_is_drawn_on_the_axis_of_the_blip() -> None:
    picture = shift().picture

    assert picture is not None
    assert picture.clutch is not None
    went = picture.time[np.flatnonzero(picture.clutch >= 50)[[0, -1]]]
    assert went == pytest.approx([0.30 - 0.45, 0.80 - 0.45], abs=2 * GRID)


def test_a_trace_that_began_long_ago_is_judged_the_same() -> None:
    one, later = shift(), 86_400 * 10**9
    trace = one.done.trace
    moved = Trace(trace.time + later, trace.brake, trace.throttle, trace.clutch)
    done = Performance(moved, later, tuple(cue + later for cue in one.done.cues))

    verdict = CLUTCH.kind.judge(CLUTCH, one.task, done).verdict

    assert verdict.reason is one.verdict.reason
    assert verdict.score == one.verdict.score


def test_every_way_a_shift_can_end_is_told() -> None:
    assert {case.reason for case in CASES} == {
        *(Reason.CLEAN, Reason.OVER_LIMIT, Reason.LET_GO, Reason.OFF_TARGET, Reason.NO_BLIP),
        *(Reason.LATE, Reason.LIGHT, Reason.HEAVY, Reason.LONG, Reason.SHORT),
        Reason.NO_CLUTCH,
        *(Reason.BLIP_FIRST, Reason.CLUTCH_FIRST, Reason.CLUTCH_STAYED),
    }
