"""The best repetitions of a level in a history: by feet, counted, on one rig, with a trace."""

from collections.abc import Iterator
from datetime import date, datetime, timedelta, timezone
from pathlib import Path
from typing import Any

import pytest

from drills.score import Reason, Verdict
from engine.practice.results import Purpose
from engine.store import History, open_history
from engine.store.best import best_repetitions
from engine.store.repetitions import add_repetition
from tests.made import record

FIRST = datetime(2024, 5, 17, 23, 30, tzinfo=timezone(timedelta(hours=2)))


@pytest.fixture
def history(tmp_path: Path) -> Iterator[History]:
    """A new history."""
    with open_history(tmp_path, []) as new:
        yield new


def add(history: History, score: float | None, **changes: Any) -> int:
    """Add a repetition with a score to a history; returns its number."""
    reason = Reason.GAP if score is None else Reason.OVER_LIMIT
    made = {"verdict": Verdict(reason, score), "at": FIRST, **changes}
    return add_repetition(history, record(**made))


def numbers(history: History, apart_from: int = 0, most: int = 9) -> list[int]:
    """Numbers of the best repetitions of the level of the tests."""
    found = best_repetitions(history, "a-blip", None, apart_from, most)
    return [one.number for one in found]


def test_the_best_come_first_and_of_equal_ones_the_newest(history: History) -> None:
    added = [add(history, score) for score in (50.0, 90.0, 70.0, 90.0)]

    assert numbers(history) == [added[3], added[1], added[2], added[0]]
    assert numbers(history, most=2) == [added[3], added[1]]


def test_the_one_just_played_is_never_among_them(history: History) -> None:
    first, second = add(history, 50.0), add(history, 90.0)

    assert numbers(history, apart_from=second) == [first]


@pytest.mark.parametrize(
    "changes",
    [
        {"score": None},
        {"feet": False},
        {"trace": None},
        {"level": "another"},
        {"drawn": "another"},
        {"why": Purpose.TRIAL},
    ],
    ids=["void", "no feet", "no trace", "another level", "another drawn", "of a trial"],
)
def test_what_does_not_count_or_cannot_be_replayed_is_left_out(
    history: History, changes: dict[str, Any]
) -> None:
    add(history, **{"score": 99.0, **changes})
    plain = add(history, 10.0)

    assert numbers(history) == [plain]


def test_one_that_a_mixed_level_drew_counts_for_the_level_drawn(history: History) -> None:
    drawn = add(history, 80.0, level="a-mix", drawn="a-blip")

    assert numbers(history) == [drawn]
    assert best_repetitions(history, "a-mix", None, 0, 9) == []


def test_each_rig_has_best_ones_of_its_own(history: History) -> None:
    def keep_rig(number: int) -> None:
        history.write(
            lambda db: db.execute("INSERT INTO rig VALUES (?, '', '', '{}', 0)", (number,))
        )

    for rig in (1, 2):
        keep_rig(rig)
    added = [add(history, score, rig=rig) for score, rig in ((60.0, 1), (70.0, 2), (80.0, None))]

    found = [best_repetitions(history, "a-blip", rig, 0, 9) for rig in (1, 2, None)]

    assert [[one.number for one in ones] for ones in found] == [[number] for number in added]


def test_a_best_one_has_its_score_and_the_local_day_that_it_was_played_on(
    history: History,
) -> None:
    add(history, 41.25)

    [found] = best_repetitions(history, "a-blip", None, 0, 9)

    assert (found.score, found.day) == (41.25, date(2024, 5, 17))
