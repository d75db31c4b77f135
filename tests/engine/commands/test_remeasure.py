"""The command `stillfoot remeasure`: computes the measures of all stored traces again."""

import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from drills.measures.definition import DEFINITION
from engine.ladder.level_files import SHIPPED, load_band, load_levels
from engine.store import ledger, open_history
from engine.store.history import FILE
from engine.store.repetitions import add_repetition
from tests.earlier import EARLIER, change, measured, rows
from tests.engine.commands.command import Captured, output_of, refused
from tests.full_disk import no_file_longer
from tests.needs import file_size_limit, process_pools
from tests.simulated_repetitions import counted
from tests.stored import all_results

pytestmark = process_pools

BY_ID = {level.id: level for level in [*load_levels([SHIPPED]), load_band()]}
PLAYED = (
    *("still-2-firm", "still-2a-squeeze", "blip-2b-moving", "steadiness-band", "run-6-any"),
    *("ease-2-quick", "ease-5-two", "clutch-2-quiet"),
)
"""A level of every kind, the steadiness level, and one that draws its number of blips."""


@pytest.fixture(scope="module")
def played(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A data folder with one repetition that counts of each level."""
    folder = tmp_path_factory.mktemp("played")
    with open_history(folder, []) as history:
        for seed, name in enumerate(PLAYED, start=1):
            add_repetition(history, next(counted(BY_ID[name], 0.5, seed)))
    return folder


@pytest.fixture
def data(played: Path, tmp_path: Path) -> Path:
    """A copy of that folder, which a test may change."""
    shutil.copytree(played, tmp_path / "data")
    return tmp_path / "data"


def dump(folder: Path) -> list[str]:
    """SQL dump of a history."""
    with closing(sqlite3.connect(folder / FILE)) as db:
        return list(db.iterdump())


def remeasure(capsys: Captured, folder: Path, *more: str) -> list[str]:
    """Lines of the output of the command."""
    return output_of(capsys, "remeasure", "--data", str(folder), *more).splitlines()


def test_traces_that_were_just_recorded_have_the_same_measures(
    capsys: Captured, data: Path
) -> None:
    before = dump(data)

    output = remeasure(capsys, data)

    assert output == [
        "8 repetitions measured again",
        "No measure has changed.",
    ]
    assert dump(data) == before


def test_differences_are_printed_and_stored(capsys: Captured, data: Path) -> None:
    before = dump(data)
    change(
        data,
        "UPDATE measure SET value = value + 0.5 WHERE repetition IN (3, 4)"
        " AND name = (SELECT id FROM measure_name WHERE name = 'dip')",
    )
    change(
        data,
        "DELETE FROM measure WHERE repetition = 3"
        " AND name = (SELECT id FROM measure_name WHERE name = 'settle')",
    )

    output = remeasure(capsys, data)

    assert output[1:] == [
        "3 values differ, in 2 repetitions",
        "       2  dip, by 0.5 points at most",
        "       1  settle, missing before or now",
        "The new measures are saved. Verdicts, scores and passes stay as they were.",
    ]
    assert dump(data) == before


def test_a_dry_run_changes_nothing(capsys: Captured, data: Path) -> None:
    change(data, "UPDATE measure SET value = 99 WHERE repetition = 4")
    before = dump(data)

    output = remeasure(capsys, data, "--dry-run")

    assert output[-1] == "Nothing was changed. Verdicts, scores and passes stay as they were."
    assert dump(data) == before


def test_verdicts_and_scores_stay_as_they_were(capsys: Captured, data: Path) -> None:
    change(data, "UPDATE repetition SET score = 1.5, clean = 0, reason = 'over limit' WHERE id = 3")
    change(data, "INSERT INTO progress VALUES ('blip-2b-moving', '1', 1, 1, 90)")
    change(data, "UPDATE measure SET value = 99 WHERE repetition = 3")

    remeasure(capsys, data)

    with open_history(data, []) as history:
        assert all_results(history)[2].score == 1.5
        assert ledger.passed(history) >= {"blip-2b-moving"}


def test_repetitions_that_cannot_be_measured_are_counted_by_reason(
    capsys: Captured, data: Path
) -> None:
    change(data, "UPDATE repetition SET level = 'gone' WHERE id = 1")
    change(data, "UPDATE repetition SET kind = 'blip' WHERE id = 2")
    change(data, "DELETE FROM trace WHERE repetition = 7")
    change(data, "UPDATE repetition SET reason = 'gap', void = 1 WHERE id = 8")
    change(data, "UPDATE repetition SET cues_ns = '[]' WHERE id = 3")
    change(data, "UPDATE repetition SET cues_ns = '[99000000000]' WHERE id = 4")
    change(data, "UPDATE repetition SET cues_ns = '[1000000000]' WHERE id = 5")

    output = remeasure(capsys, data)

    assert output == [
        "1 repetition measured again",
        "       2  not measured: ended before it could be judged",
        "       1  not measured: its level is not known any more",
        "       1  not measured: its level is of another kind now",
        "       1  not measured: its level asks for more time or other cues now",
        "       1  not measured: cut short, with the number of blips unknown",
        "       1  not measured: no trace of it is stored",
        "No measure has changed.",
    ]


def test_a_repetition_of_a_mixed_level_is_measured_by_its_drawn_level(
    capsys: Captured, data: Path
) -> None:
    change(data, "UPDATE repetition SET drawn = level, level = 'mix-1-any'")

    output = remeasure(capsys, data)

    assert output == [
        "8 repetitions measured again",
        "No measure has changed.",
    ]


@pytest.mark.parametrize("more", [(), ("--dry-run",)], ids=["for good", "dry run"])
@pytest.mark.parametrize(
    "damage",
    [
        "UPDATE trace SET packed = 'text' WHERE repetition = 2",
        "UPDATE trace SET packed = substr(packed, 1, 40) WHERE repetition = 2",
        "UPDATE repetition SET reason = CAST(x'ff' AS TEXT) WHERE id = 2",
    ],
)
def test_what_cannot_be_read_is_counted_and_stays_as_it_is(
    capsys: Captured, data: Path, damage: str, more: tuple[str, ...]
) -> None:
    change(data, damage)
    before = (data / FILE).read_bytes()

    output = remeasure(capsys, data, *more)

    assert output == [
        "7 repetitions measured again",
        "       1  not measured: a value of it cannot be read",
        "No measure has changed.",
    ]
    assert (data / FILE).read_bytes()[100:] == before[100:]


def test_a_missing_history_is_refused(capsys: Captured, tmp_path: Path) -> None:
    error = refused(capsys, "remeasure", "--data", str(tmp_path / "none"))

    assert error == f"stillfoot: {tmp_path / 'none' / FILE}: expected a history, found none\n"
    assert not (tmp_path / "none").exists()


def test_measures_of_an_earlier_definition_are_marked_as_those_of_today_after_one_copy(
    capsys: Captured, data: Path
) -> None:
    change(data, f"UPDATE repetition SET definition = {EARLIER}, verdict_definition = {EARLIER}")
    change(data, "UPDATE measure SET value = value + 0.5 WHERE repetition = 4")
    change(data, "DELETE FROM trace WHERE repetition = 7")
    before = measured(data / FILE)

    first, second = remeasure(capsys, data), remeasure(capsys, data)

    [copy] = data.glob("history-before-remeasuring-*.sqlite3")
    marks = (
        "SELECT DISTINCT definition, fixed, verdict_definition, id = 7 FROM repetition ORDER BY 4"
    )
    assert first[-1] == f"A copy from before is {copy}"
    assert second[-1] == "No measure has changed."
    assert rows(data / FILE, marks) == [(DEFINITION, 0, EARLIER, 0), (EARLIER, 1, EARLIER, 1)]
    assert measured(copy) == before
    assert measured(data / FILE) != before


def test_a_dry_run_marks_nothing_and_makes_no_copy(capsys: Captured, data: Path) -> None:
    change(data, f"UPDATE repetition SET definition = {EARLIER}")
    before = dump(data)

    remeasure(capsys, data, "--dry-run")

    assert dump(data) == before
    assert list(data.glob("*before*")) == []


@file_size_limit
def test_no_room_for_a_copy_is_refused_and_nothing_is_changed(capsys: Captured, data: Path) -> None:
    change(data, f"UPDATE repetition SET definition = {EARLIER}")
    before = dump(data)

    with no_file_longer(8192):
        error = refused(capsys, "remeasure", "--data", str(data))

    assert error.startswith(f"stillfoot: {data}")
    assert "expected a file to write to, found: " in error
    assert error.count("\n") == 1
    assert dump(data) == before
