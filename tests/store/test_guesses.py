"""Guesses, seeds and what a mixed level drew, on real files."""

import sqlite3
from dataclasses import replace
from pathlib import Path

import pytest

from drills.score import Reason, Verdict
from engine.store import open_history
from engine.store.history import FILE
from tests.made import record

MEASURED = Verdict(Reason.CLEAN, 80.0, (), {"dip": 7.5, "surge": None})


def test_a_guess_is_there_with_what_it_was_of_after_opening_again(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        one = history.add(record(level="a", verdict=MEASURED))
        history.add(record(level="a", verdict=MEASURED))
        other = history.add(record(level="b", verdict=MEASURED))
        history.keep_guess(one, 9.0, "dip")
        history.keep_guess(other, 3.0, "dip")

    with open_history(tmp_path, []) as again:
        assert again.guesses("a") == [(9.0, 7.5)]
        assert again.guesses("b") == [(3.0, 7.5)]


@pytest.mark.parametrize(
    "changes", [{"feet": False}, {"verdict": Verdict(Reason.GAP, None, (), {"dip": 7.5})}]
)
def test_what_does_not_count_was_not_guessed(tmp_path: Path, changes: dict[str, object]) -> None:
    with open_history(tmp_path, []) as history:
        number = history.add(record(**{"level": "a", "verdict": MEASURED, **changes}))
        history.keep_guess(number, 9.0, "dip")

        assert history.guesses("a") == []


def test_a_measure_that_has_no_value_was_not_guessed(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        number = history.add(record(level="a", verdict=MEASURED))
        history.keep_guess(number, 9.0, "surge")

        assert history.guesses("a") == []


def test_seed_and_what_was_drawn_are_kept(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        history.add(replace(record(level="mix"), seed=2**61, drawn="blip-3-good"))
        history.add(record(level="plain"))

    with sqlite3.connect(tmp_path / FILE) as database:
        found = database.execute("SELECT level, seed, drawn FROM repetition").fetchall()

    assert found == [("mix", 2**61, "blip-3-good"), ("plain", None, "")]
