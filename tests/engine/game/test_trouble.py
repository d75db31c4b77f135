"""Trouble with the history while a set is played: asked in the window, and nothing is lost."""

import shutil
import sqlite3
import threading
from collections.abc import Iterator
from contextlib import ExitStack, closing
from datetime import timedelta
from pathlib import Path

import pytest

from engine.game.trouble import loss_words
from engine.stage.actions import Action
from engine.stage.scene import Attended
from engine.store import StoreError
from engine.store.history import FILE
from engine.store.lock import LOCK
from engine.store.trouble import Cause, Trouble
from tests.engine.drill.sets import DATE
from tests.engine.game.asides import CLOSE, Aside, Game, after
from tests.engine.walking import Step
from tests.full_disk import no_file_longer
from tests.needs import file_size_limit, moving_open_files
from tests.store.daily_copies import practise
from tests.store.whole import names

LONG = 20_000_000
"""Length of a history whose copy takes many permits of the background, in bytes."""


@pytest.fixture
def aside() -> Aside:
    """Player of screens aside who expects none."""
    return Aside()


@pytest.fixture
def game(tmp_path: Path, aside: Aside) -> Iterator[Game]:
    """Game of one set of two repetitions."""
    with Game(tmp_path / "data", aside) as new:
        yield new


@pytest.fixture
def other(game: Game) -> Iterator[sqlite3.Connection]:
    """Connection of another program to the history."""
    assert game.opened.history is not None
    file = game.opened.history.path
    with closing(sqlite3.connect(file, isolation_level=None)) as connection:
        yield connection


def passing(does: object = None) -> Step:
    """Step at a reveal: something happens while it is shown, then the player goes on."""

    def step(screen: Attended) -> None:
        if callable(does):
            does()
        screen.on_action(Action.GO)

    return step


def cause(aside: Aside) -> object:
    """Cause that the newest screen aside tells."""
    return aside.shown[-1].details()["cause"]


def test_a_repetition_of_a_locked_history_is_kept_once_the_lock_is_gone(
    game: Game, aside: Aside, other: sqlite3.Connection
) -> None:
    aside.steps = [("trouble", "Try again"), ("trouble", after(lambda: other.execute("ROLLBACK")))]

    game.play(passing(lambda: other.execute("BEGIN EXCLUSIVE")), "on")

    assert cause(aside) == "in use"
    assert game.count == 2
    assert game.starts == [True]


@file_size_limit
def test_a_repetition_that_found_the_disk_full_is_kept_once_there_is_room(
    game: Game, aside: Aside, tmp_path: Path
) -> None:
    with ExitStack() as disk:

        def fill() -> None:
            size = (tmp_path / "data" / FILE).stat().st_size
            disk.enter_context(no_file_longer(size // 2))

        aside.steps = [("trouble", after(disk.close))]

        game.play(passing(fill), "on")

    assert cause(aside) == "full"
    assert game.count == 2


@moving_open_files
def test_a_repetition_is_kept_once_the_folder_is_back(
    game: Game, aside: Aside, tmp_path: Path
) -> None:
    folder, away = tmp_path / "data", tmp_path / "away"
    aside.steps = [("trouble", after(lambda: away.rename(folder)))]

    game.play(passing(lambda: folder.rename(away)), "on")

    assert cause(aside) == "folder gone"
    assert game.count == 2
    assert not away.exists()


@moving_open_files
def test_a_folder_that_was_deleted_comes_back_with_all_repetitions(
    game: Game, aside: Aside, tmp_path: Path
) -> None:
    aside.steps = [("trouble", "Try again")]

    game.play(passing(lambda: shutil.rmtree(tmp_path / "data")), "on")

    assert cause(aside) == "folder gone"
    assert game.count == 2
    assert (tmp_path / "data" / FILE).exists()


@moving_open_files
def test_a_file_that_was_deleted_comes_back_though_a_copy_of_it_was_under_way(
    game: Game, aside: Aside, tmp_path: Path
) -> None:
    history, folder = game.opened.history, tmp_path / "data"
    assert history is not None
    practise(history, DATE.date() - timedelta(days=1))
    history.keep_setting("long", "x" * LONG)
    aside.steps = [("trouble", "Try again")]
    for _ in range(3):
        game.opened.step()
    under_way = [path.suffix for path in folder.glob("history-copy-*")]

    game.play(passing((folder / FILE).unlink), "on")

    assert under_way == [".part"]
    assert cause(aside) == "file gone"
    assert game.count == 3
    assert names(folder) == [LOCK, FILE]


def test_leaving_ends_the_game_with_the_error_and_says_what_is_lost(
    game: Game, aside: Aside, other: sqlite3.Connection, tmp_path: Path
) -> None:
    aside.steps = [("trouble", "Leave")]

    with pytest.raises(StoreError) as refused:
        game.play(passing(lambda: other.execute("BEGIN EXCLUSIVE")))

    other.execute("ROLLBACK")
    path = tmp_path / "data" / FILE
    assert str(refused.value) == f"{path}: in use by another stillfoot; close that one first"
    assert aside.names == ["trouble"]
    assert game.count == 1


def test_closing_the_window_tries_once_more_and_keeps_the_repetition(
    game: Game, aside: Aside, other: sqlite3.Connection
) -> None:
    def close(_: Attended) -> None:
        other.execute("ROLLBACK")
        aside.closed = True

    aside.steps = [("trouble", close)]

    game.play(passing(lambda: other.execute("BEGIN EXCLUSIVE")), "on")

    assert aside.names == ["trouble"]
    assert game.count == 2


def test_closing_the_window_on_a_history_that_stays_locked_ends_with_the_error(
    game: Game, aside: Aside, other: sqlite3.Connection
) -> None:
    aside.steps = [("trouble", CLOSE)]

    with pytest.raises(StoreError, match="in use by another stillfoot"):
        game.play(passing(lambda: other.execute("BEGIN EXCLUSIVE")))

    assert aside.names == ["trouble"]


def test_work_in_another_thread_asks_nobody(
    game: Game, aside: Aside, other: sqlite3.Connection
) -> None:
    refused: list[StoreError] = []

    def write() -> None:
        assert game.opened.history is not None
        try:
            game.opened.history.keep_setting("sound", False)
        except StoreError as error:
            refused.append(error)

    def work() -> None:
        other.execute("BEGIN EXCLUSIVE")
        thread = threading.Thread(target=write)
        thread.start()
        thread.join()
        other.execute("ROLLBACK")

    game.play(passing(work), "on")

    assert len(refused) == 1
    assert aside.names == []
    assert game.count == 2


def test_an_error_that_no_new_try_could_take_up_starts_the_game_at_home(
    game: Game, aside: Aside
) -> None:
    aside.steps = [("trouble", "Try again")]

    game.errors = [StoreError("half a row was read")]

    game.play("on", "on")

    assert aside.shown[-1].details()["error"] == "half a row was read"
    assert game.starts == [True, False]


@pytest.mark.parametrize(
    ("cause", "waiting", "loss"),
    [
        (Cause.IN_USE, "one repetition", "loses one repetition"),
        (Cause.IN_USE, "", ""),
        (Cause.FILE_GONE, "", "loses all of it, unless you bring it back"),
        (Cause.FOLDER_GONE, "one repetition", "loses all of it, unless you bring it back"),
    ],
)
def test_leaving_says_that_it_loses_a_history_which_nobody_brings_back(
    cause: Cause, waiting: str, loss: str
) -> None:
    assert loss_words(Trouble(cause, StoreError("gone"), Path(FILE), waiting)) == loss
