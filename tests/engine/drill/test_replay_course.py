"""The course of a replay: the pedals of the repetition itself, at every moment of its picture."""

from dataclasses import replace

import numpy as np
import pytest

from drills.deviation import about_middle, cut
from drills.level import Level
from drills.measures.chord import FROM, ChordDisturbance
from drills.measures.way import WayDown
from drills.remeasure import Remeasurer, StoredRepetition
from drills.score import Judged
from drills.task import Performance
from drills.trace import SECOND, STEP, Grid, Trace
from engine.drill.replay_course import LONGEST, PedalCourse
from engine.drill.replay_words import speed_words
from engine.store import Record
from tests.engine.drill.replaying import course_of
from tests.engine.repetitions_shown import Shown
from tests.engine.shipped_played import BY_ID, repetitions

OF_A_LINE = ("still-2-firm", "still-2a-squeeze", "blip-1-first", "run-2-three", "clutch-1-order")
"""Levels whose pictures are drawn against one value of the brake."""
OF_A_WAY = ("ease-1-slow", "ease-3-one", "ease-5-two")
"""Levels whose pictures are drawn against a way down."""


def played(name: str) -> list[Shown]:
    """Repetitions of a level by feet of several skills, those that are replayed."""
    shown = [one for skill in (0.05, 0.4, 0.9) for one in repetitions(BY_ID[name], skill, 11, 3)]
    return [one for one in shown if one.deviation is not None and not one.record.verdict.void]


@pytest.mark.parametrize("name", [*OF_A_LINE, *OF_A_WAY])
def test_the_pedals_of_a_replay_are_those_of_the_trace_at_every_millisecond(name: str) -> None:
    shown = played(name)

    assert len(shown) >= 4
    for one in shown:
        course, trace = course_of(one), one.record.trace
        assert trace is not None
        for at in range(0, course.brake.size, 7):
            time = round((course.picture.origin + float(course.picture.time[at])) * SECOND)
            newest = int(np.searchsorted(trace.time, time, side="right")) - 1
            pressed = course.pressed(float(course.picture.time[at]))
            assert pressed.brake == pytest.approx(trace.brake[newest], abs=1e-6)
            assert pressed.throttle == pytest.approx(trace.throttle[newest], abs=1e-6)
            if pressed.clutch is not None:
                assert trace.clutch is not None
                assert pressed.clutch == pytest.approx(trace.clutch[newest], abs=1e-6)


@pytest.mark.parametrize("name", OF_A_LINE)
def test_the_brake_of_a_replay_minus_what_was_held_is_the_curve_that_is_drawn(name: str) -> None:
    for one in played(name):
        course, picture = course_of(one), one.deviation
        assert picture is not None

        held = course.brake - course.picture.deviation

        assert np.ptp(held) < 1e-9
        drawn = about_middle(picture)
        assert np.array_equal(course.picture.deviation, drawn.deviation)
        assert np.array_equal(course.picture.time, drawn.time)
        if picture.throttle is not None:
            assert np.array_equal(course.throttle, picture.throttle)
        if picture.clutch is not None:
            assert course.clutch is not None
            assert np.array_equal(course.clutch, picture.clutch)


@pytest.mark.parametrize("name", OF_A_WAY)
def test_the_brake_of_a_replayed_easing_off_minus_its_curve_is_the_way_down(name: str) -> None:
    ways = 0
    for one in played(name):
        course, judged = course_of(one), judged_again(BY_ID[name], one.record)
        way, first = judged.measured, first_of(course, judged.grid)
        if not isinstance(way, WayDown) or way.ramp is None or course.picture.zero != "straight":
            continue
        outside = np.ones(course.brake.size, dtype=bool)
        for pulse, done in way.run.blips if way.run is not None else ():
            if isinstance(done, ChordDisturbance):
                stop = judged.grid.index(round(done.stop * SECOND))
                outside[max(pulse.first - FROM - first, 0) : stop - first] = False

        meant = course.brake - course.picture.deviation

        points = np.flatnonzero(outside)
        line = np.clip(way.ramp.brake(points + first), 0.0, way.held)
        assert meant[points] == pytest.approx(line, abs=1e-9)
        ways += 1
    assert ways >= 2


def first_of(course: PedalCourse, grid: Grid) -> int:
    """Grid index at which the picture of a course begins."""
    return grid.index(round((course.picture.origin + float(course.picture.time[0])) * SECOND))


def judged_again(level: Level, record: Record) -> Judged:
    """A repetition judged once more, from what the history would hold of it."""
    assert record.trace is not None
    assert record.dark is not None
    stored = StoredRepetition(
        1,
        level.id,
        level.kind.name,
        record.target,
        record.tolerance,
        record.verdict.reason.value,
        Performance(record.trace, record.dark, record.cues),
        {},
        0,
    )
    judged = Remeasurer([level]).judge(stored)
    assert isinstance(judged, Judged)
    return judged


def a_course(seconds: float) -> PedalCourse:
    """Course of so many seconds, with a brake that rises and a throttle that falls."""
    time = np.arange(round(seconds * 1000) + 1, dtype=np.int64) * STEP
    brake, throttle = np.linspace(20.0, 80.0, time.size), np.linspace(90.0, 10.0, time.size)
    grid = Grid.of(Trace(time, brake, throttle))
    picture = cut(grid, 1.0, 50.0, (-1.0, seconds))
    assert picture is not None
    course = PedalCourse.of(picture, grid)
    assert course is not None
    return course


def test_between_two_milliseconds_the_pedals_are_interpolated() -> None:
    course = a_course(2.0)

    points = course.pressed(0.250), course.pressed(0.2505), course.pressed(0.251)

    assert points[1].brake == pytest.approx((points[0].brake + points[2].brake) / 2)
    assert points[1].throttle == pytest.approx((points[0].throttle + points[2].throttle) / 2)
    assert points[1].brake - 50 == pytest.approx(course.deviation(0.2505))


@pytest.mark.parametrize(
    ("seconds", "speed", "words"),
    [
        (2.0, 0.25, "quarter speed"),
        (3.0, 0.25, "quarter speed"),
        (3.1, 0.5, "half speed"),
        (6.0, 0.5, "half speed"),
        (12.0, 1.0, "real time"),
        (20.0, 2.0, "double speed"),
        (40.0, 4.0, "4 times as fast"),
    ],
)
def test_a_replay_takes_twelve_seconds_at_most_and_says_how_fast_it_is(
    seconds: float, speed: float, words: str
) -> None:
    course = a_course(seconds)

    assert (course.speed, speed_words(course.speed)) == (speed, words)
    assert course.lasts == pytest.approx(seconds / speed)
    assert course.lasts <= LONGEST


def test_a_picture_that_its_pedals_do_not_cover_has_no_replay() -> None:
    course = a_course(2.0)
    short = Grid(0, course.brake[:500], course.throttle[:500])

    assert PedalCourse.of(course.picture, short) is None


def test_jumps_of_a_pedal_are_in_no_replay_as_they_are_in_no_picture() -> None:
    [one] = repetitions(BY_ID["blip-1-first"], 0.6, 5, 1)
    trace, level = one.record.trace, BY_ID["blip-1-first"]
    assert trace is not None
    brake = trace.brake.copy()
    at = int(np.searchsorted(trace.time, one.record.cues[0] - SECOND // 5))
    brake[at : at + 3] = 0.0
    record = replace(one.record, trace=replace(trace, brake=brake, counts=None))
    judged = judged_again(level, record)
    picture = level.kind.picture(level, judged)
    assert picture is not None

    course = course_of(Shown(record, picture))

    assert judged.jumps
    assert np.ptp(course.brake - picture.deviation) < 1e-9
    assert course.brake.min() > 10.0
