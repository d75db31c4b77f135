"""The best repetition that a replay is compared with: judged and drawn from its stored trace."""

from dataclasses import replace
from datetime import UTC, datetime

import numpy as np
import pytest

from drills.score import Verdict
from engine.drill.replay_words import IS_BEST, NO_OTHER
from engine.drill.replays import find_best
from engine.store import History, Record
from engine.store.repetitions import add_repetition
from tests.engine.drill.replaying import course_of
from tests.engine.pictures import BY_ID, shipped_repetitions
from tests.engine.repetitions_shown import Shown

TODAY = datetime(2024, 5, 30, 20, 15, tzinfo=UTC)
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
        add_repetition(history, of_feet(other, 40.0))
    now = replace(of_feet(others[-1], 60.0), at=TODAY)
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


def test_a_better_one_that_its_level_does_not_fit_any_more_is_passed_over(
    history: History,
) -> None:
    [shown] = shipped_repetitions("blip-1-first", 0.5, 7, 1)
    [other] = shipped_repetitions("still-2-firm", 0.5, 7, 1)
    odd = replace(of_feet(other, 95.0), level="blip-1-first")
    add_repetition(history, odd)
    add_repetition(history, of_feet(shown, 90.0))
    now = replace(of_feet(shown), verdict=Verdict(shown.record.verdict.reason, 50.0), at=TODAY)
    number = add_repetition(history, now)

    found = find_best(history, BY_ID["blip-1-first"], now, number)

    assert found.course is not None
    assert np.array_equal(found.course.brake, course_of(shown).brake)
