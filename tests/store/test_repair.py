"""Repair of a damaged history: it is set aside as it is, and at no moment lost."""

import shutil
import subprocess
import sys
from datetime import date
from pathlib import Path

import pytest

from engine.salvage.blocks import BLOCK
from engine.salvage.loss import Loss
from engine.salvage.repair import Repair, repair
from engine.salvage.words import words_of
from engine.store import StoreError, open_history
from engine.store.backup import journal_of
from engine.store.copies import newest_copies
from engine.store.history import FILE
from engine.store.lock import LOCK
from tests.full_disk import no_file_longer
from tests.needs import file_size_limit
from tests.store.half_written import break_off
from tests.store.spoiled import change, clear_page
from tests.store.whole import names
from tests.stored import dump

ROOT = Path(__file__).resolve().parents[2]
DAY = date(2026, 5, 6)
ASIDE = "history-damaged-2026-05-06.sqlite3"
ASIDE_2 = "history-damaged-2026-05-06-2.sqlite3"


@pytest.fixture
def folder(data: Path, tmp_path: Path) -> Path:
    """A data folder whose history has lost its settings."""
    folder = tmp_path / "data"
    folder.mkdir()
    shutil.copy(data / FILE, folder / FILE)
    clear_page(folder / FILE, "setting")
    return folder


def test_a_damaged_history_is_set_aside_byte_for_byte(folder: Path) -> None:
    before = (folder / FILE).read_bytes()

    done = repair(folder, [], today=DAY)

    assert (done.aside, done.history) == (folder / ASIDE, folder / FILE)
    assert done.loss == Loss(unsure=("settings",))
    assert (folder / ASIDE).read_bytes() == before
    assert names(folder) == [ASIDE, LOCK, FILE]
    with open_history(folder, []) as history:
        assert history.setting("cautions read") is None


def test_long_copying_tells_of_itself(folder: Path) -> None:
    with (folder / FILE).open("ab") as file:
        file.write(bytes(64 * BLOCK))
    aside, calls = folder / f"{ASIDE}.part", 0

    def tell() -> None:
        nonlocal calls
        calls += aside.exists()

    repair(folder, [], tell, DAY)

    assert calls >= 64


def test_names_that_are_taken_are_left_alone(folder: Path) -> None:
    (folder / ASIDE).write_bytes(b"of an earlier repair")

    done = repair(folder, [], today=DAY)

    assert done.aside == folder / ASIDE_2
    assert (folder / ASIDE).read_bytes() == b"of an earlier repair"


def test_what_a_crash_broke_off_goes_aside_with_its_journal(folder: Path) -> None:
    break_off(folder / FILE)
    content = (folder / FILE).read_bytes(), journal_of(folder / FILE).read_bytes()

    repair(folder, [], today=DAY)

    aside = folder / ASIDE
    assert (aside.read_bytes(), journal_of(aside).read_bytes()) == content
    assert names(folder) == [ASIDE, f"{ASIDE}-journal", LOCK, FILE]


def test_a_journal_that_a_killed_repair_left_is_taken_for_none_of_this_file(folder: Path) -> None:
    journal_of(folder / ASIDE).write_bytes(b"of an earlier repair")

    repair(folder, [], today=DAY)

    assert names(folder) == [ASIDE, LOCK, FILE]


def test_a_history_that_is_whole_stays_where_it_is(folder: Path) -> None:
    repair(folder, [], today=DAY)
    before = (folder / FILE).read_bytes()

    done = repair(folder, [], today=DAY)

    assert done == Repair(None, folder / FILE, Loss(), DAY)
    assert words_of(done) == []
    assert (folder / FILE).read_bytes() == before
    assert names(folder) == [ASIDE, LOCK, FILE]


def test_a_damaged_ledger_alone_is_repaired(folder: Path) -> None:
    repair(folder, [], today=DAY)
    before = dump(folder / FILE)
    change(folder / FILE, "UPDATE day SET streak = -2")

    done = repair(folder, [], today=DAY)

    assert done.aside == folder / ASIDE_2
    assert dump(folder / FILE) == before


def test_a_history_that_is_open_is_not_repaired(data: Path) -> None:
    with open_history(data, []), pytest.raises(StoreError) as refused:
        repair(data, [], today=DAY)

    assert str(refused.value) == (
        f"{data / FILE}: in use by another stillfoot; close that one first"
    )


@file_size_limit
@pytest.mark.parametrize("size", [1_000, 20_000])
def test_a_full_disk_leaves_the_damaged_history_in_its_place(folder: Path, size: int) -> None:
    before = (folder / FILE).read_bytes()

    with no_file_longer(size), pytest.raises(StoreError) as refused:
        repair(folder, [], today=DAY)

    assert len(str(refused.value).splitlines()) == 1
    assert (folder / FILE).read_bytes() == before
    assert names(folder) == [LOCK, FILE]


def test_a_kill_at_any_step_loses_nothing(folder: Path, tmp_path: Path) -> None:
    break_off(folder / FILE)
    damaged = (folder / FILE).read_bytes()
    whole = tmp_path / "whole"
    shutil.copytree(folder, whole)
    repair(whole, [], today=DAY)
    after = dump(whole / FILE)

    codes = []
    for step in (2, *range(22, 33, 2), 40):
        killed = tmp_path / f"killed {step}"
        shutil.copytree(folder, killed)
        command = [sys.executable, "-m", "tests.store.dying_at", "repair", str(step), str(killed)]
        codes.append(subprocess.run(command, cwd=ROOT, check=False, capture_output=True).returncode)
        assert (killed / FILE).exists()
        repair(killed, [], today=DAY)
        assert dump(killed / FILE) == after
        assert (killed / ASIDE).read_bytes() == damaged
        assert set(names(killed)) <= {
            *(ASIDE, f"{ASIDE}-journal", ASIDE_2, f"{ASIDE_2}-journal", LOCK, FILE)
        }

    assert codes[0] == 9
    assert codes.count(9) >= 5
    assert codes[-1] == 0


def test_copies_are_found_by_their_names_the_newest_first(folder: Path, backup: Path) -> None:
    for day in ("2026-05-03", "2026-04-30", "2026-05-01"):
        shutil.copy(backup, folder / f"history-copy-{day}.sqlite3")
    shutil.copy(backup, folder / "history-before-restore-1.sqlite3")

    found = newest_copies(folder)
    done = repair(folder, [], today=DAY)

    assert [one.name[13:23] for one in found] == ["2026-05-03", "2026-05-01", "2026-04-30"]
    assert done.loss == Loss()
    assert dump(folder / FILE) == dump(backup)


@pytest.mark.parametrize(
    ("loss", "said"),
    [
        (
            Loss(
                repetitions=3,
                first=date(2026, 5, 4),
                last=date(2026, 5, 4),
                filled={Path("history-copy-2026-05-03.sqlite3"): 2},
            ),
            [
                "3 repetitions of 4 May cannot be read.",
                "2 of them came from the copy of 3 May.",
            ],
        ),
        (
            Loss(
                repetitions=1200,
                first=date(2025, 12, 30),
                last=date(2026, 1, 2),
                filled={Path("mine.sqlite3"): 1200},
                traces=1,
                others={"sessions": 1, "rigs": 2},
            ),
            [
                "1,200 repetitions of 30 Dec 2025 to 2 Jan cannot be read.",
                "All of them came from mine.sqlite3.",
                "1 curve cannot be read; the verdicts stay.",
                "1 session cannot be read.",
                "2 rigs cannot be read.",
            ],
        ),
        (
            Loss(repetitions=1, first=date(2026, 5, 4), is_open=True, measures=2),
            [
                "1 repetition from 4 May on cannot be read.",
                "Later ones may be missing too.",
                "2 repetitions lost all figures but the score.",
            ],
        ),
        (
            Loss(repetitions=2, last=date(2026, 5, 4), settings=("sound",), unsure=("settings",)),
            [
                "2 repetitions up to 4 May cannot be read.",
                "1 setting cannot be read: 'sound'.",
                "Other settings may be missing.",
            ],
        ),
        (
            Loss(repetitions=1, filled={Path("history-copy-2025-05-03.sqlite3"): 1}),
            ["1 repetition cannot be read.", "It came from the copy of 3 May 2025."],
        ),
        (
            Loss(others={"drives": 1}, unsure=("settings", "drives", "rigs")),
            ["1 drive cannot be read.", "Other settings, drives and rigs may be missing."],
        ),
        (
            Loss(traces=1, unsure=("settings", "sessions", "trials", "drives", "changes", "rigs")),
            [
                "1 curve cannot be read; the verdicts stay.",
                "Settings, sessions, trials, drives, changes and rigs may be missing.",
            ],
        ),
        (
            Loss(repetitions=2, is_open=True, filled={Path("mine.sqlite3"): 2}),
            [
                "2 repetitions cannot be read.",
                "All of them came from mine.sqlite3.",
                "Later ones may be missing.",
            ],
        ),
        (Loss(is_open=True), ["The newest repetitions may be missing."]),
        (Loss(), ["Nothing is lost."]),
    ],
)
def test_what_is_lost_is_told_in_short_sentences(loss: Loss, said: list[str]) -> None:
    words = words_of(Repair(Path(ASIDE), Path(FILE), loss, DAY))

    assert words == [
        *said,
        f"The damaged file is now {ASIDE}.",
        f"What could be read is in {FILE}.",
    ]
    assert all(len(sentence.split()) <= 12 for sentence in words)


@pytest.mark.parametrize(
    ("filled", "said", "end"),
    [
        ({}, [], f"A new history begins in {FILE}."),
        (
            {Path("history-copy-2026-05-03.sqlite3"): 1200},
            [
                "1,200 repetitions came from the copy of 3 May.",
                "What came after that copy is lost.",
            ],
            f"What the copy had is in {FILE}.",
        ),
    ],
)
def test_a_file_of_which_nothing_is_left_is_told_so(
    filled: dict[Path, int], said: list[str], end: str
) -> None:
    loss = Loss(is_all=True, is_open=True, unsure=("settings",), filled=filled)

    words = words_of(Repair(Path(ASIDE), Path(FILE), loss, DAY))

    assert words == [
        "Nothing in the history can be read.",
        *said,
        f"The damaged file is now {ASIDE}.",
        end,
    ]
