"""The best repetition that a replay is compared with: judged and drawn from its stored trace."""

from dataclasses import replace
from datetime import UTC, datetime

import numpy as np
import pytest

from drills.score import Verdict
from engine.drill.replay_words import IS_BEST, NO_OTHER, NOT_COMPARABLE
from engine.drill.replays import Best, find_best
from engine.practice.changes import Changed
from engine.store import History, Record
from engine.store.changes import mark_change
from engine.store.repetitions import add_repetition
from tests.engine.drill.replaying import course_of
from tests.engine.repetitions_shown import Shown
from tests.engine.shipped_played import BY_ID, shipped_repetitions

TODAY = datetime(2024, 5, 30, 20, 15, tzinfo=UTC)
BLIP = "blip-1-first"
LEVELS = ("blip-1-first", "still-2-firm", "run-2-three", "ease-3-one", "clutch-1-order")


def of_feet(shown: Shown, score: float | None = None) -> Record:
    """Record of a simulated repetition as if by feet, with another score if one is given."""
    record = replace(shown.record, feet=True)
    if score is None:
        return record
    return replace(record, verdict=replace(record.verdict, score=score))


@pytest.mark.parametrize("name", LEVELS)
def test_the_best_one_is_drawn_as_it_was_when_it_was_played(history: History, name: str) -> None:
    level, played = BY_ID[name], shipped_repetitions(name, 0.5, 7, 4)
    best, *others = [one for one in played if one.deviation is not None]
    add_repetition(history, of_feet(best, 99.0))
    for other in others[:-1]:
        add_repetition(history, of_feet(other, 20.0))
    now = replace(of_feet(others[-1], 30.0), at=TODAY)
    number = add_repetition(history, now)

    found = find_best(history, level, now, number)

    then, course = course_of(best), found.course
    assert course is not None
    assert found.words == "Your best, 17 May"
    assert np.array_equal(course.picture.deviation, then.picture.deviation)
    assert np.array_equal(course.brake, then.brake)
    assert np.array_equal(course.throttle, then.throttle)
    assert course.picture.worst == then.picture.worst


@pytest.mark.parametrize(
    ("before", "score", "words"),
    [
        ((), 80.0, NO_OTHER),
        ((80.0, 60.0), 80.0, IS_BEST),
        ((79.0,), 80.0, IS_BEST),
        ((0.0,), 0.0, ""),
    ],
)
def test_without_a_better_one_it_says_so(
    history: History, before: tuple[float, ...], score: float, words: str
) -> None:
    [shown] = shipped_repetitions("blip-1-first", 0.5, 7, 1)
    for one in before:
        add_repetition(history, of_feet(shown, one))
    now = of_feet(shown, score)
    number = add_repetition(history, now)

    found = find_best(history, BY_ID["blip-1-first"], now, number)

    assert (found.course, found.words) == (None, words)


def better_and_now(history: History, *better: Record) -> tuple[Record, int]:
    """Store better repetitions and then one of a low score; returns that and its number."""
    for one in better:
        add_repetition(history, one)
    [shown] = shipped_repetitions(BLIP, 0.5, 7, 1)
    now = replace(of_feet(shown), verdict=Verdict(shown.record.verdict.reason, 50.0), at=TODAY)
    return now, add_repetition(history, now)


def misfit(score: float) -> Record:
    """Repetition of a hold that is stored as one of a blip, as after a change of its level."""
    [other] = shipped_repetitions("still-2-firm", 0.5, 7, 1)
    return replace(of_feet(other, score), level=BLIP)


def test_a_better_one_that_its_level_does_not_fit_any_more_is_passed_over_and_not_called_the_best(
    history: History,
) -> None:
    [shown] = shipped_repetitions(BLIP, 0.5, 7, 1)
    now, number = better_and_now(history, misfit(95.0), of_feet(shown, 90.0))

    found = find_best(history, BY_ID[BLIP], now, number)

    assert found.course is not None
    assert np.array_equal(found.course.brake, course_of(shown).brake)
    assert found.words == "Your best to compare with, 17 May"


def test_where_no_better_one_can_be_judged_again_that_is_said(history: History) -> None:
    now, number = better_and_now(history, misfit(95.0), misfit(90.0))

    assert find_best(history, BY_ID[BLIP], now, number) == Best(None, NOT_COMPARABLE)


def test_a_better_one_whose_trace_was_cut_short_is_not_replayed(history: History) -> None:
    [shown] = shipped_repetitions(BLIP, 0.5, 7, 1)
    trace = shown.record.trace
    assert trace is not None
    size = trace.time.size // 2
    short = replace(
        trace,
        time=trace.time[:size],
        brake=trace.brake[:size],
        throttle=trace.throttle[:size],
        clutch=None if trace.clutch is None else trace.clutch[:size],
        counts=None,
    )
    cut = replace(of_feet(shown, 95.0), trace=short, calibration=None)
    now, number = better_and_now(history, cut)

    assert find_best(history, BY_ID[BLIP], now, number) == Best(None, NOT_COMPARABLE)


def test_one_that_is_better_by_the_limits_of_its_day_alone_is_not_replayed(
    history: History,
) -> None:
    [shown] = shipped_repetitions(BLIP, 0.5, 7, 1)
    now, number = better_and_now(history, of_feet(shown, 95.0))
    narrow = {name: limit / 8 for name, limit in BY_ID[BLIP].limits.items()}

    as_it_was = find_best(history, BY_ID[BLIP], now, number)
    by_now = find_best(history, replace(BY_ID[BLIP], limits=narrow), now, number)

    assert as_it_was.course is not None
    assert by_now == Best(None, NOT_COMPARABLE)


def test_what_was_played_on_another_scale_of_the_brake_is_not_compared(history: History) -> None:
    [shown] = shipped_repetitions(BLIP, 0.5, 7, 1)
    add_repetition(history, of_feet(shown, 95.0))
    mark_change(history, TODAY, Changed.SCALE)
    now, number = better_and_now(history)

    alone = find_best(history, BY_ID[BLIP], now, number)
    add_repetition(history, of_feet(shown, 70.0))
    beside = find_best(history, BY_ID[BLIP], now, number)

    assert alone == Best(None, NOT_COMPARABLE)
    assert beside.course is not None
    assert beside.words == "Your best to compare with, 17 May"
