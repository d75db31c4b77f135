"""History whose file was moved, deleted or replaced under a running program."""

import shutil
import sqlite3
from contextlib import ExitStack, closing
from pathlib import Path

import pytest

from engine.store import History, StoreError, open_history
from engine.store.error import DamagedError
from engine.store.history import FILE
from engine.store.repetitions import add_repetition
from engine.store.trouble import Cause
from tests.full_disk import no_file_longer
from tests.made import record
from tests.needs import file_size_limit, moving_open_files
from tests.store.trouble.player import Player, count, files, nothing
from tests.stored import dump


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
