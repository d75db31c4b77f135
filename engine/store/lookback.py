"""What a history holds beside daily practice, trials, drives and changes, and looking back."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date, datetime

import numpy as np
from numpy.typing import NDArray

from drills.again import Measures
from engine.practice.changes import Change, Changed
from engine.practice.course import Course
from engine.road.drive import Drive
from engine.store import anew, courses, drives, repetitions, trials
from engine.store.file import HistoryFile
from engine.store.records import StoreError
from engine.trial.trial import SetUp, Trial


class Lookback(HistoryFile):
    """The part of a history that progress, trials and the road are told from."""

    def begin_trial(
        self, at: datetime, level: str, arms: tuple[SetUp, SetUp], pairs: int, seed: int
    ) -> int:
        """Keep that a trial of two set-ups begins; its number. Raises StoreError."""
        with self.transaction():
            return trials.begin(self._db, at, level, arms, pairs, seed)

    def trial_under_way(self) -> Trial | None:
        """The newest of the trials that are not over. Raises StoreError."""
        with self.reading():
            return trials.under_way(self._db)

    def trials(self) -> list[Trial]:
        """Every trial, oldest first. Raises StoreError."""
        with self.reading():
            return trials.trials(self._db)

    def end_trial(self, number: int) -> None:
        """Keep that a trial is over. Raises StoreError."""
        with self.transaction():
            if not trials.end(self._db, number):
                raise StoreError(f"{self.path}: no trial {number}")

    def keep_drive(self, drive: Drive) -> int:
        """Keep a recorded drive; its number. Raises StoreError, also where it is kept already."""
        with self.transaction():
            if drives.drive_of(self._db, drive.digest) is not None:
                raise StoreError(f"{drive.name}: this recording is in the history already")
            return drives.keep_drive(self._db, drive)

    def drives(self) -> list[Drive]:
        """Every recorded drive, oldest first. Raises StoreError."""
        with self.reading():
            return drives.drives(self._db)

    def drive_of(self, digest: str) -> Drive | None:
        """The drive of a recording, by its SHA-256; None where it is not kept.

        Raises StoreError.
        """
        with self.reading():
            return drives.drive_of(self._db, digest)

    def mark_change(self, at: datetime, what: Changed, note: str = "") -> None:
        """Keep that something was changed before the next repetition. Raises StoreError."""
        with self.transaction():
            change = Change(at, what, repetitions.newest(self._db), note)
            drives.keep_change(self._db, change)

    def changes(self) -> list[Change]:
        """Every change that was marked, oldest first. Raises StoreError."""
        with self.reading():
            return drives.changes(self._db)

    def newest(self) -> int:
        """Number of the newest repetition; 0 where there is none. Raises StoreError."""
        with self.reading():
            return repetitions.newest(self._db)

    def keep_measures(self, others: Iterable[tuple[int, Measures]]) -> None:
        """Keep other measures of repetitions in the place of theirs, all or none.

        Verdict, score and what is passed stay as they were told. Raises StoreError.
        """
        with self.reading():
            anew.keep_measures(self._db, others)

    def courses(self, wanted: Mapping[str, str]) -> dict[str, Course]:
        """The course of one measure for each kind of drill, by the names of kind and measure.

        Of all that counts but trials; the time grows with the history. Raises StoreError.
        """
        with self.reading():
            return courses.courses(self._db, wanted)

    def values(self, kind: str, measure: str) -> NDArray[np.float64]:
        """Another measure over the course of a kind, in its order; nan where it has none.

        Raises StoreError.
        """
        with self.reading():
            return courses.values(self._db, kind, measure)

    def days(self) -> list[tuple[date, int]]:
        """Every local day with practice and how many repetitions counted on it, in order.

        Raises StoreError.
        """
        with self.reading():
            return courses.days(self._db)

    def numbers(self, kind: str, first: date, last: date) -> list[int]:
        """Numbers of the repetitions of a kind that count and have a trace, oldest first.

        Those of local days from `first` to `last`; no trial's. Raises StoreError.
        """
        with self.reading():
            return courses.numbers(self._db, kind, first, last)
