"""A history of version 9, which knew neither shift buttons nor counting, opened as the newest."""

import sqlite3
from contextlib import closing
from pathlib import Path

from engine.store import open_history
from engine.store.history import FILE
from engine.store.migrate import version
from tests.earlier import change
from tests.store.whole import make
from tests.stored import dump

NINE = 9
"""Version of the last stillfoot that takes a shift button for a clutch."""


def test_nothing_in_it_changes_but_its_version(tmp_path: Path) -> None:
    make(tmp_path)
    change(tmp_path, f"PRAGMA user_version = {NINE}")
    before = dump(tmp_path / FILE)

    with open_history(tmp_path, []):
        pass

    assert dump(tmp_path / FILE)[:-1] == before[:-1]
    assert before[-1] == str((NINE,))


def test_a_program_that_knows_no_shift_button_refuses_a_newer_history(tmp_path: Path) -> None:
    make(tmp_path)

    with closing(sqlite3.connect(tmp_path / FILE)) as db:
        assert version(db) > NINE
