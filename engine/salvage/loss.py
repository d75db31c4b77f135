"""Loss: what a damaged history had that the salvaged one has not, counted from its gaps."""

from __future__ import annotations

import sqlite3
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

from engine.salvage.gaps import Gaps, in_gap
from engine.store.repetitions import RESULT, read_result

WORDS = {
    "sitting": "sessions",
    "trial": "trials",
    "drive": "drives",
    "change": "changes",
    "rig": "rigs",
    "guess": "guesses",
}
"""What a driver calls the rows of a table."""


WITHOUT_TRACE = (
    f"rate IS NOT NULL AND {in_gap('trace', 'id')} AND id NOT IN (SELECT repetition FROM trace)"
    " AND id NOT IN (SELECT id FROM temp.complete WHERE tbl = 'trace')"
)
"""SQL condition for a repetition that was sampled, and so had a trace, which is lost."""


@dataclass(frozen=True)
class Loss:
    """What could not be read of a damaged history, and what copies of it gave back."""

    is_all: bool = False
    """Whether nothing at all could be read."""
    repetitions: int = 0
    """Number of repetitions that cannot be read, those that came from copies included."""
    first: date | None = None
    """Local day from which on they are missing; None where no neighbour tells it."""
    last: date | None = None
    """Local day up to which they are missing; None where no neighbour tells it."""
    is_open: bool = False
    """Whether later repetitions may be missing too, as the end of the file cannot be read."""
    traces: int = 0
    """Number of repetitions whose trace is lost."""
    measures: int = 0
    """Number of repetitions whose measures are lost for good, as they have no trace."""
    settings: tuple[str, ...] = ()
    """Names of the settings that are lost."""
    others: Mapping[str, int] = field(default_factory=dict)
    """Number of other rows that are lost, by what a driver calls them, such as "sessions"."""
    unsure: tuple[str, ...] = ()
    """What may be lost too, nobody knows how many of it, such as "settings" or "sessions"."""
    filled: Mapping[Path, int] = field(default_factory=dict)
    """Number of repetitions that came from each copy, by its path."""


def note_traces_of_lost(db: sqlite3.Connection, gaps: Gaps) -> None:
    """Note as missing the repetitions of which only a trace or measures are left.

    A single measure may be one of another repetition with a damaged number. Raises sqlite3.Error.
    """
    found = db.execute(
        "SELECT repetition FROM trace WHERE repetition NOT IN (SELECT id FROM repetition) UNION"
        " SELECT repetition FROM measure WHERE repetition NOT IN (SELECT id FROM repetition)"
        " GROUP BY repetition HAVING count(*) > 1"
    )
    for (number,) in found.fetchall():
        gaps.add("repetition", number, number)


INCOMPLETE_DRIVE = (
    f"{in_gap('drive_blip', 'id')}"
    " AND id NOT IN (SELECT id FROM temp.complete WHERE tbl = 'drive_blip')"
)
"""SQL condition for a drive of which blips may be missing."""


def note_incomplete(db: sqlite3.Connection, gaps: Gaps) -> None:
    """Note as missing what is of no use without something that is lost.

    That are measures and guesses without their names, and drives without all of their blips.
    Raises sqlite3.Error.
    """
    for (number,) in db.execute(f"SELECT id FROM drive WHERE {INCOMPLETE_DRIVE}"):
        gaps.add("drive", number, number)
    for table, name in (("measure", "name"), ("guess", "measure")):
        found = db.execute(
            f"SELECT DISTINCT repetition FROM {table}"
            f" WHERE {name} NOT IN (SELECT id FROM measure_name)"
        )
        for (number,) in found.fetchall():
            gaps.add(table, number, number)


def greatest_repetition(db: sqlite3.Connection) -> int:
    """Greatest number of a repetition that rows tell of; 0 for none. Raises sqlite3.Error.

    Traces and measures of later repetitions than those that are stored are believed as long as
    there are some of at least every other one: a damaged number stands alone.
    """
    stored = int(db.execute("SELECT coalesce(max(id), 0) FROM repetition").fetchone()[0])
    later = db.execute(
        "SELECT repetition FROM trace WHERE repetition > :stored UNION"
        " SELECT repetition FROM measure WHERE repetition > :stored"
        " GROUP BY repetition HAVING count(*) > 1 ORDER BY repetition",
        {"stored": stored},
    )
    greatest = stored
    for rank, (number,) in enumerate(later, start=1):
        if number - stored <= 2 * rank:
            greatest = int(number)
    return greatest


def references(db: sqlite3.Connection, gaps: Gaps) -> dict[str, int]:
    """Greatest number of a missing session, trial or rig that a repetition refers to.

    Raises sqlite3.Error.
    """
    return {
        table: max(
            (
                int(number)
                for (number,) in db.execute(
                    f"SELECT DISTINCT {table} FROM repetition WHERE {table} > 0"
                    f" AND {table} NOT IN (SELECT id FROM {table})"
                )
                if gaps.hold(table, number)
            ),
            default=0,
        )
        for table in ("sitting", "trial", "rig")
    }


@dataclass(frozen=True)
class Before:
    """What was known of a damaged history before its references were settled."""

    greatest: int
    """Greatest number of a repetition that rows told of."""
    referred: Mapping[str, int]
    """Greatest number of a missing row of a table that a repetition refers to."""
    is_cut: bool
    """Whether pages of the file are lost altogether."""
    settings: frozenset[str]
    """Names of the settings that could not be read, as far as they are known."""
    has_anything: bool
    """Whether any row of the damaged file could be read."""


def count_loss(
    db: sqlite3.Connection,
    gaps: Gaps,
    before: Before,
    filled: Sequence[int],
    copies: Mapping[Path, int],
) -> Loss:
    """Loss of a salvaged history, with the temporary tables of `fill`.

    `filled` are the numbers of the repetitions that came from copies. Raises sqlite3.Error.
    """
    if not gaps.ranges:
        return Loss()
    gaps.save(db)
    present = _numbers(db, "repetition", "id")
    own = sorted(set(present).difference(filled))
    most = max(before.greatest, *present[-1:], 0)
    runs = gaps.missing("repetition", own, most)
    first, last = _days(db, runs)
    there = {str(key) for (key,) in db.execute("SELECT key FROM setting")}
    return Loss(
        is_all=not before.has_anything,
        repetitions=sum(map(len, runs)),
        first=first,
        last=last,
        is_open=before.is_cut
        and all(gaps.is_open(table) for table in ("repetition", "trace", "measure")),
        traces=_count(db, f"SELECT id FROM repetition WHERE {WITHOUT_TRACE}"),
        measures=_count(
            db,
            f"SELECT id FROM repetition WHERE void = 0 AND {in_gap('measure', 'id')}"
            " AND id NOT IN (SELECT repetition FROM measure)"
            " AND id NOT IN (SELECT repetition FROM trace)",
        ),
        settings=tuple(sorted(before.settings - there)),
        others=_others(db, gaps, before),
        unsure=() if _count(db, "SELECT 1 FROM temp.complete") else _unsure(gaps),
        filled=copies,
    )


def _others(db: sqlite3.Connection, gaps: Gaps, before: Before) -> dict[str, int]:
    lost = {}
    for table, word in WORDS.items():
        present = _numbers(db, table, "repetition" if table == "guess" else "id")
        most = max(before.referred.get(table, 0), *present[-1:], 0)
        ranges = gaps.ranges.get(table, [])
        named = {low for low, high in ranges if low == high and isinstance(low, int)}
        most = max([most, *named])
        if table == "guess":
            # Few repetitions have one: only those are known that were read and refused.
            count = len(named.difference(present))
        else:
            count = sum(map(len, gaps.missing(table, present, most)))
        if count:
            lost[word] = count
    return lost


def _unsure(gaps: Gaps) -> tuple[str, ...]:
    """What may be lost of which no row tells how many there were."""
    unnamed = {
        table
        for table in ("setting", "guess")
        if any(low is None or low != high for low, high in gaps.ranges.get(table, []))
    }
    words = {"setting": "settings", **WORDS}
    return tuple(word for table, word in words.items() if table in unnamed or gaps.is_open(table))


def _numbers(db: sqlite3.Connection, table: str, column: str) -> list[int]:
    found = db.execute(f"SELECT {column} FROM {table} ORDER BY {column}")
    return [int(number) for (number,) in found]


def _count(db: sqlite3.Connection, statement: str) -> int:
    return int(db.execute(f"SELECT count(*) FROM ({statement})").fetchone()[0])


def _days(db: sqlite3.Connection, runs: Sequence[range]) -> tuple[date | None, date | None]:
    """Local days of the repetitions before and after the missing ones, or of these themselves."""
    if not runs:
        return None, None
    first = db.execute(
        f"{RESULT} WHERE id <= ? ORDER BY id DESC LIMIT 1", (runs[0].start,)
    ).fetchone()
    last = db.execute(
        f"{RESULT} WHERE id >= ? ORDER BY id LIMIT 1", (runs[-1].stop - 1,)
    ).fetchone()
    return (
        None if first is None else read_result(first).day,
        None if last is None else read_result(last).day,
    )
