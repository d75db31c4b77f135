"""History that asks a player when its file cannot be used."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest

from engine.store import History, open_history
from engine.store.repetitions import add_repetition
from tests.made import record
from tests.store.trouble.player import Player


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
