"""Salvage of damaged histories that copies fill: what these give back."""

import shutil
from datetime import date
from pathlib import Path

import pytest

from engine.salvage.loss import Loss
from engine.salvage.salvage import salvage
from engine.store import open_history
from engine.store.backup import back_up
from engine.store.history import FILE
from engine.store.remeasure import remeasuring
from engine.store.repetitions import add_repetition, measures_of
from tests.made import record
from tests.store.spoiled import ask, change, clear_page
from tests.stored import all_results, dump

HERE = Path(__file__).parent


@pytest.mark.parametrize("length", [0, 1, 99, 100, 3000])
def test_a_file_with_nothing_in_it_is_filled_from_the_newest_copy(
    damaged: Path, backup: Path, target: Path, length: int
) -> None:
    damaged.write_bytes(bytes(length))

    loss = salvage(damaged, target, [], [backup])

    assert dump(target) == dump(backup)
    assert (loss.repetitions, loss.filled, loss.is_open) == (9, {backup: 9}, True)
    assert loss.is_all


def test_a_file_with_nothing_in_it_and_no_copy_is_a_new_history(
    damaged: Path, target: Path
) -> None:
    damaged.write_bytes(b"")

    loss = salvage(damaged, target, [])

    assert (loss.repetitions, loss.is_open, loss.filled) == (0, True, {})
    assert loss.is_all
    with open_history(target.parent, []) as history:
        assert all_results(history) == []
        assert add_repetition(history, record()) == 1


def test_a_copy_gives_back_repetitions_traces_and_settings(
    damaged: Path, backup: Path, target: Path
) -> None:
    before = dump(damaged)
    change(
        damaged,
        "UPDATE repetition SET why = 'x' WHERE id = 5",
        "UPDATE trace SET packed = x'00' WHERE repetition = 3",
        "UPDATE setting SET value = '[' WHERE key = 'cautions read'",
        "UPDATE rig SET binding = '7' WHERE id = 1",
    )

    loss = salvage(damaged, target, [], [backup])

    assert dump(target) == before
    day = date(2024, 5, 17)
    assert loss == Loss(repetitions=1, first=day, last=day, filled={backup: 1})


def test_a_copy_of_an_older_version_is_filled_from(target: Path) -> None:
    copy, damaged = HERE / "version1.sqlite3", target.parent / "damaged.sqlite3"
    salvage(copy, damaged, [])
    before = ask(damaged, "SELECT * FROM repetition")
    measures = ask(damaged, "SELECT count(*) FROM measure")
    change(damaged, "UPDATE repetition SET why = 'x' WHERE id IN (3, 15)")

    loss = salvage(damaged, target, [], [copy])

    assert loss.filled == {copy: 2}
    assert ask(target, "SELECT * FROM repetition") == before
    assert ask(target, "SELECT count(*) FROM measure") == measures


def test_a_copy_of_another_history_gives_nothing(
    damaged: Path, backup: Path, target: Path, tmp_path: Path
) -> None:
    other = Path(shutil.copy(backup, tmp_path / "other.sqlite3"))
    change(other, "UPDATE repetition SET level = 'another' WHERE id = 9")
    change(damaged, "UPDATE repetition SET why = 'x' WHERE id = 5")

    loss = salvage(damaged, target, [], [other])

    assert (loss.repetitions, loss.filled) == (1, {})
    assert (5,) not in ask(target, "SELECT id FROM repetition")


def test_a_copy_is_of_the_same_history_though_damage_changed_a_date(
    tmp_path: Path, target: Path
) -> None:
    folder, copy = tmp_path / "twenty", tmp_path / "copy.sqlite3"
    with open_history(folder, []) as history:
        for _ in range(20):
            add_repetition(history, record())
        back_up(history, copy)
    change(
        folder / FILE,
        "UPDATE repetition SET at_utc = '2024-05-18T00:00:00.000+00:00' WHERE id = 4",
        "UPDATE repetition SET why = 'x' WHERE id = 5",
    )

    loss = salvage(folder / FILE, target, [], [copy])

    assert loss.filled == {copy: 1}


def test_a_trace_that_a_copy_has_damaged_too_is_lost(
    damaged: Path, backup: Path, target: Path, tmp_path: Path
) -> None:
    copy = Path(shutil.copy(backup, tmp_path / "copy.sqlite3"))
    for file in (damaged, copy):
        change(file, "UPDATE trace SET packed = x'00' WHERE repetition = 3")

    loss = salvage(damaged, target, [], [copy])

    assert loss == Loss(traces=1)


def test_a_trace_that_the_newest_copy_has_damaged_too_comes_from_an_older_one(
    damaged: Path, backup: Path, target: Path, tmp_path: Path
) -> None:
    before = dump(damaged)
    newest = Path(shutil.copy(backup, tmp_path / "newest.sqlite3"))
    for file in (damaged, newest):
        change(file, "UPDATE trace SET packed = x'00' WHERE repetition = 3")

    loss = salvage(damaged, target, [], [newest, backup])

    assert loss == Loss()
    assert dump(target) == before


def test_measures_that_a_copy_has_damaged_too_are_computed_again(
    damaged: Path, backup: Path, target: Path, tmp_path: Path
) -> None:
    copy = Path(shutil.copy(backup, tmp_path / "copy.sqlite3"))
    for file in (damaged, copy):
        change(file, "UPDATE measure SET value = 'much' WHERE repetition = 1 AND name = 1")

    salvage(damaged, target, [], [copy])

    assert ask(target, "SELECT definition FROM repetition WHERE id = 1") == [(0,)]


@pytest.mark.parametrize("content", [b"", b"no copy at all", bytes(5000)])
def test_a_damaged_copy_is_passed_over_for_an_older_one(
    damaged: Path, backup: Path, target: Path, tmp_path: Path, content: bytes
) -> None:
    bad = tmp_path / "bad.sqlite3"
    bad.write_bytes(content)
    change(damaged, "UPDATE repetition SET why = 'x' WHERE id = 5")

    loss = salvage(damaged, target, [], [bad, backup])

    assert loss.filled == {backup: 1}


def test_measures_of_a_repetition_can_still_be_asked_after_a_copy_gave_them(
    damaged: Path, backup: Path, target: Path
) -> None:
    clear_page(damaged, "measure")

    salvage(damaged, target, [], [backup])

    with open_history(target.parent, []) as history:
        assert measures_of(history, 1) == {"dip": 0.1 + 0.2, "rebound": 1e-17, "settle": None}
        assert remeasuring(history) is None
