"""A history that cannot be used for a while: who is asked, and what a new try finds."""

import sqlite3
import tempfile
from contextlib import ExitStack
from pathlib import Path

import pytest

from engine.store import History, StoreError, open_history
from engine.store.error import DamagedError
from engine.store.repetitions import add_repetition
from engine.store.trouble import Cause
from tests.full_disk import no_file_longer
from tests.made import record, trace
from tests.needs import closed_files, file_size_limit
from tests.store.trouble.player import Player, count, nothing
from tests.unprivileged import unprivileged


def test_a_repetition_is_stored_once_another_program_lets_go_of_the_file(
    history: History, player: Player, other: sqlite3.Connection
) -> None:
    other.execute("BEGIN EXCLUSIVE")
    player.helps = [nothing, lambda: other.execute("ROLLBACK")]

    number = add_repetition(history, record())

    assert player.causes == [Cause.IN_USE] * 2
    assert [trouble.waiting for trouble in player.asked] == ["one repetition"] * 2
    assert number == 2
    assert count(history) == 2


def test_giving_up_raises_the_error_and_stores_nothing(
    history: History, player: Player, other: sqlite3.Connection
) -> None:
    other.execute("BEGIN EXCLUSIVE")

    with pytest.raises(StoreError) as refused:
        add_repetition(history, record())

    other.execute("ROLLBACK")
    assert str(refused.value) == (
        f"{history.path}: in use by another stillfoot; close that one first"
    )
    assert refused.value is player.asked[0].error
    assert count(history) == 1


def test_a_read_waits_for_the_player_too_and_nothing_waits_to_be_written(
    history: History, player: Player, other: sqlite3.Connection
) -> None:
    other.execute("BEGIN EXCLUSIVE")
    player.helps = [lambda: other.execute("ROLLBACK")]

    assert count(history) == 1

    assert player.causes == [Cause.IN_USE]
    assert player.asked[0].waiting == ""


def test_nobody_is_asked_while_another_program_only_prepares_to_write(
    history: History, player: Player, other: sqlite3.Connection
) -> None:
    other.execute("BEGIN IMMEDIATE")

    assert count(history) == 1

    assert player.asked == []


def test_work_in_the_background_asks_nobody(
    history: History, player: Player, other: sqlite3.Connection
) -> None:
    other.execute("BEGIN EXCLUSIVE")

    with history.without_asking(), pytest.raises(StoreError):
        history.keep_setting("sound", False)

    assert player.asked == []
    player.helps = [lambda: other.execute("ROLLBACK")]
    history.keep_setting("sound", True)
    assert player.causes == [Cause.IN_USE]


def test_a_change_that_is_refused_for_what_it_says_asks_nobody(
    history: History, player: Player
) -> None:
    def refuse(_: sqlite3.Connection) -> None:
        raise StoreError("in the history already")

    with pytest.raises(StoreError, match="in the history already"):
        history.write(refuse)

    assert player.asked == []


@file_size_limit
def test_a_repetition_is_stored_once_the_disk_has_room(history: History, player: Player) -> None:
    with ExitStack() as disk:
        disk.enter_context(no_file_longer(history.path.stat().st_size))
        player.helps = [nothing, disk.close]

        add_repetition(history, record(trace=trace(4000)))

    assert player.causes == [Cause.FULL] * 2
    assert count(history) == 2


def test_a_database_that_may_not_grow_is_a_full_disk(history: History, player: Player) -> None:
    with history.reading() as db:
        pages = db.execute("PRAGMA page_count").fetchone()[0]
        db.execute(f"PRAGMA max_page_count = {pages}")

    with pytest.raises(StoreError, match="full"):
        add_repetition(history, record(trace=trace(4000)))

    assert player.causes == [Cause.FULL]


@closed_files
def test_a_repetition_is_stored_once_the_folder_may_be_written_again() -> None:
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name) / "data"
        Path(name).chmod(0o777)
        with unprivileged():
            player = Player(lambda: folder.chmod(0o700))
            with open_history(folder, [], 0.0, player) as history:
                folder.chmod(0o500)

                add_repetition(history, record())

                assert player.causes == [Cause.DENIED]
                assert count(history) == 1


def test_a_damaged_history_holds_what_was_to_be_written(
    history: History, player: Player, other: sqlite3.Connection, tmp_path: Path
) -> None:
    other.execute("DROP TABLE measure_name")

    with pytest.raises(DamagedError):
        add_repetition(history, record())

    assert player.asked == []
    [(change, what)] = history.unwritten
    assert what == "one repetition"
    with open_history(tmp_path / "repaired", []) as repaired:
        repaired.write(change, what)
        assert count(repaired) == 1
