"""`Journal`: file of rows written to the disk as they come, so that a killed program loses few."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

from drills.refusal import Refusal
from drills.trace import nanoseconds
from engine.errors import reason_of

WRITE = nanoseconds(0.25)
"""Longest time that rows wait in memory, in ns: a killed program loses no more than that."""
SYNC = nanoseconds(1.0)
"""Time between syncs to the disk, in ns: a power cut loses no more. A sync takes 0.2 to 1 ms on a
solid disk, up to 50 ms while others write too; no pedal is read meanwhile."""
SYNC_LATEST = nanoseconds(10.0)
"""Longest time that a sync is put off so as not to disturb, in ns: longer than a braking zone."""


class JournalError(Refusal):
    """A journal file cannot be made or written; the text is one line for the person."""


class Journal:
    """New file of rows; as a context manager it writes what is left and closes the file."""

    def __init__(self, path: Path, header: str, sync: Callable[[int], object] = os.fsync) -> None:
        """Make the file and write the header; refuse a file that is there already.

        `sync` makes the disk keep what was written to the file with this descriptor. Raises
        JournalError.
        """
        self._path = path
        self._failed = False
        self._sync_file = sync
        try:
            self._file = path.open("xb", buffering=0)
        except FileExistsError as error:
            raise JournalError(
                f"{path}: expected a new file, found one that is there already"
            ) from error
        except OSError as error:
            raise self._refusal(error) from error
        self._rows: list[str] = [header]
        self._written: int | None = None
        self._synced: int | None = None

    def __enter__(self) -> Journal:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def add(self, rows: str, now: int, *, busy: bool) -> None:
        """Add whole rows, or "", at `now` in ns; `busy` puts off a sync that takes some ms.

        Raises JournalError; what was written stays.
        """
        if rows:
            self._rows.append(rows)
        if self._written is None or self._synced is None:
            self._written = self._synced = now
            self._write()
        elif now - self._written >= WRITE:
            self._written = now
            self._write()
            if now - self._synced >= (SYNC_LATEST if busy else SYNC):
                self._synced = now
                self._sync()

    def close(self) -> None:
        """Write the rows that are left and close the file. Raises JournalError.

        Nothing is written if writing failed before: the last row may be half of one.
        """
        if self._file.closed:
            return
        try:
            if not self._failed:
                self._write()
                self._sync()
        finally:
            self._file.close()

    def _write(self) -> None:
        left = "".join(self._rows).encode()
        self._rows.clear()
        try:
            while left:
                left = left[self._file.write(left) :]
        except OSError as error:
            raise self._refusal(error) from error

    def _sync(self) -> None:
        try:
            self._sync_file(self._file.fileno())
        except OSError as error:
            raise self._refusal(error) from error

    def _refusal(self, error: OSError) -> JournalError:
        self._failed = True
        return JournalError(f"{self._path}: expected a file to write to, found: {reason_of(error)}")
