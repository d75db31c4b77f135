"""Automatic copies in tests: made at once, and disks of any size."""

from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from pathlib import Path

from engine.store import History
from engine.store.copies import PAGES, DiskUsage, automatic_copies, make_copy
from engine.store.opening import PAGE
from engine.store.repetitions import add_repetition
from tests.made import record

HUGE = 10**15
"""Free space of a disk on which everything has room, in bytes."""


@dataclass(frozen=True)
class Disk:
    """A disk with some free space, as `shutil.disk_usage` tells of it."""

    free: int
    """Free space, in bytes."""


def disk(free: int = HUGE) -> DiskUsage:
    """Usage of a disk with so many free bytes."""
    return lambda _: Disk(free)


def practise(history: History, day: date) -> None:
    """Store a repetition on a local day."""
    at = record().at
    noon = datetime(day.year, day.month, day.day, 12, tzinfo=at.tzinfo)
    add_repetition(history, replace(record(), at=noon))


def fill(history: History) -> None:
    """Make a history so long that a copy of it takes ten steps at least."""
    history.keep_setting("long", "x" * (10 * PAGES * PAGE))


def copy(history: History, day: date, usage: DiskUsage = disk()) -> None:  # noqa: B008
    """Practise on a day, and make its copy."""
    practise(history, day)
    make_copy(history, day, lambda: None, usage)


def copy_many(history: History, first: date, days: int) -> None:
    """Practise on some days in a row, and make the copy of each."""
    for number in range(days):
        copy(history, first + timedelta(days=number))


def days_in(folder: Path) -> list[str]:
    """Days of the automatic copies in a folder."""
    return [one.day.isoformat() for one in automatic_copies(folder)]
