"""The session that a level was first passed in, read from all its repetitions."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from drills.level import PassRule
from drills.score import Reason, Verdict
from engine.five.saved import begin_session
from engine.practice.results import Purpose, SessionKind
from engine.store import History, open_history
from engine.store.passes import passed_in
from engine.store.repetitions import add_repetition
from tests.engine.five.unattended import DATE
from tests.made import record

TWO = PassRule(2, 2)


@pytest.fixture
def history(tmp_path: Path) -> Iterator[History]:
    """A new history."""
    with open_history(tmp_path, []) as new:
        yield new


def begun(history: History) -> int:
    """Number of a new session."""
    return begin_session(history, SessionKind.FIVE, DATE, 5.0, 1)


def add(history: History, session: int | None, **changes: Any) -> None:
    """Add a clean repetition of a level that two clean ones pass."""
    clean = {"verdict": Verdict(Reason.CLEAN, 80.0), "rule": TWO, "session": session}
    add_repetition(history, record(**{**clean, **changes}))


def test_the_session_of_the_repetition_that_passes_is_the_one(history: History) -> None:
    first, second = begun(history), begun(history)
    for session in (first, second, second):
        add(history, session)

    assert passed_in(history, first, ["a-blip"]) == frozenset()
    assert passed_in(history, second, ["a-blip", "another"]) == {"a-blip"}


def test_what_a_chosen_set_passed_is_of_no_session(history: History) -> None:
    session = begun(history)
    for of in (session, None, session):
        add(history, of)

    assert passed_in(history, session, ["a-blip"]) == frozenset()


@pytest.mark.parametrize(
    "changes",
    [
        {"verdict": Verdict(Reason.GAP, None)},
        {"feet": False},
        {"why": Purpose.TRIAL},
        {"verdict": Verdict(Reason.OVER_LIMIT, 40.0)},
    ],
    ids=["void", "no feet", "of a trial", "not clean"],
)
def test_what_does_not_count_passes_nothing(history: History, changes: dict[str, Any]) -> None:
    session = begun(history)
    add(history, session)
    add(history, session, **changes)

    assert passed_in(history, session, ["a-blip"]) == frozenset()
