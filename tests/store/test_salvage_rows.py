"""Rows of a damaged history that cannot be read are left out, and nothing else with them."""

from datetime import date
from pathlib import Path

import pytest

from engine.salvage.loss import Loss
from engine.salvage.salvage import salvage
from engine.store import open_history
from engine.store.changes import all_changes
from tests.store.spoiled import ask, change, clear_page
from tests.stored import all_results


@pytest.mark.parametrize(
    ("table", "things"), [("rig", "rigs"), ("drive", "drives"), ("change", "changes")]
)
def test_rows_of_which_nothing_is_left_may_be_missing(
    damaged: Path, target: Path, table: str, things: str
) -> None:
    clear_page(damaged, table)

    loss = salvage(damaged, target, [])

    assert loss == Loss(unsure=(things,))


@pytest.mark.parametrize(
    ("statement", "lost"),
    [
        (
            "UPDATE setting SET value = '{' WHERE key = 'ends declined'",
            Loss(settings=("ends declined",)),
        ),
        ("UPDATE sitting SET what = 'nap' WHERE id = 1", Loss(others={"sessions": 1})),
        ("UPDATE trial SET a = '[' WHERE id = 1", Loss(others={"trials": 1})),
        ("UPDATE trial SET by_days = 2 WHERE id = 1", Loss(others={"trials": 1})),
        ("UPDATE drive SET at_utc = 'late' WHERE id = 1", Loss(others={"drives": 1})),
        ("UPDATE drive SET noise = 'loud' WHERE id = 1", Loss(others={"drives": 1})),
        ("UPDATE drive SET rig = -1 WHERE id = 1", Loss(others={"drives": 1})),
        ("UPDATE change SET what = 'hat' WHERE id = 2", Loss(others={"changes": 1})),
        ("UPDATE rig SET binding = '7' WHERE id = 1", Loss(others={"rigs": 1})),
        ("UPDATE guess SET value = 'much' WHERE repetition = 1", Loss(others={"guesses": 1})),
    ],
)
def test_a_row_that_cannot_be_read_is_left_out(
    damaged: Path, target: Path, statement: str, lost: Loss
) -> None:
    change(damaged, statement)

    loss = salvage(damaged, target, [])

    assert loss == lost
    assert ask(target, "PRAGMA foreign_key_check") == []
    assert len(ask(target, "SELECT id FROM repetition")) == 9


def test_a_drive_of_a_rig_that_is_lost_is_of_no_known_rig(damaged: Path, target: Path) -> None:
    change(damaged, "UPDATE drive SET rig = 1")
    change(damaged, "UPDATE rig SET binding = '7' WHERE id = 1")

    loss = salvage(damaged, target, [])

    assert loss == Loss(others={"rigs": 1})
    assert ask(target, "SELECT noise, rig FROM drive") == [(0.75, None)]
    assert ask(target, "PRAGMA foreign_key_check") == []


def test_a_repetition_that_cannot_be_read_is_lost_on_its_day(damaged: Path, target: Path) -> None:
    change(damaged, "UPDATE repetition SET why = 'x' WHERE id = 8")

    loss = salvage(damaged, target, [])

    # The one before was on the 19th, the one after on the 20th.
    assert loss == Loss(repetitions=1, first=date(2024, 5, 19), last=date(2024, 5, 20))
    assert (8,) not in ask(target, "SELECT id FROM repetition")


def test_what_is_no_text_is_replaced_in_a_note_and_costs_a_repetition(
    damaged: Path, target: Path
) -> None:
    change(
        damaged,
        "UPDATE change SET note = CAST(x'61ff62' AS TEXT) WHERE id = 1",
        "UPDATE repetition SET level = CAST(x'61ff62' AS TEXT) WHERE id = 4",
    )

    loss = salvage(damaged, target, [])

    assert loss.repetitions == 1
    with open_history(target.parent, []) as history:
        assert all_changes(history)[0].note == "a\ufffdb"
        assert len(all_results(history)) == 8
