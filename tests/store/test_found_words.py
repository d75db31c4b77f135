"""What went wrong with a file of the history is said in our words, never in those of SQLite."""

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from engine.store.found_words import found_words

KINDS = {
    name: getattr(sqlite3, name)
    for name in dir(sqlite3)
    if name.startswith(("SQLITE_IOERR", "SQLITE_READONLY", "SQLITE_CONSTRAINT", "SQLITE_CORRUPT"))
    or name in ("SQLITE_FULL", "SQLITE_NOTADB", "SQLITE_PERM", "SQLITE_CANTOPEN", "SQLITE_BUSY")
}
"""Error codes of SQLite that a file may give, by name."""


def error_of(text: str, code: int) -> sqlite3.Error:
    """Error as SQLite raises it, with its own words and its code."""
    error = sqlite3.OperationalError(text)
    error.sqlite_errorcode = code
    return error


@pytest.mark.parametrize("name", KINDS)
def test_every_error_of_a_file_has_words_of_its_own(name: str) -> None:
    found = found_words(error_of("its own words", KINDS[name]))

    assert "its own words" not in found
    assert "database" not in found


@pytest.mark.parametrize(
    ("code", "words"),
    [
        (sqlite3.SQLITE_FULL, "a full disk"),
        (sqlite3.SQLITE_IOERR_WRITE, "a full disk"),
        (sqlite3.SQLITE_IOERR_READ, "a disk that cannot be read or written"),
        (sqlite3.SQLITE_READONLY_DBMOVED, "it moved away"),
        (sqlite3.SQLITE_READONLY, "no permission to write"),
        (sqlite3.SQLITE_CONSTRAINT_UNIQUE, "a row stored twice"),
        (sqlite3.SQLITE_CONSTRAINT_FOREIGNKEY, "rows that contradict each other"),
        (sqlite3.SQLITE_CORRUPT_INDEX, "damaged pages"),
        (sqlite3.SQLITE_BUSY_RECOVERY, "another program using it"),
    ],
)
def test_what_is_found_follows_from_the_code(code: int, words: str) -> None:
    assert found_words(error_of("its own words", code)) == words


def test_another_kind_of_file_is_named_so(tmp_path: Path) -> None:
    path = tmp_path / "file"
    path.write_bytes(b"not a database at all\n" * 50)

    with closing(sqlite3.connect(path)) as db, pytest.raises(sqlite3.Error) as failed:
        db.execute("SELECT count(*) FROM sqlite_master")

    assert found_words(failed.value) == "another kind of file"


def test_a_missing_table_and_a_text_that_is_no_text_are_told_apart() -> None:
    with closing(sqlite3.connect(":memory:")) as db:
        with pytest.raises(sqlite3.Error) as missing:
            db.execute("SELECT * FROM absent")
        with pytest.raises(sqlite3.Error) as undecodable:
            db.execute("SELECT CAST(x'ff' AS TEXT)").fetchone()

    assert found_words(missing.value) == "a part missing"
    assert found_words(undecodable.value) == "text that cannot be read"


def test_an_error_without_words_is_named_by_its_number() -> None:
    assert found_words(error_of("wrong", sqlite3.SQLITE_MISUSE)) == (
        "an error of the database, number 21"
    )
    assert found_words(sqlite3.OperationalError("wrong")) == "an error of the database"
