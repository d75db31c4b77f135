"""Reveals with replays: of simulated repetitions, held or asked for by keys at any time."""

from collections.abc import Callable
from dataclasses import replace

from drills.level import Level
from drills.measures.jumps import without_jumps
from drills.trace import SECOND, Grid, Sample, nanoseconds
from engine.drill.replay_course import PedalCourse
from engine.drill.replays import Best, Replays
from engine.drill.reveal import Reveal
from engine.drill.reveal_facts import RevealFacts
from engine.kit.base import Place
from engine.kit.foot_pose import Way
from engine.store import Record
from tests.engine.repetitions_shown import Shown
from tests.loudspeaker import Loudspeaker

STEP = nanoseconds(0.010)


def grid_of(record: Record) -> Grid:
    """Pedals of a repetition on the 1 ms grid, without their jumps."""
    assert record.trace is not None
    return Grid.of(without_jumps(record.trace)[0])


def course_of(shown: Shown) -> PedalCourse:
    """Course of a repetition that has a picture."""
    assert shown.deviation is not None
    course = PedalCourse.of(shown.deviation, grid_of(shown.record))
    assert course is not None
    return course


def replayed(
    level: Level,
    shown: Shown,
    best: Callable[[], Best] | None = None,
    speaker: Loudspeaker | None = None,
    place: Place = Place(6, 10),  # noqa: B008
) -> Reveal:
    """Reveal of a repetition that may be replayed."""
    replays = Replays(course_of(shown), Way.ROLL, speaker or Loudspeaker(), best)
    record, picture = shown.record, shown.deviation
    of = RevealFacts(level, record.verdict, picture, (), place, record.sampling)
    return Reveal(replace(of, replays=replays))


def sit(screen: Reveal, now: int, seconds: float, throttle: float | None = 0.0) -> int:
    """Feed a reveal every 10 ms from `now` (ns) with the throttle at a value; returns the end."""
    for _ in range(round(seconds * SECOND / STEP)):
        now += STEP
        sample = None if throttle is None else Sample(now, 0.0, throttle)
        screen.on_sample(sample, now)
    return now
