"""A history that cannot be used for a while: who is asked, and what a new try finds."""

import shutil
import sqlite3
import tempfile
from collections.abc import Callable, Iterator
from contextlib import ExitStack, closing
from pathlib import Path

import pytest

from engine.store import History, StoreError, open_history
from engine.store.error import DamagedError
from engine.store.history import FILE
from engine.store.repetitions import add_repetition
from engine.store.trouble import Cause, Trouble
from tests.full_disk import no_file_longer
from tests.made import record, trace
from tests.needs import closed_files, file_size_limit, moving_open_files
from tests.stored import all_results, dump
from tests.unprivileged import unprivileged


class Player:
    """Player who does one thing after another about trouble, and gives up when none is left."""

    def __init__(self, *helps: Callable[[], object]) -> None:
        self.helps = list(helps)
        self.asked: list[Trouble] = []

    def __call__(self, trouble: Trouble) -> bool:
        self.asked.append(trouble)
        if not self.helps:
            return False
        self.helps.pop(0)()
        return True

    @property
    def causes(self) -> list[Cause]:
        """Causes of the trouble, one for each time this player was asked."""
        return [trouble.cause for trouble in self.asked]


def nothing() -> None:
    """Help by doing nothing but trying again."""


@pytest.fixture
def player() -> Player:
    """Player who gives up at once."""
    return Player()


@pytest.fixture
def history(tmp_path: Path, player: Player) -> Iterator[History]:
    """History of one repetition in a folder of its own, which asks the player; no page is free."""
    with open_history(tmp_path / "data", [], 0.0, player) as new:
        add_repetition(new, record())
        with new.reading() as db:
            db.execute("VACUUM")
        yield new


@pytest.fixture
def other(history: History) -> Iterator[sqlite3.Connection]:
    """Connection of another program to the same file."""
    with closing(sqlite3.connect(history.path, isolation_level=None)) as connection:
        yield connection


def count(history: History) -> int:
    """Number of repetitions in a history."""
    return len(all_results(history))


def files(folder: Path) -> list[str]:
    """Names of the files in a data folder, in order."""
    return sorted(path.name for path in folder.iterdir())


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


@moving_open_files
def test_a_repetition_is_stored_once_the_folder_is_back(
    history: History, player: Player, tmp_path: Path
) -> None:
    folder, away = history.path.parent, tmp_path / "away"
    folder.rename(away)
    player.helps = [lambda: away.rename(folder)]

    add_repetition(history, record())

    assert player.causes == [Cause.FOLDER_GONE]
    assert count(history) == 2
    assert files(folder) == ["history.lock", FILE]


@moving_open_files
def test_the_whole_history_is_put_back_into_a_folder_that_is_gone(
    history: History, player: Player
) -> None:
    before = dump(history.path)
    shutil.rmtree(history.path.parent)
    player.helps = [nothing]

    history.keep_setting("sound", False)

    assert player.causes == [Cause.FOLDER_GONE]
    assert history.setting("sound") is False
    assert files(history.path.parent) == ["history.lock", FILE]
    history.write(lambda db: db.execute("DELETE FROM setting"))
    assert dump(history.path) == before


@moving_open_files
def test_a_deleted_file_is_put_back_with_what_was_to_be_written(
    history: History, player: Player
) -> None:
    history.path.unlink()
    player.helps = [nothing]

    add_repetition(history, record())

    assert player.causes == [Cause.FILE_GONE]
    with open_history(history.path.parent, []) as found:
        assert count(found) == 2
    assert files(history.path.parent) == ["history.lock", FILE]


@moving_open_files
@file_size_limit
def test_a_file_that_does_not_fit_on_the_disk_is_put_back_later(
    history: History, player: Player
) -> None:
    size = history.path.stat().st_size
    history.path.unlink()
    with ExitStack() as disk:
        player.helps = [lambda: disk.enter_context(no_file_longer(size // 2)), disk.close]

        add_repetition(history, record())

    assert player.causes == [Cause.FILE_GONE] * 2
    assert count(history) == 2
    assert files(history.path.parent) == ["history.lock", FILE]


@moving_open_files
def test_a_file_that_another_one_took_the_place_of_is_kept_beside_it(
    history: History, player: Player, tmp_path: Path
) -> None:
    before = dump(history.path)
    with open_history(tmp_path / "theirs", []) as theirs:
        theirs.keep_setting("sound", False)
    theirs.path.replace(history.path)
    player.helps = [nothing]

    add_repetition(history, record())

    assert player.causes == [Cause.REPLACED]
    assert history.setting("sound") is False
    assert count(history) == 1
    aside = "history-before-replaced-1.sqlite3"
    assert files(history.path.parent) == [aside, "history.lock", FILE]
    assert dump(history.path.with_name(aside)) == before


@moving_open_files
def test_a_file_of_a_newer_version_in_the_place_of_the_history_is_refused(
    history: History, player: Player, tmp_path: Path
) -> None:
    newer = tmp_path / "newer.sqlite3"
    with closing(sqlite3.connect(newer)) as db:
        db.execute("PRAGMA user_version = 99")
    newer.replace(history.path)
    player.helps = [nothing]

    with pytest.raises(StoreError) as refused:
        add_repetition(history, record())

    assert player.causes == [Cause.REPLACED, Cause.OTHER]
    assert str(refused.value).endswith("found version 99, made by a newer stillfoot")


@moving_open_files
def test_a_damaged_file_in_the_place_of_the_history_is_damage_and_the_change_is_held(
    history: History, player: Player, tmp_path: Path
) -> None:
    damaged = tmp_path / "damaged.sqlite3"
    damaged.write_bytes(b"no history\n" * 100)
    damaged.replace(history.path)
    player.helps = [nothing]

    with pytest.raises(DamagedError):
        add_repetition(history, record())

    assert player.causes == [Cause.REPLACED]
    assert [what for _, what in history.unwritten] == ["one repetition"]


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
