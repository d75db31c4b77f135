"""Histories of a month and of ten years, which are that month over and over on later days."""

import shutil
import sqlite3
from contextlib import closing
from dataclasses import dataclass, replace
from datetime import timedelta
from pathlib import Path

from drills.calibration import Calibration, Range
from engine.store import Record, open_history
from engine.store.history import FILE
from engine.store.repetitions import add_repetition
from tests.bench.simulated_practice import FIRST, Device
from tests.stored import rebuild_ledger


@dataclass(frozen=True)
class Size:
    """How long a history is."""

    days: int = 30
    """Days with practice in its month, which lasts so many days."""
    a_day: int = 60
    """Repetitions on each day."""
    months: int = 122
    """Months of the long history: ten years, or 219,600 repetitions."""

    @property
    def month(self) -> int:
        """Repetitions in the month."""
        return self.days * self.a_day


WIDE = Calibration(Range(-0.945, 0.885), Range(-0.945, 0.885))
USUAL = Device("12 bits, 1000 Hz", 8, 0.0, 1)
DEVICES = (
    Device("12 bits, 125 Hz, noise 1", 8, 1.0, 8),
    Device("12 bits, 250 Hz, noise 1", 8, 1.0, 4),
    USUAL,
    Device("12 bits, 1000 Hz, noise 0.5", 8, 0.5, 1),
    Device("16 bits, 250 Hz, noise 4", 1, 4.0, 4, WIDE),
    Device("16 bits, 1000 Hz, noise 4", 1, 4.0, 1, WIDE),
)


def make_month(folder: Path, day: list[Record], size: Size) -> None:
    """Put the same day of practice on every day of a month into a folder."""
    with open_history(folder, []) as history:
        history.keep_setting("cautions read", True)
        for number in range(size.month):
            at = FIRST + timedelta(days=number // size.a_day, seconds=number % size.a_day)
            add_repetition(history, replace(day[number % size.a_day], at=at))


def make_years(month: Path, folder: Path, size: Size) -> None:
    """Put the month over and over into a folder, each time so many days later."""
    folder.mkdir()
    shutil.copy(month / FILE, folder / FILE)
    with closing(sqlite3.connect(folder / FILE, isolation_level=None)) as db:
        columns = [row[1] for row in db.execute("PRAGMA table_info(repetition)")]
        changed = {
            "id": "id + :by",
            "at_utc": "strftime('%Y-%m-%dT%H:%M:%f+00:00', at_utc, :days)",
        }
        later = ", ".join(changed.get(name, name) for name in columns)
        tables = [
            ("repetition", later, "id"),
            ("measure", "repetition + :by, name, value", "repetition"),
            ("trace", "repetition + :by, calibration, packed", "repetition"),
        ]
        db.execute("BEGIN")
        for again in range(1, size.months):
            shift = {
                "by": again * size.month,
                "days": f"+{again * size.days} days",
                "size": size.month,
            }
            for table, chosen, key in tables:
                db.execute(
                    f"INSERT INTO {table} SELECT {chosen} FROM {table} WHERE {key} <= :size", shift
                )
        db.execute("COMMIT")
    with open_history(folder, []) as history:
        rebuild_ledger(history)
