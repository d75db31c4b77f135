"""Guesses, seeds and drawn levels stored in a real history file."""

import sqlite3
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest

from drills.score import Reason, Verdict
from engine.drill.saved import guesses_on, keep_guess
from engine.store import open_history
from engine.store.history import FILE
from engine.store.repetitions import add_repetition
from tests.made import record

MEASURED = Verdict(Reason.CLEAN, 80.0, (), {"dip": 7.5, "surge": None})


def test_a_guess_and_its_measured_value_are_there_after_opening_again(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        first = add_repetition(history, record(level="a", verdict=MEASURED))
        add_repetition(history, record(level="a", verdict=MEASURED))
        second = add_repetition(history, record(level="b", verdict=MEASURED))
        keep_guess(history, first, 9.0, "dip")
        keep_guess(history, second, 3.0, "dip")

    with open_history(tmp_path, []) as again:
        assert guesses_on(again, "a") == [(9.0, 7.5)]
        assert guesses_on(again, "b") == [(3.0, 7.5)]


@pytest.mark.parametrize(
    "changes", [{"feet": False}, {"verdict": Verdict(Reason.GAP, None, (), {"dip": 7.5})}]
)
def test_guesses_of_repetitions_that_do_not_count_are_left_out(
    tmp_path: Path, changes: dict[str, object]
) -> None:
    with open_history(tmp_path, []) as history:
        number = add_repetition(history, record(**{"level": "a", "verdict": MEASURED, **changes}))
        keep_guess(history, number, 9.0, "dip")

        assert guesses_on(history, "a") == []


def test_guesses_of_measures_without_a_value_are_left_out(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        number = add_repetition(history, record(level="a", verdict=MEASURED))
        keep_guess(history, number, 9.0, "surge")

        assert guesses_on(history, "a") == []


def test_the_seed_and_the_drawn_level_are_stored(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        add_repetition(history, replace(record(level="mix"), seed=2**61, drawn="blip-3-good"))
        add_repetition(history, record(level="plain"))

    with closing(sqlite3.connect(tmp_path / FILE)) as database, database:
        found = database.execute("SELECT level, seed, drawn FROM repetition").fetchall()

    assert found == [("mix", 2**61, "blip-3-good"), ("plain", None, "")]
