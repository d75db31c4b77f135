"""Migrations: from every version to the newest, each whole or not at all."""

import sqlite3
from collections.abc import Iterator, Mapping
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from drills.level import PassRule
from engine.store import open_history
from engine.store.cells import CellError
from engine.store.history import FILE
from engine.store.migrate import LEDGER, migrate, version
from engine.store.repetitions import add_repetition
from engine.store.schema import MIGRATIONS
from tests.made import record

FIRST = ("CREATE TABLE foot (name TEXT)", "INSERT INTO foot VALUES ('left'), ('right')")
SECOND = ("ALTER TABLE foot ADD COLUMN size REAL", "UPDATE foot SET size = 42.5")


def mend(connection: sqlite3.Connection, rules: Mapping[str, PassRule]) -> None:
    """A step that no statement can say."""
    for name, rule in rules.items():
        connection.execute("UPDATE foot SET name = name || ?", (f" {name} {rule.of}",))


def stumble(connection: sqlite3.Connection, _: Mapping[str, PassRule]) -> None:
    """A step that fails half-way."""
    connection.execute("DELETE FROM foot")
    raise CellError("foot: expected two")


BROKEN = (
    "ALTER TABLE foot ADD COLUMN heel REAL",
    "DELETE FROM foot",
    "INSERT INTO hand VALUES (1)",
)


@pytest.fixture
def file(tmp_path: Path) -> Iterator[sqlite3.Connection]:
    """A new file in autocommit mode."""
    with closing(sqlite3.connect(tmp_path / "any.sqlite3", isolation_level=None)) as connection:
        yield connection


def dump(connection: sqlite3.Connection) -> list[str]:
    """Everything in a file, and its version."""
    return [*connection.iterdump(), f"version {version(connection)}"]


def schema(folder: Path) -> list[tuple[str, str]]:
    """The tables and indices of a history."""
    with closing(sqlite3.connect(folder / FILE)) as connection:
        return connection.execute("SELECT name, sql FROM sqlite_master ORDER BY name").fetchall()


@pytest.mark.parametrize("start", range(1, len(MIGRATIONS) + 1))
def test_a_history_of_every_version_opens_as_the_newest(tmp_path: Path, start: int) -> None:
    old, new = tmp_path / "old", tmp_path / "new"
    old.mkdir()
    with closing(sqlite3.connect(old / FILE, isolation_level=None)) as connection:
        migrate(connection, MIGRATIONS[:start])
        connection.execute("INSERT INTO setting VALUES ('sound', 'false')")
        if start >= LEDGER:
            connection.execute("INSERT INTO clean_row VALUES (1, 0, 0)")

    with open_history(old, []) as history, open_history(new, []):
        number = add_repetition(history, record())
        sound = history.setting("sound")

    assert number == 1
    assert sound is False
    assert schema(old) == schema(new)


@pytest.mark.parametrize("start", [0, 1, 2])
def test_migrations_that_are_done_are_not_done_again(file: sqlite3.Connection, start: int) -> None:
    migrate(file, [FIRST, SECOND][:start])

    migrate(file, [FIRST, SECOND])
    migrate(file, [FIRST, SECOND])

    assert version(file) == 2
    assert file.execute("SELECT * FROM foot").fetchall() == [("left", 42.5), ("right", 42.5)]


def test_a_file_is_finished_once_and_a_newest_one_not_again(file: sqlite3.Connection) -> None:
    versions: list[int] = []
    migrate(file, [FIRST])

    for _ in range(2):
        migrate(file, [FIRST, SECOND], finish=lambda _, before: versions.append(before))

    assert versions == [1]


@pytest.mark.parametrize("before", [[], [FIRST], [FIRST, SECOND]])
def test_a_migration_that_fails_leaves_the_file_as_it_was(
    file: sqlite3.Connection, before: list[tuple[str, ...]]
) -> None:
    migrate(file, before)
    as_it_was = dump(file)

    with pytest.raises(sqlite3.OperationalError):
        migrate(file, [*before, BROKEN])

    assert dump(file) == as_it_was
    assert not file.in_transaction


def test_a_step_may_be_a_function_that_knows_the_pass_rules(file: sqlite3.Connection) -> None:
    migrate(file, [FIRST, (mend, SECOND[0])], {"a-blip": PassRule(3, 7)})

    assert version(file) == 2
    assert file.execute("SELECT * FROM foot").fetchall() == [
        ("left a-blip 7", None),
        ("right a-blip 7", None),
    ]


def test_a_function_that_fails_leaves_the_file_as_it_was(file: sqlite3.Connection) -> None:
    migrate(file, [FIRST])
    as_it_was = dump(file)

    with pytest.raises(CellError):
        migrate(file, [FIRST, (SECOND[0], stumble)])

    assert dump(file) == as_it_was
    assert not file.in_transaction


def test_where_one_of_several_fails_the_file_is_left_as_it_was(file: sqlite3.Connection) -> None:
    migrate(file, [FIRST])

    with pytest.raises(sqlite3.OperationalError) as failed:
        migrate(file, [FIRST, SECOND, BROKEN])

    assert str(failed.value) == "no such table: hand"
    assert version(file) == 1
    assert len(file.execute("SELECT * FROM foot").fetchone()) == 1


def test_a_migration_that_failed_can_be_done_once_it_is_mended(file: sqlite3.Connection) -> None:
    with pytest.raises(sqlite3.OperationalError):
        migrate(file, [FIRST, BROKEN])

    migrate(file, [FIRST, BROKEN[:1], SECOND])

    assert version(file) == 3
    assert file.execute("SELECT * FROM foot").fetchone() == ("left", None, 42.5)


class Overtaken(sqlite3.Connection):
    """A connection that another one overtakes just before its first transaction."""

    overtake = staticmethod(lambda: None)

    def execute(self, statement: str, *parameters: Any) -> sqlite3.Cursor:
        """Let the other one go first, once."""
        if statement.startswith("BEGIN"):
            overtake, self.overtake = self.overtake, lambda: None
            overtake()
        return super().execute(statement, *parameters)


def test_of_two_that_migrate_one_file_at_once_the_second_finds_it_done(
    file: sqlite3.Connection, tmp_path: Path
) -> None:
    path = tmp_path / "any.sqlite3"
    second = sqlite3.connect(path, isolation_level=None, factory=Overtaken)
    second.overtake = lambda: migrate(file, [FIRST, SECOND])

    with closing(second):
        migrate(second, [FIRST, SECOND])

    assert version(file) == 2
    assert file.execute("SELECT * FROM foot").fetchall() == [("left", 42.5), ("right", 42.5)]
