"""A set whose scores fall as those of a tired foot do: a stop is suggested."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from drills.score import Reason, Verdict
from engine.drill.set_end import SetEnd
from engine.drill.tally import SetLog, set_tally
from engine.store import History, Record
from engine.store.repetitions import add_repetition
from tests.made import BLIP, record

EVENING = datetime(2024, 5, 17, 20, 15, tzinfo=UTC)
FALLING = [90.0 - 4 * number for number in range(14)]
RISING = FALLING[::-1]


def scored(score: float, number: int) -> Record:
    """One of a level with a score, so many half minutes into the evening."""
    verdict = Verdict(Reason.CLEAN, score, (), {"dip": 5.0})
    at = EVENING + timedelta(seconds=30 * number)
    return replace(record(verdict=verdict, at=at, trace=None), level=BLIP.id)


def played(history: History, scores: list[float], *, before: int = 0) -> SetLog:
    """A set in which `before` of the scores were kept in an earlier one."""
    for number, score in enumerate(scores[:before]):
        add_repetition(history, scored(score, number))
    kept = SetLog(BLIP, history)
    for number, score in enumerate(scores[before:], start=before):
        kept.add(scored(score, number))
    return kept


@pytest.mark.parametrize("before", [0, 5])
def test_scores_that_fall_over_the_sets_of_a_day_suggest_to_stop(
    history: History, before: int
) -> None:
    kept = played(history, FALLING, before=before)

    tally = set_tally(kept, lambda: EVENING)

    assert tally.tires
    assert SetEnd(BLIP, tally, BLIP).details()["choices"] == ["Home", f"Once more: {BLIP.title}"]


@pytest.mark.parametrize("scores", [RISING, FALLING[:11], [70.0] * 14])
def test_other_scores_suggest_nothing(history: History, scores: list[float]) -> None:
    kept = played(history, scores)

    tally = set_tally(kept, lambda: EVENING)

    assert not tally.tires
    assert SetEnd(BLIP, tally, BLIP).details()["choices"] == [f"Once more: {BLIP.title}", "Home"]


def test_what_fell_on_another_day_tires_nobody_today(history: History) -> None:
    kept = played(history, FALLING)

    tally = set_tally(kept, lambda: EVENING + timedelta(days=1))

    assert not tally.tires
