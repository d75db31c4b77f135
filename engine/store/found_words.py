"""Words for what went wrong with a file of the history, in place of those of SQLite."""

from __future__ import annotations

import sqlite3

PRIMARY = 0xFF
"""Bits of an error code of SQLite that name the kind of error; the others tell it more exactly."""
FULL = (sqlite3.SQLITE_FULL, sqlite3.SQLITE_IOERR_WRITE, sqlite3.SQLITE_IOERR_FSYNC)
"""Error codes of SQLite for a disk that takes no more: it is full, or a quota is used up."""
TWICE = (
    sqlite3.SQLITE_CONSTRAINT_PRIMARYKEY,
    sqlite3.SQLITE_CONSTRAINT_ROWID,
    sqlite3.SQLITE_CONSTRAINT_UNIQUE,
)
"""Error codes of SQLite for a row that is there already: the program writes none twice, so that the
row or its index is damaged."""
UNDECODABLE = "Could not decode to UTF-8"
"""First words of the error for a text in a cell that is not UTF-8; it has no error code."""
MISSING = ("no such table", "no such column")
"""First words of errors for a part of the history that is not there; they have no code of their
own."""

DAMAGED_PAGES = "damaged pages"
NO_PERMISSION = "no permission to write"
IN_USE = "another program using it"
WORDS = {
    sqlite3.SQLITE_NOTADB: "another kind of file",
    sqlite3.SQLITE_CORRUPT: DAMAGED_PAGES,
    sqlite3.SQLITE_IOERR: "a disk that cannot be read or written",
    sqlite3.SQLITE_READONLY: NO_PERMISSION,
    sqlite3.SQLITE_PERM: NO_PERMISSION,
    sqlite3.SQLITE_AUTH: NO_PERMISSION,
    sqlite3.SQLITE_CANTOPEN: "no way to open it",
    sqlite3.SQLITE_BUSY: IN_USE,
    sqlite3.SQLITE_LOCKED: IN_USE,
    sqlite3.SQLITE_NOMEM: "too little memory",
    sqlite3.SQLITE_CONSTRAINT: "rows that contradict each other",
}
"""What is found, by the kind of error."""


def found_words(error: sqlite3.Error) -> str:
    """What was found instead of a file that can be used: the end of a line, such as "a full disk".

    An error that has no words here is named by its number, so that a report says which it was.
    """
    code = getattr(error, "sqlite_errorcode", sqlite3.SQLITE_OK)
    if code in FULL:
        return "a full disk"
    if code in TWICE:
        return "a row stored twice"
    if code == sqlite3.SQLITE_READONLY_DBMOVED:
        return "it moved away"
    if str(error).startswith(UNDECODABLE):
        return "text that cannot be read"
    if str(error).startswith(MISSING):
        return "a part missing"
    if code & PRIMARY in WORDS:
        return WORDS[code & PRIMARY]
    number = f", number {code}" if code else ""
    return f"an error of the database{number}"
