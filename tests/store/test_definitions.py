"""Measures of one definition: those of another enter nothing that is told over days."""

import math
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from drills.measures.definition import DEFINITION
from drills.score import Reason, Verdict
from engine.drill.saved import guesses_on, keep_guess
from engine.five.saved import stored_blips
from engine.practice.remeasuring import Remeasuring
from engine.practice.results import Purpose
from engine.store import History, open_history
from engine.store.courses import courses_of, traced_numbers, values_of
from engine.store.remeasure import copy_before, remeasuring, waiting_numbers
from engine.store.repetitions import add_repetition
from engine.trial.outcome import is_comparable
from engine.trial.saved import all_trials, keep_new_trial
from engine.trial.trial import SetUp
from tests.earlier import EARLIER, change, rows
from tests.made import record

DAY = date(2024, 5, 17)
MEASURES = {"dip": 9.0, "surge": 4.0, "peak": 60.0, "extra_distance": 1.5}


@pytest.fixture
def history(tmp_path: Path) -> Iterator[History]:
    """A new history."""
    with open_history(tmp_path, []) as new:
        yield new


def keep(history: History, **changes: Any) -> int:
    """Keep a blip that counts; returns its number."""
    made = {"verdict": Verdict(Reason.CLEAN, 90.0, (), MEASURES)} | changes
    return add_repetition(history, record(**made))


def age(history: History, number: int, definition: int = EARLIER, fixed: int = 1) -> None:
    """Make a repetition one that another definition measured and that cannot be remeasured."""
    what = f"definition = {definition}, fixed = {fixed}"
    change(history.path.parent, f"UPDATE repetition SET {what} WHERE id = {number}")


def test_a_new_repetition_is_told_and_measured_by_the_definition_of_today(
    history: History,
) -> None:
    keep(history)

    [found] = rows(history.path, "SELECT verdict_definition, definition, fixed FROM repetition")

    assert found == (DEFINITION, DEFINITION, 0)
    assert remeasuring(history) is None


@pytest.mark.parametrize("definition", [EARLIER, DEFINITION + 1], ids=["earlier", "later"])
def test_a_repetition_of_another_definition_waits(history: History, definition: int) -> None:
    for _ in range(3):
        keep(history)
    for number in (1, 3):
        age(history, number, definition, fixed=0)

    assert remeasuring(history) == Remeasuring(0, 2)
    assert waiting_numbers(history, 1) == [1]
    assert waiting_numbers(history, 9) == [1, 3]


def test_it_has_its_place_in_a_course_but_no_value(history: History) -> None:
    for _ in range(3):
        keep(history)
    age(history, 2)

    course = courses_of(history, {"blip": "dip"})["blip"]

    assert remeasuring(history) is None
    assert course.place.tolist() == [1, 2, 3]
    np.testing.assert_array_equal(course.value, [9.0, math.nan, 9.0])
    np.testing.assert_array_equal(
        values_of(history, "blip", "extra_distance"), [1.5, math.nan, 1.5]
    )
    assert traced_numbers(history, "blip", DAY, DAY) == [1, 3]


def test_it_is_no_blip_of_steadiness_but_one_of_the_staircase(history: History) -> None:
    for asked in (10.0, 8.0):
        keep(history, why=Purpose.BAND, asked=asked)
    age(history, 1)

    told = stored_blips(history, "a-blip", Purpose.BAND, 9)
    played = stored_blips(history, "a-blip", Purpose.BAND, 9, earlier=True)

    assert [asked for _, asked, _, _ in told] == [8.0]
    assert [asked for _, asked, _, _ in played] == [10.0, 8.0]


def test_a_guess_of_it_is_not_compared_with_later_ones(history: History) -> None:
    for guess in (3.0, 6.0):
        keep_guess(history, keep(history), guess, "dip")
    age(history, 1)

    assert guesses_on(history, "a-blip") == [(6.0, 9.0)]


@pytest.mark.parametrize(("earlier", "comparable"), [((), True), ((1,), False), ((1, 2, 3), True)])
def test_a_trial_is_compared_where_all_its_dips_are_of_one_definition(
    history: History, earlier: tuple[int, ...], comparable: bool
) -> None:
    at = record().at
    trial = keep_new_trial(history, at, "a-blip", (SetUp("ball"), SetUp("toes")), 6, 1)
    for block in range(3):
        keep(history, why=Purpose.TRIAL, trial=trial, block=block)
    left = Verdict(Reason.WALKED_OUT)
    age(history, keep(history, why=Purpose.TRIAL, trial=trial, block=3, verdict=left))
    for number in earlier:
        age(history, number)

    [found] = all_trials(history)

    assert is_comparable(found) is comparable


def test_a_copy_whose_name_another_program_takes_meanwhile_gets_the_next_one(
    history: History,
) -> None:
    keep(history)
    taken = history.path.with_name(f"history-before-remeasuring-{DAY.isoformat()}.sqlite3")

    def take() -> None:
        taken.write_text("of another", encoding="utf-8")

    copy = copy_before(history, DAY, take)

    assert copy.name == f"history-before-remeasuring-{DAY.isoformat()}-2.sqlite3"
    assert taken.read_text(encoding="utf-8") == "of another"
    assert rows(copy, "SELECT count(*) FROM repetition") == [(1,)]
