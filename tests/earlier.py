"""Histories that were measured by an earlier definition, for tests of remeasuring."""

import sqlite3
from contextlib import closing
from pathlib import Path

from drills.measures.definition import DEFINITION
from engine.ladder.level_files import SHIPPED, load_band, load_levels
from engine.store import Record, open_history
from engine.store.history import FILE
from engine.store.repetitions import add_repetition
from tests.simulated_repetitions import counted

LEVELS = [*load_levels([SHIPPED]), load_band()]
BY_ID = {level.id: level for level in LEVELS}
PLAYED = ("blip-2b-moving", "steadiness-band", "ease-2-quick")
EARLIER = DEFINITION - 1
OFF = 0.5
"""Amount by which an earlier definition's measures are off those of today, in their units."""


def played() -> list[Record]:
    """One repetition that counts of each of some levels."""
    return [next(counted(BY_ID[name], 0.5, seed)) for seed, name in enumerate(PLAYED, start=1)]


def make_earlier(folder: Path, records: list[Record], times: int) -> Path:
    """Store repetitions some times over, as an earlier definition measured them; its file."""
    with open_history(folder, []) as history:
        history.keep_setting("cautions read", True)
        for _ in range(times):
            for record in records:
                add_repetition(history, record)
    change(folder, f"UPDATE repetition SET definition = {EARLIER}, verdict_definition = {EARLIER}")
    change(folder, f"UPDATE measure SET value = value + {OFF}")
    return folder / FILE


def change(folder: Path, statement: str) -> None:
    """Run an SQL statement on a history."""
    with closing(sqlite3.connect(folder / FILE)) as other, other:
        other.execute(statement)


def rows(file: Path, statement: str) -> list[tuple[object, ...]]:
    """Rows of an SQL statement on a history file."""
    with closing(sqlite3.connect(file)) as other:
        return other.execute(statement).fetchall()


def measured(file: Path) -> list[tuple[object, ...]]:
    """All measures of a history file."""
    names = "SELECT repetition, measure_name.name, value FROM measure"
    return rows(file, f"{names} JOIN measure_name ON measure_name.id = measure.name ORDER BY 1, 2")


def verdicts(file: Path) -> list[tuple[object, ...]]:
    """All verdicts of a history file, with the ledger's passes."""
    columns = "id, score, clean, void, reason, over, verdict_definition"
    repetitions = rows(file, f"SELECT {columns} FROM repetition ORDER BY id")
    return [*repetitions, *rows(file, "SELECT * FROM progress ORDER BY level")]
