"""Ways in which a history file comes to be damaged."""

import random
import sqlite3
from collections.abc import Callable
from contextlib import closing, suppress
from dataclasses import dataclass
from pathlib import Path

PAGE = 1024
"""Bytes of a page of a history file."""
ENDS = (0, 1, 99, 100)
"""Lengths in bytes that a file is cut to before any other."""
ODD = (
    "CAST(x'FF80C3' AS TEXT)",
    "CAST(x'00' AS TEXT)",
    "x'00FF'",
    "NULL",
    "''",
    "'ten'",
    "-1",
    "9223372036854775807",
    "1e308",
    "'[1, 2'",
    "'{}'",
    "'[[[[[[[[' || hex(zeroblob(500))",
)
"""SQL values that no cell of a history should hold, as disks and other programs leave them."""
CELLS = (
    ("repetition", ("at_utc", "offset", "level", "kind", "reason", "score", "source", "over")),
    ("repetition", ("target", "clean", "void", "cues", "drawn", "why", "took", "rig")),
    ("measure_name", ("name",)),
    ("calibration", ("ends",)),
    ("trial", ("began_utc", "level", "a", "b", "seed")),
    ("drive", ("at_utc", "name", "digest", "seconds")),
    ("change", ("at_utc", "what", "note", "old_ends")),
    ("rig", ("name", "note", "binding")),
    ("sitting", ("what", "began_utc", "day", "minutes")),
    ("guess", ("value",)),
)
"""Cells that a command may read, by their table."""
LEDGER = (
    ("progress", ("latest", "passed", "best", "top")),
    ("day", ("day", "counted", "clean", "streak", "unbroken")),
    ("clean_row", ("count", "best")),
    ("keeping", ("due", "outlasted", "missed", "first")),
)
"""Cells of the ledger, which can be made again from the repetitions."""


@dataclass(frozen=True)
class Damage:
    """Something that happens to a history file."""

    name: str
    """One word for the table."""
    do: Callable[[Path, random.Random, int], None]
    """Damages a file; told how many files were damaged in this way before."""
    in_cell: bool = False
    """Whether only cells are damaged, and the database is still one: nothing may be refused."""


def cut(file: Path, rng: random.Random, before: int) -> None:
    """Cut the end off."""
    size = file.stat().st_size
    with file.open("r+b") as stream:
        stream.truncate(ENDS[before] if before < len(ENDS) else rng.randrange(size))


def bytes_of(file: Path, rng: random.Random, _: int) -> None:
    """Change one to eight bytes anywhere."""
    _change(file, rng, file.stat().st_size, rng.randint(1, 8))


def schema(file: Path, rng: random.Random, _: int) -> None:
    """Change bytes in the first page: the header and the definitions of tables."""
    _change(file, rng, PAGE, rng.randint(1, 8))


def zeros(file: Path, rng: random.Random, _: int) -> None:
    """Set one to eight pages to zero."""
    pages = file.stat().st_size // PAGE
    with file.open("r+b") as stream:
        stream.seek(rng.randrange(pages) * PAGE)
        stream.write(bytes(PAGE * min(rng.randint(1, 8), pages)))


def settings(file: Path, rng: random.Random, _: int) -> None:
    """Set a setting to something else."""
    with closing(sqlite3.connect(file)) as db, db:
        keys = [row[0] for row in db.execute("SELECT key FROM setting ORDER BY key")]
        _set(db, "setting", "value", rng, f"key = '{rng.choice(keys)}'")


def cells(file: Path, rng: random.Random, _: int) -> None:
    """Set a cell of a repetition, or of what else was done, to something else."""
    _set_one_of(CELLS, file, rng)


def ledger(file: Path, rng: random.Random, _: int) -> None:
    """Set a cell of the ledger to something else."""
    _set_one_of(LEDGER, file, rng)


def traces(file: Path, rng: random.Random, _: int) -> None:
    """Change a byte of a trace, or put something else in its place."""
    with closing(sqlite3.connect(file)) as db, db:
        found = db.execute("SELECT repetition, packed FROM trace ORDER BY repetition").fetchall()
        number, packed = rng.choice(found)
        if rng.random() < 0.5:
            changed = bytearray(packed)
            changed[rng.randrange(len(changed))] ^= rng.randint(1, 255)
            db.execute("UPDATE trace SET packed = ? WHERE repetition = ?", (changed, number))
        else:
            _set(db, "trace", "packed", rng, f"repetition = {number}")


WAYS = (
    Damage("cut", cut),
    Damage("bytes", bytes_of),
    Damage("traces", traces, in_cell=True),
    Damage("zeros", zeros),
    Damage("cells", cells, in_cell=True),
    Damage("schema", schema),
    Damage("settings", settings, in_cell=True),
    Damage("ledger", ledger, in_cell=True),
)
"""All ways, in the order in which files are damaged by them."""


def _change(file: Path, rng: random.Random, size: int, count: int) -> None:
    """Change so many of the first bytes of a file."""
    with file.open("r+b") as stream:
        for _ in range(count):
            place = rng.randrange(size)
            stream.seek(place)
            [before] = stream.read(1)
            stream.seek(place)
            stream.write(bytes([before ^ rng.randint(1, 255)]))


def _set_one_of(
    tables: tuple[tuple[str, tuple[str, ...]], ...], file: Path, rng: random.Random
) -> None:
    table, columns = rng.choice(tables)
    with closing(sqlite3.connect(file)) as db, db:
        rows = int(db.execute(f"SELECT count(*) FROM {table}").fetchone()[0])
        key = db.execute(f"SELECT name FROM pragma_table_info('{table}') WHERE pk = 1").fetchone()[
            0
        ]
        place = rng.randrange(max(rows, 1))
        where = f'"{key}" = (SELECT "{key}" FROM {table} LIMIT 1 OFFSET {place})'
        _set(db, table, rng.choice(columns), rng, where)


def _set(db: sqlite3.Connection, table: str, column: str, rng: random.Random, where: str) -> None:
    """Set a cell to a value that it should not hold, one of those that the schema lets in."""
    for value in rng.sample(ODD, len(ODD)):
        with suppress(sqlite3.IntegrityError):
            db.execute(f'UPDATE {table} SET "{column}" = {value} WHERE {where}')
            return
