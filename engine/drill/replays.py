"""`replays_of`: what may be replayed of a repetition that was just played, and beside it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import partial

from drills.level import Level
from drills.measures.jumps import without_jumps
from drills.remeasure import Remeasurer, Unmeasured
from drills.trace import Grid
from engine.drill.attempt import Attempt, Setting
from engine.drill.replay_course import PedalCourse
from engine.drill.replay_words import IS_BEST, NO_OTHER, NOT_COMPARABLE, best_words
from engine.kit.foot_pose import Way
from engine.stage.speaker import Speaker
from engine.store import History, Record
from engine.store.best import best_repetitions
from engine.store.changes import scale_start
from engine.store.remeasure import stored_repetition

TRIED = 3
"""Largest number of best repetitions that are judged once more to find one that can be drawn."""


@dataclass(frozen=True)
class Best:
    """The player's best repetition of a level, to be compared with the one just played."""

    course: PedalCourse | None
    """Its course; None where there is nothing to compare with."""
    words: str
    """What it is, or why there is none; empty where that is not known."""


@dataclass(frozen=True)
class Replays:
    """Replays that a reveal offers."""

    own: PedalCourse
    """Course of the repetition that is revealed."""
    way: Way
    """How the player does heel-and-toe."""
    speaker: Speaker
    """Sound output that the brake is heard with."""
    best: Callable[[], Best] | None = None
    """Finds the best repetition of the level; None where nothing is compared."""


def replays_of(attempt: Attempt, number: int | None, setting: Setting) -> Replays | None:
    """Replays of a repetition that was just played; None if there is nothing to replay.

    `number` is its number in the history, None where it is not stored.
    """
    record, picture = attempt.record, attempt.picture
    if record is None or record.trace is None or picture is None or record.verdict.void:
        return None
    trace = without_jumps(record.trace)[0] if record.jumps else record.trace
    own = PedalCourse.of(picture, Grid.of(trace))
    if own is None:
        return None
    best, history = None, setting.history
    if (
        history is not None
        and number is not None
        and record.feet
        and not attempt.level.is_staircase
    ):
        best = partial(find_best, history, attempt.level, record, number)
    return Replays(own, setting.way, setting.stage.speaker, best)


def find_best(history: History, level: Level, record: Record, number: int) -> Best:
    """The best repetition of a level on the rig of `record`, other than that, stored as `number`.

    There is none where the one of `record` is as good. One of another scale of the brake, or that
    today's limits judge no better than that of `record`, cannot be compared. Raises StoreError.
    """
    score, rig = record.verdict.score or 0.0, record.rig
    of_all = best_repetitions(history, level.id, rig, number, 1)
    if not of_all:
        return Best(None, NO_OTHER)
    [top] = of_all
    if top.score <= score:
        return Best(None, IS_BEST if score > 0.0 else "")
    after = scale_start(history)
    for one in best_repetitions(history, level.id, rig, number, TRIED, after):
        course = _course_of(history, level, one.number, score)
        if course is not None:
            is_best = one.number == top.number
            return Best(course, best_words(one.day, record.at.date(), is_best=is_best))
    return Best(None, NOT_COMPARABLE)


def _course_of(history: History, level: Level, number: int, least: float) -> PedalCourse | None:
    """Course of a stored repetition; None if it cannot be judged as it was. Raises StoreError.

    None too where its score by today's limits is not above `least`.
    """
    stored = stored_repetition(history, number)
    judged = None if stored is None else Remeasurer([level]).judge(stored)
    if stored is None or judged is None or isinstance(judged, Unmeasured):
        return None
    if (judged.verdict.score or 0.0) <= least:
        return None
    picture = level.kind.picture(replace(level, tolerance=stored.tolerance), judged)
    return None if picture is None else PedalCourse.of(picture, judged.grid)
