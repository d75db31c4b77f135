"""Histories that attempts begin with, made once each and copied."""

import shutil
import sqlite3
from contextlib import closing
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from functools import cache
from pathlib import Path
from tempfile import mkdtemp

from drills.health.pedal import measure_health
from drills.health.raw_file import written
from drills.measures.definition import DEFINITION
from engine.game.flow import CAUTIONS_READ
from engine.ladder.level_files import SHIPPED, load_band, load_levels
from engine.store import open_history
from engine.store.history import FILE
from engine.store.repetitions import add_repetition
from tests.drills.health.virtual import Virtual, read
from tests.engine.commands.recordings import recording
from tests.made import record
from tests.simulated_repetitions import counted
from tests.store import whole
from tests.stored import rebuild_ledger

LEVELS = (*load_levels([SHIPPED]), load_band())
REPETITIONS = 30
"""Repetitions with traces beside those of `whole`, on ten days."""
BEGAN = datetime(2024, 5, 1, 18, tzinfo=UTC)
MANY = 14
"""Times that the repetitions are there in a long history."""


@cache
def _kept() -> Path:
    """Folder of the histories, which goes with the process (see `forget`)."""
    return Path(mkdtemp(prefix="campaign-histories-"))


def forget() -> None:
    """Remove the histories that were made."""
    shutil.rmtree(_kept(), ignore_errors=True)


@cache
def usual() -> Path:
    """History file with something of everything: ten days of practice and what `whole` has."""
    folder = _kept() / "usual"
    whole.make(folder)
    level = next(level for level in LEVELS if level.id == "blip-1-first")
    simulated = [next(counted(level, 0.5, seed)) for seed in (1, 2, 3)]
    with open_history(folder, LEVELS) as history:
        history.keep_setting(CAUTIONS_READ, True)
        for number in range(REPETITIONS):
            at = BEGAN + timedelta(days=number // 3, minutes=number)
            made = replace(simulated[number % 3], at=at, source="pedals", feet=True)
            add_repetition(history, made if number % 5 else record(at=at))
    return folder / FILE


@cache
def long() -> Path:
    """History file of 500 repetitions that were measured by an earlier definition.

    A backup, restore or remeasurement of it takes long enough to be ended in the middle.
    """
    folder = _kept() / "long"
    folder.mkdir()
    shutil.copy(usual(), folder / FILE)
    with closing(sqlite3.connect(folder / FILE, isolation_level=None)) as db:
        size = int(db.execute("SELECT max(id) FROM repetition").fetchone()[0])
        columns = [row[1] for row in db.execute("PRAGMA table_info(repetition)")]
        later = {"id": "id + :by", "at_utc": "strftime('%Y-%m-%dT%H:%M:%f+00:00', at_utc, :days)"}
        chosen = ", ".join(later.get(name, f'"{name}"') for name in columns)
        db.execute("BEGIN")
        for again in range(1, MANY):
            shift = {"by": again * size, "days": f"+{again * 20} days", "size": size}
            for table, what, key in (
                ("repetition", chosen, "id"),
                ("measure", "repetition + :by, name, value", "repetition"),
                ("trace", "repetition + :by, calibration, packed", "repetition"),
            ):
                db.execute(
                    f"INSERT INTO {table} SELECT {what} FROM {table} WHERE {key} <= :size", shift
                )
        db.execute(f"UPDATE repetition SET definition = {DEFINITION - 1}")
        db.execute("UPDATE measure SET value = value + 0.5")
        db.execute("COMMIT")
    with open_history(folder, LEVELS) as history:
        rebuild_ledger(history)
    return folder / FILE


@cache
def drive() -> Path:
    """Recording of a drive with two blips, as CSV."""
    folder = _kept() / "drive"
    folder.mkdir()
    return recording(folder).rename(folder / "drive.csv")


@cache
def health() -> Path:
    """Raw counts of a health check, as `stillfoot pedals --save` writes them."""
    known = read(Virtual(12, 125, noise=0.05))
    file = _kept() / "health.txt"
    file.write_text(written(known.raw, measure_health(known.raw)), encoding="utf-8")
    return file


def copied(file: Path, folder: Path) -> Path:
    """Copy of a history file as the history of a data folder."""
    folder.mkdir(parents=True, exist_ok=True)
    shutil.copy(file, folder / FILE)
    return folder / FILE


def filled(line: str, new: Path, backup: Path | None = None) -> list[str]:
    """Command line with places filled in: NEW, BACKUP, DRIVE and HEALTH.

    NEW is a folder for new files, which is made here; `backup` is a good backup (None: the long
    history).
    """
    new.mkdir(exist_ok=True)
    places = {
        "NEW": new,
        "BACKUP": backup or long(),
        "DRIVE": drive(),
        "HEALTH": health(),
    }
    words = line.split()
    for name, place in places.items():
        words = [word.replace(name, str(place)) for word in words]
    return words
