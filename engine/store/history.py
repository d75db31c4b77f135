"""The history file: repetitions with their traces, where they leave the player, and settings."""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import fields
from datetime import date, datetime
from pathlib import Path
from typing import Any

from drills.calibration import Calibration
from drills.level import Level
from drills.measures.sampling import Sampling
from drills.trace import Trace
from engine.practice.passes import LevelStanding
from engine.practice.results import Result, Sitting, Standing, What, Why
from engine.practice.retention import Keeping
from engine.store import keepings, ledger, repetitions, sittings
from engine.store.cells import Row
from engine.store.file import connect, errors_of, make_folder, prepare
from engine.store.lock import hold_open
from engine.store.lookback import Lookback
from engine.store.records import Record, StoreError
from engine.store.traces import insert_trace, pack_trace, read_calibration, read_trace

FILE = "history.sqlite3"
"""Name of the history file in the data folder."""
PLACED = "placed"
"""Setting: ids of the levels that a placing set went past."""


def is_new(folder: Path) -> bool:
    """Whether a folder has no history yet; what is a file in its place will never have one.

    Where nobody may look, there may be one: opening it says what is wrong.
    """
    try:
        return not folder.is_file() and not (folder / FILE).exists()
    except OSError:
        return False


def open_history(folder: Path, levels: Iterable[Level], patience: float = 2.0) -> History:
    """Open the history in a data folder, making both where they are not there yet.

    `levels` are all there are, the player's own too: a history of version 1 does not say its own
    pass rules and takes theirs. `patience` is how long to wait for another program that writes, in
    s. Raises StoreError where the folder or file cannot be used; the history is unchanged then.
    """
    path = folder / FILE
    make_folder(folder)
    lock = hold_open(path, patience)
    try:
        db = connect(path, patience)
        try:
            with errors_of(path):
                prepare(db, path, levels)
        except BaseException:
            db.close()
            raise
    except BaseException:
        lock.close()
        raise
    return History(path, lock, db)


class History(Lookback):
    """Everything a player has done; a context manager that closes the file."""

    def add(self, record: Record) -> int:
        """Keep one repetition; its number. Committed on return. Raises StoreError."""
        packed = None if record.trace is None else pack_trace(record.trace, record.calibration)
        with self.transaction():
            number, result = repetitions.add_repetition(self._db, record)
            if packed is not None:
                insert_trace(self._db, number, packed, record.calibration)
            ledger.enter(self._db, result)
        return number

    def keep_guess(self, number: int, value: float, measure: str) -> None:
        """Keep what was guessed of a measure of one repetition. Raises StoreError."""
        with self.transaction():
            repetitions.add_guess(self._db, number, value, measure)

    def guesses(self, level: str) -> list[tuple[float, float]]:
        """What was guessed on a level and what it was, oldest first. Raises StoreError."""
        with self.reading():
            return repetitions.guesses(self._db, level)

    def standing(self, today: date) -> Standing:
        """Where the player stands on a day. Raises StoreError."""
        with self.reading():
            return ledger.standing(self._db, today)

    def level_standing(self, level: str) -> LevelStanding:
        """How the level with this id stands. Raises StoreError."""
        with self.reading():
            return ledger.level_standing(self._db, level)

    def passed(self) -> frozenset[str]:
        """Ids of the levels passed. Raises StoreError."""
        with self.reading():
            return ledger.passed(self._db)

    def keepings(self) -> dict[str, Keeping]:
        """How well each level that was passed is kept, by its id. Raises StoreError."""
        with self.reading():
            return keepings.keepings(self._db)

    def placed(self) -> frozenset[str]:
        """Ids of the levels that a placing set went past. Raises StoreError."""
        kept = self.setting(PLACED)
        if kept is None:
            return frozenset()
        if not isinstance(kept, list) or not all(isinstance(one, str) for one in kept):
            raise StoreError(
                f"{self.path}: setting '{PLACED}': expected a list of ids, found {kept!r:.60}"
            )
        return frozenset(kept)

    def keep_placed(self, levels: Iterable[str]) -> None:
        """Keep that a placing set went past these levels too. Raises StoreError."""
        self.keep_setting(PLACED, sorted(self.placed().union(levels)))

    def rebuild(self) -> None:
        """Make what is passed, the streaks and today anew; needed only where they were damaged.

        The time grows with the history. Raises StoreError.
        """
        with self.transaction():
            ledger.rebuild(self._db, repetitions.results(self._db))

    def results(self) -> list[Result]:
        """Every repetition, oldest first, as the rules of practice see it; grows with the history.

        Raises StoreError.
        """
        with self.reading():
            return list(repetitions.results(self._db))

    def recent(self, count: int) -> list[Result]:
        """The newest so many repetitions but those of trials, oldest first. Raises StoreError."""
        with self.reading():
            return repetitions.recent(self._db, count)

    def blips(
        self, level: str, why: Why, count: int, sitting: int | None = None
    ) -> list[tuple[date, float | None, float]]:
        """The newest so many blips of a level that were played for a reason, oldest first.

        The local day, the tolerance that was asked (points; None for the level's own), and the
        larger of dip and surge (points) of each that counts and has both; those of one sitting
        alone where its number is given. Raises StoreError.
        """
        with self.reading():
            return repetitions.blips(self._db, level, why, count, sitting)

    def begin_sitting(self, what: What, at: datetime, minutes: float, seed: int) -> int:
        """Keep that a sitting of so many minutes begins; its number. Raises StoreError."""
        with self.transaction():
            return sittings.begin(self._db, what, at, minutes, seed)

    def sitting_under_way(self, what: What, day: date) -> Sitting | None:
        """The newest that began on a local day and is not over. Raises StoreError."""
        with self.reading():
            return sittings.under_way(self._db, what, day)

    def sittings(self, day: date) -> list[Sitting]:
        """Those that began on a local day, oldest first. Raises StoreError."""
        with self.reading():
            return sittings.of_day(self._db, day)

    def end_sitting(self, number: int) -> None:
        """Keep that a sitting is over. Raises StoreError."""
        with self.transaction():
            if not sittings.end(self._db, number):
                raise StoreError(f"{self.path}: no sitting {number}")

    def measures(self, number: int) -> dict[str, float | None]:
        """The measures of one repetition by name. Raises StoreError."""
        row = Row(f"repetition {number}")
        with self.reading():
            found = self._db.execute(
                "SELECT measure_name.name, value"
                " FROM measure JOIN measure_name ON measure_name.id = measure.name"
                " WHERE repetition = ?",
                (number,),
            )
            return {row.text("measure", name): row.number(name, value) for name, value in found}

    def trace(self, number: int) -> Trace | None:
        """The trace of one repetition; None where it has none. Raises StoreError."""
        with self.reading():
            self._repetition(number, "id")
            return read_trace(self._db, number)

    def calibration(self, number: int) -> Calibration | None:
        """The calibration that the pedals of one repetition were read through; None: not known.

        Raises StoreError.
        """
        with self.reading():
            self._repetition(number, "id")
            return read_calibration(self._db, number)

    def sampling(self, number: int) -> Sampling:
        """How well one repetition was sampled. Raises StoreError."""
        names = [field.name for field in fields(Sampling)]
        row = Row(f"repetition {number}")
        with self.reading():
            found = self._repetition(number, ", ".join(names))
            return Sampling(
                *(row.number(name, value) for name, value in zip(names, found, strict=True))
            )

    def setting(self, key: str) -> Any:
        """A saved setting as plain data; None where there is none. Raises StoreError."""
        with self.reading():
            found = self._db.execute("SELECT value FROM setting WHERE key = ?", (key,)).fetchone()
            return None if found is None else Row(f"setting '{key}'").json("value", found[0])

    def keep_setting(self, key: str, value: Any) -> None:
        """Save a setting (plain data). Committed on return. Raises StoreError."""
        with self.transaction():
            self._db.execute(
                "INSERT INTO setting (key, value) VALUES (?, ?)"
                " ON CONFLICT (key) DO UPDATE SET value = excluded.value",
                (key, json.dumps(value)),
            )

    def _repetition(self, number: int, columns: str) -> tuple[object, ...]:
        found: tuple[object, ...] | None = self._db.execute(
            f"SELECT {columns} FROM repetition WHERE id = ?", (number,)
        ).fetchone()
        if found is None:
            raise StoreError(f"{self._path}: no repetition {number}")
        return found
