"""Backup of the history file, and restoring a backup in its place.

SQLite's own online backup makes the copies, so a copy is whole even while a game writes. Each is
made under another name and renamed when it has been checked: however the program ends, a file is
there whole or not at all.
"""

from __future__ import annotations

import os
import shutil
import sqlite3
from collections.abc import Callable, Iterable, Iterator
from contextlib import closing, contextmanager, suppress
from itertools import count
from pathlib import Path

from drills.level import Level
from engine.errors import reason_of
from engine.store.error import DamagedError, StoreError
from engine.store.found_words import DAMAGED_PAGES, found_words
from engine.store.history import FILE, History, errors_of, is_damage
from engine.store.lock import hold_alone
from engine.store.opening import check_version, connect, make_folder, prepare, refuse_short

Tell = Callable[[], None]
"""Function that is called now and then during long work, at least every tenth of a second."""
PAGES = 4096
"""Number of database pages copied at a time, 4 MB: in between, a game can write."""
ASIDE = "history-before-restore-{}.sqlite3"
"""Name that the history file gets when a backup replaces it, with the first free number."""
STEPS = 50_000
"""Number of steps of SQLite's virtual machine between two calls while a copy is checked, some 2 ms.

SQLite 3.40 checks all pages in one step, in 1 to 2 s for a history of 600 MB."""
SYNCED = 4_000_000
"""Bytes of a copy that go to the disk at a time: what waits there holds up who writes next."""
PART = ".part"
"""Ending of the name under which a copy is written until it is whole."""


def silent() -> None:
    """Function to call where nobody follows the work."""


def back_up(history: History, file: Path, tell: Tell = silent, pages: int = PAGES) -> None:
    """Copy a history to a new file, `pages` at a time; `tell` is called now and then meanwhile.

    Raises StoreError; the new file does not exist then.
    """
    with history.reading() as source:
        check_version(source, history.path)
        _refuse_existing(file)
        with unfinished(file) as part:
            with closing(connect(part, 0.0)) as copy:
                _copy_to_disk(source, copy, part, tell, pages)
                copy.set_progress_handler(tell, STEPS)
                # The copy has every page of the history, a damaged one too. To check the history
                # itself would keep a game from writing, for seconds where it is long.
                _check(copy, history.path)
            _refuse_existing(file)
            part.replace(file)


def restore(file: Path, folder: Path, levels: Iterable[Level]) -> Path | None:
    """Replace the history in a data folder by a copy of a backup; returns where the old one went.

    The old history is moved aside: the result is its new path, or None if there was none. The copy
    is brought to the newest version; `levels` are as in `open_history`. Raises DamagedError if the
    backup is damaged, StoreError if it is of a newer stillfoot or a game is running; the history is
    unchanged then.
    """
    path = folder / FILE
    with closing(_open_backup(file)) as source:
        with _errors_of_backup(file):
            _check(source, file)
        make_folder(folder)
        with closing(hold_alone(path)), unfinished(path) as part:
            with closing(connect(part, 0.0)) as copy:
                copy_database(source, copy)
                with errors_of(file):
                    prepare(copy, file, levels)
                    _check(copy, file)
            aside = _set_aside(path)
            try:
                if aside is not None:
                    _move_journal(path, aside)
                part.replace(path)
            except OSError:
                # On Windows no file can be replaced that another program has open.
                _undo(aside, path)
                raise
    return aside


def copy_database(
    source: sqlite3.Connection, copy: sqlite3.Connection, tell: Tell = silent
) -> None:
    """Copy a whole database; starts over if another program writes. Raises sqlite3.Error."""
    source.backup(copy, pages=PAGES, progress=lambda *_: tell())


def _copy_to_disk(
    source: sqlite3.Connection, copy: sqlite3.Connection, part: Path, tell: Tell, pages: int
) -> None:
    """Copy a whole database to the disk, a part of it at a time. Raises sqlite3.Error, OSError.

    SQLite itself would wait for the disk at the end, for all of it at once, and let nobody use the
    source meanwhile.
    """
    copy.execute("PRAGMA journal_mode = OFF")
    copy.execute("PRAGMA synchronous = OFF")
    with part.open("rb+") as file:
        synced = 0

        def sync_and_tell() -> None:
            nonlocal synced
            size = os.fstat(file.fileno()).st_size
            if abs(size - synced) >= SYNCED:
                os.fsync(file.fileno())
                synced = size
            tell()

        source.backup(copy, pages=pages, progress=lambda *_: sync_and_tell())
        os.fsync(file.fileno())


def _check(db: sqlite3.Connection, path: Path) -> None:
    """Raise StoreError unless a database is an undamaged history of a known version.

    It is DamagedError where there is damage.
    """
    if check_version(db, path) == 0:
        raise DamagedError(f"{path}: expected a history, found none in it")
    found = str(db.execute("PRAGMA integrity_check(1)").fetchone()[0])
    if found != "ok":
        raise DamagedError(f"{path}: expected a whole history, found {DAMAGED_PAGES}")


def _refuse_existing(file: Path) -> None:
    try:
        if file.is_dir():
            raise StoreError(f"{file}: expected a new file, found a folder")
        if file.exists():
            raise StoreError(f"{file}: expected a new file, found one that is there already")
    except OSError as error:
        raise _unwritable(file, reason_of(error)) from error


def _open_backup(file: Path) -> sqlite3.Connection:
    """Connection to a backup file, for reading only. Raises StoreError."""
    try:
        if file.is_dir():
            raise StoreError(f"{file}: expected a backup to read, found a folder")
        if file.exists() and not file.is_file():
            raise StoreError(f"{file}: expected a backup to read, found no regular file")
        file.open("rb").close()
        # SQLite takes it for a new database or for none, by its version.
        refuse_short(file)
    except OSError as error:
        raise StoreError(f"{file}: expected a backup to read, found: {reason_of(error)}") from error
    with _errors_of_backup(file):
        return sqlite3.connect(f"{file.absolute().as_uri()}?mode=ro", uri=True)


@contextmanager
def _errors_of_backup(file: Path) -> Iterator[None]:
    try:
        yield
    except UnicodeDecodeError as error:
        raise DamagedError(
            f"{file}: expected a backup to read, found a name that is no text"
        ) from error
    except sqlite3.Error as error:
        refusal = DamagedError if is_damage(error) else StoreError
        found = found_words(error)
        raise refusal(f"{file}: expected a backup to read, found {found}") from error


@contextmanager
def unfinished(file: Path) -> Iterator[Path]:
    """Context with a name beside a file to write under; what is left of it is removed at the end.

    Raises StoreError, which names the file, if it cannot be written.
    """
    part = file.with_name(f"{file.name}{PART}")
    try:
        try:
            # One that was killed may have left its own.
            _remove(part)
            part.open("xb").close()
            yield part
        finally:
            _remove(part)
    except OSError as error:
        raise _unwritable(file, reason_of(error)) from error
    except sqlite3.Error as error:
        raise _unwritable(file, found_words(error)) from error


def _unwritable(file: Path, found: str) -> StoreError:
    return StoreError(f"{file}: expected a file to write to, found: {found}")


def _remove(part: Path) -> None:
    part.unlink(missing_ok=True)
    journal_of(part).unlink(missing_ok=True)


def journal_of(path: Path) -> Path:
    """Path of SQLite's journal beside a database, from which it undoes a broken transaction."""
    return path.with_name(f"{path.name}-journal")


def _set_aside(path: Path) -> Path | None:
    """Copy a history file to a new name beside it; returns that, or None if there is no history.

    The old file stays until it is replaced, so that there is a history at all times. Raises
    OSError.
    """
    journal = journal_of(path)
    if not path.exists():
        # A journal without its history must not be taken for one of the new history.
        journal.unlink(missing_ok=True)
        return None
    # A transaction that a crash broke off is undone, as it would be when it is opened.
    with suppress(sqlite3.Error, UnicodeDecodeError), closing(connect(path, 0.0)) as db:
        db.execute("SELECT count(*) FROM sqlite_master").fetchone()
    names = (path.with_name(ASIDE.format(number)) for number in count(1))
    aside = next(name for name in names if not name.exists())
    with unfinished(aside) as part:
        shutil.copy2(path, part)
        with part.open("rb+") as file:
            os.fsync(file.fileno())
        part.replace(aside)
    return aside


def _move_journal(old: Path, new: Path) -> None:
    """Move a journal that SQLite could not use yet to the name of the history it belongs to."""
    with suppress(FileNotFoundError):
        journal_of(old).replace(journal_of(new))


def _undo(aside: Path | None, path: Path) -> None:
    """Remove the copy of a history that was set aside, as the history itself stayed in its place.

    Raises OSError.
    """
    if aside is not None:
        _move_journal(aside, path)
        aside.unlink()
