"""Sittings on real files: begun, killed in the middle, taken up again, over."""

from datetime import UTC, date, datetime, timedelta, timezone
from pathlib import Path

import pytest

from drills.score import Reason, Verdict
from engine.five.saved import begin_session, end_session, session_under_way, sessions_on
from engine.practice.results import Purpose, Result, Session, SessionKind
from engine.store import StoreError, open_history
from engine.store.history import FILE
from engine.store.repetitions import add_repetition
from tests.made import record

WEST = timezone(timedelta(hours=-5))
EVENING = datetime(2024, 5, 17, 21, 30, 15, 250_000, tzinfo=WEST)
TODAY = date(2024, 5, 17)


def played(
    session: int | None, took: float | None, why: Purpose = Purpose.LEARN
) -> dict[str, object]:
    """What sets a repetition of a sitting apart."""
    return {"session": session, "took": took, "why": why, "at": EVENING, "trace": None}


def test_a_session_that_begins_is_under_way(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        number = begin_session(history, SessionKind.FIVE, EVENING, 5.0, 2**62)

        found = session_under_way(history, SessionKind.FIVE, TODAY)

    assert found == Session(number, SessionKind.FIVE, EVENING, 5.0, 2**62)
    assert found.began.utcoffset() == timedelta(hours=-5)
    assert found.left == 300.0


def test_a_killed_session_is_resumed_with_what_is_left_of_it(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        number = begin_session(history, SessionKind.FIVE, EVENING, 5.0, 7)
        add_repetition(history, record(**played(number, 4.5, Purpose.DUE)))
        add_repetition(history, record(**played(None, None, Purpose.CHOSEN)))

    with open_history(tmp_path, []) as history:
        add_repetition(history, record(**played(number, 6.25), verdict=Verdict(Reason.GAP)))
        found = session_under_way(history, SessionKind.FIVE, TODAY)

    assert found is not None
    assert found.left == 300.0 - 4.5 - 6.25
    assert found.results == (
        Result("a-blip", TODAY, 41.25, False, False, kind="blip", why=Purpose.DUE, took=4.5),
        Result("a-blip", TODAY, None, False, True, kind="blip", why=Purpose.LEARN, took=6.25),
    )


def test_a_session_that_is_over_is_not_under_way(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        number = begin_session(history, SessionKind.WARM_UP, EVENING, 2.5, 7)
        end_session(history, number)

        found = session_under_way(history, SessionKind.WARM_UP, TODAY)
        today = sessions_on(history, TODAY)

    assert found is None
    assert today == [Session(number, SessionKind.WARM_UP, EVENING, 2.5, 7, over=True)]


def test_the_newest_session_of_the_day_is_resumed(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        begin_session(history, SessionKind.FIVE, EVENING, 5.0, 1)
        begin_session(history, SessionKind.FIVE, EVENING, 5.0, 2)
        begin_session(history, SessionKind.WARM_UP, EVENING, 2.0, 3)
        begin_session(history, SessionKind.FIVE, EVENING + timedelta(days=1), 5.0, 4)

        found = session_under_way(history, SessionKind.FIVE, TODAY)

    assert found is not None
    assert found.seed == 2


def test_a_session_left_is_resumed_where_a_newer_one_is_over(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        begin_session(history, SessionKind.FIVE, EVENING, 5.0, 1)
        end_session(history, begin_session(history, SessionKind.FIVE, EVENING, 5.0, 2))

        found = session_under_way(history, SessionKind.FIVE, TODAY)

    assert found is not None
    assert found.seed == 1


@pytest.mark.parametrize(
    ("hour", "offset", "day"),
    [
        (23, -60 * 5, date(2024, 5, 17)),
        (3, -60 * 5, date(2024, 5, 16)),
        (20, 60 * 9, date(2024, 5, 18)),
        (18, 345, date(2024, 5, 18)),
    ],
)
def test_the_day_of_a_session_is_the_local_day(
    tmp_path: Path, hour: int, offset: int, day: date
) -> None:
    at = datetime(2024, 5, 17, hour, 20, tzinfo=UTC)
    with open_history(tmp_path, []) as history:
        begin_session(
            history, SessionKind.FIVE, at.astimezone(timezone(timedelta(minutes=offset))), 5.0, 1
        )

        found = [(one.began, one.began.date()) for one in sessions_on(history, day)]

    assert found == [(at, day)]


def test_sessions_of_a_day_come_oldest_first_each_with_its_repetitions(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        warm = begin_session(history, SessionKind.WARM_UP, EVENING, 2.0, 1)
        five = begin_session(history, SessionKind.FIVE, EVENING, 5.0, 2)
        begin_session(history, SessionKind.FIVE, EVENING - timedelta(days=1), 5.0, 3)
        for session, took in ((five, 1.0), (warm, 2.0), (five, 3.0)):
            add_repetition(history, record(**played(session, took)))

        found = [(one.what, [r.took for r in one.results]) for one in sessions_on(history, TODAY)]

    assert found == [(SessionKind.WARM_UP, [2.0]), (SessionKind.FIVE, [1.0, 3.0])]


def test_ending_a_session_that_does_not_exist_is_refused_by_its_number(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history, pytest.raises(StoreError) as refused:
        end_session(history, 41)

    assert str(refused.value) == f"{tmp_path / FILE}: no session 41"


def test_a_repetition_of_a_session_that_was_lost_is_stored_without_it(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        add_repetition(history, record(session=41))

        with history.reading() as db:
            assert db.execute("SELECT sitting FROM repetition").fetchall() == [(None,)]
