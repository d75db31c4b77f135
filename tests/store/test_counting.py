"""Repetitions with and without counting in the history: which are compared, and when they came."""

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from drills.score import Reason, Verdict
from engine.five.saved import begin_session
from engine.practice.changes import Changed
from engine.practice.counting_cost import LEAST, CountingRepetition
from engine.practice.results import Purpose, SessionKind
from engine.store import History, open_history
from engine.store.changes import mark_change
from engine.store.counting import counting_cost_now, counting_repetitions, last_counting_day
from engine.store.repetitions import add_repetition
from tests.earlier import EARLIER, change
from tests.made import record

NOON = datetime(2024, 5, 17, 12, tzinfo=UTC)
DAY = NOON.date()
LEVEL = "count-1"


@pytest.fixture
def history(tmp_path: Path) -> Iterator[History]:
    """A new history."""
    with open_history(tmp_path, []) as new:
        yield new


def play(history: History, dip: float = 8.0, knocks: float | None = None, **changes: Any) -> None:
    """Keep a repetition with a blip to 60 %; with counting where there were knocks."""
    measures: dict[str, float | None] = {"dip": dip, "peak": 60.0, "settle": 0.3}
    if knocks is not None:
        measures |= {"knocks": knocks, "counted": knocks + 1}
    verdict = Verdict(Reason.CLEAN, 90.0, (), measures)
    usual = {"level": LEVEL, "kind": "counting", "verdict": verdict, "trace": None, "at": NOON}
    add_repetition(history, record(**usual | changes))


def dips(history: History) -> list[float | None]:
    """Scaled dips of what is compared, in points."""
    return [one.dip for one in counting_repetitions(history)]


def test_repetitions_are_read_oldest_first_with_their_answers(history: History) -> None:
    play(history, 8.0)
    play(history, 12.0, 5.0, at=NOON + timedelta(days=1))

    assert counting_repetitions(history) == [
        CountingRepetition(DAY, LEVEL, 8.0, 0.3),
        CountingRepetition(DAY + timedelta(days=1), LEVEL, 12.0, 0.3, 5, 6),
    ]


def test_dips_are_scaled_to_one_size_of_blip(history: History) -> None:
    verdict = Verdict(Reason.CLEAN, 90.0, (), {"dip": 6.0, "peak": 45.0, "settle": None})
    play(history, verdict=verdict)

    assert counting_repetitions(history) == [CountingRepetition(DAY, LEVEL, 8.0, None)]


@pytest.mark.parametrize(("dip", "peak"), [(None, 60.0), (6.0, None), (6.0, 0.0)])
def test_a_dip_whose_blip_has_no_size_is_none(
    history: History, dip: float | None, peak: float | None
) -> None:
    play(history, verdict=Verdict(Reason.CLEAN, 90.0, (), {"dip": dip, "peak": peak}))

    assert dips(history) == [None]


def test_what_does_not_count_is_left_out(history: History) -> None:
    play(history, 1.0, verdict=Verdict(Reason.GAP, measures={"dip": 1.0}))
    play(history, 2.0, feet=False)
    play(history, 3.0, why=Purpose.TRIAL)
    play(history, 4.0, kind="blip")
    play(history, verdict=Verdict(Reason.WALKED_OUT, 0.0))
    play(history, 5.0, why=Purpose.WARM)

    assert dips(history) == [5.0]


def test_a_repetition_without_a_blip_is_read_without_a_dip(history: History) -> None:
    play(history, verdict=Verdict(Reason.NO_BLIP, 0.0, (), {"knocks": 4.0, "counted": 4.0}))

    assert counting_repetitions(history) == [CountingRepetition(DAY, LEVEL, None, None, 4, 4)]


def test_another_scale_and_another_definition_are_not_compared(history: History) -> None:
    play(history, 1.0)
    mark_change(history, NOON, Changed.SCALE)
    play(history, 2.0)
    play(history, 3.0)
    change(
        history.path.parent,
        f"UPDATE repetition SET definition = {EARLIER}, fixed = 1 WHERE id = 2",
    )

    assert dips(history) == [3.0]


def test_the_cost_is_told_from_enough_pairs_and_not_while_the_history_is_remeasured(
    history: History,
) -> None:
    for _ in range(LEAST):
        play(history, 8.0)
        play(history, 13.0, 5.0)
    told = counting_cost_now(history)
    change(history.path.parent, f"UPDATE repetition SET definition = {EARLIER} WHERE id = 1")

    assert told is not None
    assert told.now is not None
    assert told.now.dip.value == pytest.approx(5.0)
    assert counting_cost_now(history) is None


def test_a_session_of_counting_came_on_the_day_on_which_it_was_played(history: History) -> None:
    began = begin_session(history, SessionKind.COUNTING, NOON, 4.0, 1)
    nothing_played = last_counting_day(history, DAY)
    play(history, session=began, why=Purpose.WARM)
    begin_session(history, SessionKind.WARM_UP, NOON + timedelta(days=1), 3.0, 1)

    assert nothing_played is None
    assert last_counting_day(history, DAY) == DAY


def test_a_session_of_a_day_that_is_still_to_come_does_not_count(history: History) -> None:
    later = NOON + timedelta(days=400)
    began = begin_session(history, SessionKind.COUNTING, later, 4.0, 1)
    play(history, session=began, why=Purpose.WARM, at=later)

    assert last_counting_day(history, DAY) is None
    assert last_counting_day(history, later.date()) == later.date()
