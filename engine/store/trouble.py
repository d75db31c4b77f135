"""Trouble with a history in use that goes away by itself or by hand: what it is, in a value.

Damage is none of it: a damaged history is repaired.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum
from pathlib import Path

from engine.store.error import StoreError
from engine.store.found_words import FULL, PRIMARY

_DENIED = (
    *(sqlite3.SQLITE_READONLY, sqlite3.SQLITE_CANTOPEN),
    *(sqlite3.SQLITE_PERM, sqlite3.SQLITE_AUTH),
)
"""Kinds of errors of SQLite for a file or folder that this user may not write to."""


class Cause(Enum):
    """Why a history in use can be read or written no more."""

    IN_USE = "in use"
    """Another program has locked the file."""
    FULL = "full"
    """The disk takes no more: it is full, or this user's share of it is."""
    FOLDER_GONE = "folder gone"
    """The data folder was moved or deleted, or its disk was detached."""
    FILE_GONE = "file gone"
    """The history file was moved or deleted, out of a folder that is still there."""
    REPLACED = "replaced"
    """Another program put another file in the place of the history."""
    DENIED = "denied"
    """This user may no longer write in the data folder."""
    OTHER = "other"
    """Anything else; the error says it."""


@dataclass(frozen=True)
class Trouble:
    """One failure to read or write a history in use."""

    cause: Cause
    """Why it failed."""
    error: StoreError
    """The error, which is raised if nobody tries again."""
    path: Path
    """History file."""
    waiting: str
    """What waits to be written, such as "one repetition"; empty where something was read."""


OnTrouble = Callable[[Trouble], bool]
"""Function that is asked what to do about trouble: True to try again, False to give up."""


def give_up(_: Trouble) -> bool:
    """Give up at the first failure, as where nobody can be asked."""
    return False


def cause_of(error: StoreError, path: Path) -> Cause:
    """Why reading or writing the history file at `path` failed with an error."""
    if not _is_there(path.parent):
        return Cause.FOLDER_GONE
    if not _is_there(path):
        return Cause.FILE_GONE
    code = _code(error)
    if code & PRIMARY in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED):
        return Cause.IN_USE
    if code in FULL:
        return Cause.FULL
    if code == sqlite3.SQLITE_READONLY_DBMOVED:
        return Cause.REPLACED
    if code & PRIMARY in _DENIED or isinstance(error.__cause__, PermissionError):
        return Cause.DENIED
    return Cause.OTHER


def is_of_the_file(error: StoreError) -> bool:
    """Whether SQLite or the system failed, so that the same may work later."""
    return isinstance(error.__cause__, sqlite3.OperationalError | OSError)


def _is_there(path: Path) -> bool:
    """Whether there is a file or folder; True as well where this user may not look."""
    try:
        path.stat()
    except PermissionError:
        return True
    except OSError:
        return False
    return True


def _code(error: StoreError) -> int:
    """Error code of SQLite behind an error; 0 if there is none."""
    code = getattr(error.__cause__, "sqlite_errorcode", 0)
    return code if isinstance(code, int) else 0
