"""Days in a row as the ledger tells them: the best, the one in force, and the one that was lost."""

from collections.abc import Iterable, Iterator
from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.practice.results import LostStreak, Result, Streaks
from engine.store import History, ledger
from tests.engine.practice import plain
from tests.stored import enter, in_memory, rebuild_from

TODAY = date(2024, 3, 31)


@pytest.fixture
def file() -> Iterator[History]:
    """A new history in memory."""
    with in_memory() as new:
        yield new


def day(back: int) -> date:
    """The day so many days ago."""
    return TODAY - timedelta(days=back)


def practised(back: Iterable[int]) -> list[Result]:
    """A clean repetition so many days ago, each."""
    return [Result("a", day(one), 50.0, True, False) for one in back]


def streaks(history: History, marks: str) -> Streaks:
    """Where the player stands today: the last mark is today, X practised, . not."""
    back = [back for back, mark in enumerate(reversed(marks)) if mark == "X"]
    enter(history, *practised(reversed(back)))
    return ledger.streaks(history, TODAY)


@settings(max_examples=60)
@given(st.lists(st.integers(0, 30), max_size=40), st.integers(-12, 4))
def test_the_ledger_tells_what_the_whole_history_tells_of_days(back: list[int], idle: int) -> None:
    results, today = practised(back), TODAY + timedelta(days=idle)
    with in_memory() as history:
        enter(history, *results)
        entered = ledger.streaks(history, today)
        rebuild_from(history, results)
        rebuilt = ledger.streaks(history, today)

    assert entered == plain.streaks(results, today)
    assert rebuilt == entered


@pytest.mark.parametrize(
    ("marks", "best"),
    [("", 0), ("X", 1), ("XXX...XX", 3), ("XX...XXX", 3), ("XX.XX....", 4), ("X.X.X", 2)],
)
def test_the_best_row_there_ever_was_stays(file: History, marks: str, best: int) -> None:
    assert streaks(file, marks).best_days_streak == best


@pytest.mark.parametrize(
    ("marks", "began"),
    [
        ("", None),
        ("X", 0),
        ("XX.", 2),
        ("XX...", None),
        ("XX...XX", 1),
        ("XX.XX", 4),
        ("X.X.X", 2),
        ("X.XXXX..", 5),
    ],
)
def test_a_row_began_on_the_first_of_the_days_that_count_in_it(
    file: History, marks: str, began: int | None
) -> None:
    found = streaks(file, marks)

    assert found.began == (None if began is None else day(began))


@pytest.mark.parametrize(
    ("marks", "lost"),
    [
        ("XXX", None),
        ("XXX..", None),
        ("XXX...", (3, 5, 3)),
        ("XXX...X", (3, 6, 4)),
        ("XXX...XX", (3, 7, 5)),
        ("XXX...XXX", None),
        ("XXX...XX...X", (2, 5, 4)),
        ("XXX...XX...XX", None),
        ("XXX...X...X", (3, 10, 8)),
        ("X...X", None),
        ("XX.XX...X", (4, 8, 4)),
        ("XX.XXX.X", (5, 7, 2)),
        ("XX.XXX.XX", None),
        ("X.XXXX..", (5, 7, 2)),
        ("XXXXXXXX...X.XXX.X", None),
    ],
)
def test_a_row_that_was_lost_is_told_until_the_new_one_is_as_long(
    file: History, marks: str, lost: tuple[int, int, int] | None
) -> None:
    found = streaks(file, marks).lost

    wanted = None if lost is None else LostStreak(lost[0], began=day(lost[1]), ended=day(lost[2]))
    assert found == wanted


def test_a_day_that_is_told_late_gives_a_lost_row_back(file: History) -> None:
    before = streaks(file, "XXX..X")
    enter(file, *practised([1]))

    after = ledger.streaks(file, TODAY)

    assert before.lost == LostStreak(3, began=day(5), ended=day(3))
    assert (after.lost, after.days_streak, after.began) == (None, 5, day(5))
