"""The picture of a braking zone shows the brake itself, against the line asked, with its parts."""

from dataclasses import replace

import numpy as np
import pytest

from drills.deviation import Deviation
from drills.kinds.zone import COUNTED, beats_of, zone_of
from drills.measures.zone import asked_at
from drills.score import Reason, unjudged
from drills.task import Performance
from drills.trace import Trace, nanoseconds
from drills.typical import median_of
from tests.drills.kinds.driven_zone import PEAK, USUAL, Case, Foot, driven
from tests.drills.kinds.made import Made
from tests.drills.kinds.zone_cases import CASES

PLAYED = [case for case in CASES if case.reason is not Reason.NOT_PRESSED]


def picture_of(one: Made) -> Deviation:
    """The picture of a zone, which there is."""
    assert one.picture is not None
    return one.picture


@pytest.mark.parametrize("case", PLAYED, ids=[case.name for case in PLAYED])
def test_the_curve_is_the_brake_of_the_trace(case: Case) -> None:
    one = case.made
    picture, grid = picture_of(one), one.judged.grid
    first = grid.index(round((picture.origin + float(picture.time[0])) * 1e9))

    assert np.allclose(picture.drawn, grid.brake[first : first + picture.time.size])


def test_the_parts_and_the_beats_are_where_the_corner_has_them() -> None:
    one = driven(Foot(), USUAL, shifts=3)
    picture = picture_of(one)

    [(point, brake), (turn_in, off)] = picture.parts
    assert (point, brake, off) == (0.0, "brake", "turn-in")
    assert turn_in == pytest.approx(zone_of(one.level).seconds)
    assert picture.cues == pytest.approx(beats_of(one.level), abs=0.001)


@pytest.mark.parametrize("bend", [-20.0, 20.0])
def test_the_line_is_drawn_as_late_as_the_foot_followed_it_where_it_decided(bend: float) -> None:
    one = driven(Foot(bend=bend), {"line_worst": 10.0})
    picture, lag = picture_of(one), one.verdict.amount("line_lag")

    assert picture.asked[0] == (0.0, 0.0)
    assert picture.asked[-1] == pytest.approx((one.task.line[-1][0] + lag, 0.0))
    assert picture.worst is not None
    points = np.array([round(1000 * picture.worst.at)], dtype=np.int64)
    asked = float(asked_at(one.task.line, points, 0, round(1000 * lag))[0])
    assert picture.level(picture.worst.at) == pytest.approx(asked, abs=0.1)


def test_the_line_is_drawn_at_its_own_time_where_something_else_decided() -> None:
    one = driven(Foot(dips=(0.0, 25.0)), USUAL)

    assert picture_of(one).asked[2:] == one.task.line


def test_an_area_is_filled_only_around_the_blips() -> None:
    picture = picture_of(driven(Foot(dips=(9.0, 9.0)), {"shortfall": 0.5}))

    assert len(picture.within) == len(picture.blips) == 2
    for (begins, ends), (onset, end) in zip(picture.within, picture.blips, strict=True):
        assert begins < onset < end < ends


def test_a_brake_that_its_limit_is_just_under_is_inside_the_picture() -> None:
    limit = 30.0

    picture = picture_of(driven(Foot(bend=limit), {"line_worst": limit}))

    assert picture.reach > PEAK + limit


def test_an_average_is_drawn_over_no_stretch_too_short_to_be_seen() -> None:
    zones = [driven(Foot(late=(0.0, late)), {"line_error": 8.0}) for late in (0.0, -0.4)]

    drawn = [picture_of(one).average for one in zones]

    for average in drawn:
        assert average is not None
        assert all(ends - begins > 0.09 for begins, ends in average.during)
    assert [len(average.during) for average in drawn if average is not None] == [3, 2]


@pytest.mark.parametrize("past", [14.0, -14.0])
def test_a_squeeze_beside_its_peak_is_marked_against_the_peak(past: float) -> None:
    one = driven(Foot(peak=past), USUAL)
    picture = picture_of(one)

    assert picture.worst is not None
    assert picture.level(picture.worst.at) == PEAK
    assert picture.worst.deviation == pytest.approx(one.verdict.amount("peak_error"))


def test_the_typical_zone_lies_as_far_from_its_line_as_most_did_from_theirs() -> None:
    lower = driven(Foot(bend=5.0), USUAL)
    task = lower.level.kind.task(lower.level, PEAK - 10.0, np.random.default_rng(1))
    brake = lower.done.trace.brake * (PEAK - 10.0) / PEAK
    trace = Trace(lower.done.trace.time, brake, lower.done.trace.throttle)
    low = replace(lower, task=task, done=replace(lower.done, trace=trace))
    pictures = [picture_of(one) for one in (low, low, lower)]

    typical = median_of(pictures)

    times, asked = zip(*pictures[0].asked, strict=True)
    off = pictures[0].drawn - np.interp(pictures[0].time, times, asked)
    for at in (0.7, 1.5, 1.8):
        drawn = float(np.interp(at, typical.time, typical.deviation))
        assert drawn == pytest.approx(float(np.interp(at, pictures[0].time, off)), abs=0.01)
    assert typical.asked == pictures[-1].asked


def test_a_foot_that_did_not_wait_is_drawn_about_the_first_knock() -> None:
    one = driven(Foot(), USUAL)
    whole, ends = one.done.trace, 900
    trace = Trace(whole.time[:ends], np.full(ends, 20.0), whole.throttle[:ends])
    task = replace(one.task, wait=1.0)

    early = unjudged(Reason.ANTICIPATION, task, Performance(trace, nanoseconds(0.0)))
    picture = one.level.kind.picture(one.level, early)

    assert len(task.cues) > COUNTED
    assert picture is not None
    assert (picture.zero, picture.cues, picture.parts) == ("let go", (0.0,), ())
    assert picture.drawn == pytest.approx(20.0)
