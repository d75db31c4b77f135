"""The end of a set suggests to stop when the scores of the day have fallen."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from drills.score import Reason, Verdict
from engine.drill.set_end import SetEnd
from engine.drill.set_log import SetLog, set_tally
from engine.store import History, Record
from engine.store.repetitions import add_repetition
from tests.made import BLIP, record

EVENING = datetime(2024, 5, 17, 20, 15, tzinfo=UTC)
FALLING = [90.0 - 4 * number for number in range(20)]
RISING = FALLING[::-1]


def scored(score: float, number: int) -> Record:
    """A record with a score, `number` half minutes into the evening."""
    verdict = Verdict(Reason.CLEAN, score, (), {"dip": 5.0})
    at = EVENING + timedelta(seconds=30 * number)
    return replace(record(verdict=verdict, at=at, trace=None), level=BLIP.id)


def selected(end: SetEnd) -> object:
    """Label of the choice that is selected as the end of a set opens."""
    details = end.details()
    return dict(enumerate(details["choices"]))[details["selected"]]  # type: ignore[arg-type, index]


def played(history: History, scores: list[float], *, before: int = 0) -> SetLog:
    """Log of a set with some scores; the first `before` of them belong to an earlier set."""
    for number, score in enumerate(scores[:before]):
        add_repetition(history, scored(score, number))
    log = SetLog(BLIP, history)
    for number, score in enumerate(scores[before:], start=before):
        log.add(scored(score, number))
    return log


@pytest.mark.parametrize("before", [0, 5])
def test_scores_that_fall_over_the_sets_of_a_day_suggest_to_stop(
    history: History, before: int
) -> None:
    log = played(history, FALLING, before=before)

    tally = set_tally(log, lambda: EVENING)

    assert tally.tires
    assert selected(SetEnd(BLIP, tally, BLIP)) == "Home"


@pytest.mark.parametrize("scores", [RISING, FALLING[:19], [70.0] * 20])
def test_other_scores_suggest_nothing(history: History, scores: list[float]) -> None:
    log = played(history, scores)

    tally = set_tally(log, lambda: EVENING)

    assert not tally.tires
    assert selected(SetEnd(BLIP, tally, BLIP)) == "Once more"


def test_falling_scores_of_another_day_do_not_suggest_to_stop_today(history: History) -> None:
    log = played(history, FALLING)

    tally = set_tally(log, lambda: EVENING + timedelta(days=1))

    assert not tally.tires
