"""The traces as CSV: a file for each bundle of repetitions, with a row for each change.

Axis counts and percent have files of their own, as their columns differ. A trace comes back to the
byte: counts by filling the milliseconds between changes, percent as the samples that were kept.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import ExitStack, closing
from dataclasses import dataclass
from enum import StrEnum
from itertools import groupby, repeat
from operator import itemgetter
from pathlib import Path

import numpy as np

from drills.calibration import COUNTS
from drills.counts import Counts
from drills.trace import STEP, Pedal, Times, Trace
from engine.store.cells import CellError, Row
from engine.store.raw import LONGEST, RawTrace
from engine.store.sheets import Listed, SheetIn, SheetOut
from engine.store.traces import read_trace

BUNDLE = 500
"""count of repetitions in a file: 80 MB where a device reports every millisecond, and some seconds
of work."""
LATEST = 10**18
"""ns, thirty years: no trace begins or ends farther from its origin."""


PEDALS = tuple(Pedal)
"""In the order of their columns."""


class Held(StrEnum):
    """How a trace is kept."""

    COUNTS = "counts"
    PERCENT = "percent"

    @property
    def headers(self) -> list[str]:
        """The first row of its files."""
        unit = "%" if self is Held.PERCENT else "counts"
        return ["repetition", "time (ns)", *(f"{one} ({unit})" for one in PEDALS)]


@dataclass(frozen=True)
class Traced:
    """One trace, as the list of them says it."""

    repetition: int
    """Its number."""
    calibration: int | None
    """Number of the calibration that its pedals were read through; None where not known."""
    held: Held
    """How it is kept."""
    rows: int
    """count of its rows."""


@dataclass(frozen=True)
class ToWrite:
    """A bundle to be written, on whatever core."""

    history: Path
    """The history file."""
    folder: Path
    """Where to."""
    first: int
    """The first repetition that may be in it."""


@dataclass(frozen=True)
class ToRead:
    """A bundle to be read, on whatever core."""

    folder: Path
    """Where from."""
    first: int
    """The first repetition that may be in it."""
    traced: tuple[Traced, ...]
    """What must be in it, in order."""
    listed: Mapping[str, Listed]
    """What its files must come to, by name."""
    clutches: frozenset[int]
    """Numbers of the calibrations that have a clutch."""


@dataclass(frozen=True)
class Packed:
    """A trace as it is put into the history."""

    repetition: int
    """Its number."""
    calibration: int | None
    """Number of its calibration; None where not known."""
    packed: bytes
    """The trace."""


def first_of(repetition: int) -> int:
    """The first repetition that may be in a bundle with this one."""
    return repetition - (repetition - 1) % BUNDLE


def file_of(first: int, held: Held) -> str:
    """Name of the file of a bundle."""
    return f"traces-{first:06}-{held}.csv"


def write_bundle(job: ToWrite) -> tuple[list[Traced], list[Listed]]:
    """Write the files of a bundle; what is in it. Raises CellError, sqlite3.Error, OSError."""
    written: list[Traced] = []
    with ExitStack() as stack:
        db = stack.enter_context(closing(sqlite3.connect(job.history)))
        found = db.execute(
            "SELECT repetition, calibration FROM trace WHERE repetition BETWEEN ? AND ?"
            " ORDER BY repetition",
            (job.first, job.first + BUNDLE - 1),
        ).fetchall()
        sheets: dict[Held, SheetOut] = {}
        for number, calibration in found:
            trace = read_trace(db, number)
            held = Held.COUNTS if isinstance(trace, RawTrace) else Held.PERCENT
            if held not in sheets:
                sheet = SheetOut(job.folder / file_of(job.first, held), held.headers)
                sheets[held] = stack.enter_context(sheet)
            rows = _rows_of(number, trace)
            written.append(Traced(number, calibration, held, sheets[held].write(rows)))
    return written, [sheet.listed for sheet in sheets.values()]


def read_bundle(job: ToRead) -> list[Packed]:
    """The traces of a bundle, packed, in order. Raises CellError."""
    packed: dict[int, Packed] = {}
    for held in Held:
        traced = [one for one in job.traced if one.held is held]
        if traced:
            packed |= {one.repetition: one for one in _read_file(job, held, traced)}
    return [packed[one.repetition] for one in job.traced]


def _rows_of(number: int, trace: RawTrace | Trace | None) -> Iterable[Sequence[object]]:
    """The rows of a trace: counts where something changes, and all the samples of percent."""
    assert trace is not None
    if isinstance(trace, Trace):
        time = trace.time
        pedals: list[list[float]] = [trace.brake.tolist(), trace.throttle.tolist()]
        if trace.clutch is not None:
            pedals.append(trace.clutch.tolist())
    else:
        at = _changes(number, trace.counts)
        time = trace.counts.start + STEP * at
        pedals = [pedal[at].tolist() for pedal in trace.counts.pedals]
    clutch: Iterable[object] = pedals[2] if len(pedals) > 2 else repeat("")
    return zip(repeat(number), time.tolist(), *pedals[:2], clutch)


def _changes(number: int, counts: Counts) -> Times:
    """The grid points where a pedal changes, and the first and the last. Raises CellError."""
    keep = np.zeros(counts.brake.size, dtype=bool)
    keep[[0, -1]] = True
    for pedal in counts.pedals:
        keep[1:] |= pedal[1:] != pedal[:-1]
        if np.abs(pedal).max() > COUNTS or pedal.size > LONGEST + 1:
            raise CellError(
                f"repetition {number}: trace: expected {LONGEST + 1} counts at most, "
                f"from -{COUNTS} to {COUNTS}, found {pedal.size} to {np.abs(pedal).max()}"
            )
    return np.flatnonzero(keep)


def _read_file(job: ToRead, held: Held, traced: Sequence[Traced]) -> Iterator[Packed]:
    name = file_of(job.first, held)
    if name not in job.listed:
        raise CellError(f"{job.folder / 'about.csv'}: expected a row of {name}, found none")
    sheet = SheetIn(job.folder / name, held.headers, job.listed[name])
    found = groupby(sheet.rows(), itemgetter(0))
    line = 2
    for one in traced:
        number, group = next(found, ("nothing more", iter(())))
        rows = list(group)
        place = f"{job.folder / name}: line {line}: repetition"
        if number != str(one.repetition):
            raise CellError(f"{place}: expected {one.repetition}, found {number:.40}")
        if len(rows) != one.rows:
            raise CellError(f"{place}: expected {one.rows} rows of {number}, found {len(rows)}")
        has_clutch = one.calibration in job.clutches
        yield Packed(
            one.repetition,
            one.calibration,
            _packed(held, rows, job.folder / name, line, has_clutch),
        )
        line += len(rows)
    for number, _ in found:
        raise CellError(
            f"{job.folder / name}: line {line}: repetition: expected no more, found {number:.40}"
        )


def _packed(held: Held, rows: list[list[str]], path: Path, line: int, has_clutch: bool) -> bytes:
    """A trace from its rows, of which the first stands on a line. Raises CellError."""
    _, times, *pedals = zip(*rows, strict=True)
    if not any(pedals[-1]):
        pedals = pedals[:-1]
    number: Callable[[str], float] = int if held is Held.COUNTS else float
    try:
        time = np.array([int(one) for one in times], dtype=np.int64)
        columns = [np.array([number(one) for one in pedal]) for pedal in pedals]
    except (ValueError, OverflowError):
        raise _wrong(held, rows, path, line, has_clutch) from None
    good = abs(time[0]) <= LATEST and abs(time[-1]) <= LATEST and (np.diff(time) > 0).all()
    if held is Held.PERCENT:
        if good:
            return Trace(time, *columns).pack()
    elif good and _are_counts(time, columns, has_clutch):
        points = (time - time[0]) // STEP
        lasts = np.diff(points, append=points[-1] + 1)
        return Counts(int(time[0]), *(np.repeat(column, lasts) for column in columns)).pack()
    raise _wrong(held, rows, path, line, has_clutch)


def _are_counts(time: Times, columns: Sequence[np.ndarray], has_clutch: bool) -> bool:
    since = time - time[0]
    return bool(
        (len(columns) == 2 or has_clutch)
        and not (since % STEP).any()
        and since[-1] <= LONGEST * STEP
        and all(column.dtype == np.int64 and np.abs(column).max() <= COUNTS for column in columns)
    )


def _wrong(held: Held, rows: list[list[str]], path: Path, line: int, has_clutch: bool) -> CellError:
    """What is wrong with a trace that is, by its line and column."""
    with_clutch = any(cells[-1] for cells in rows)
    before = first = None
    for number, cells in enumerate(rows, start=line):
        place = Row(f"{path}: line {number}")
        named = dict(zip(held.headers, cells, strict=True))
        time = _whole(named.pop("time (ns)"))
        del named["repetition"]
        if time is None or abs(time) > LATEST:
            return place.refusal(
                "time (ns)", f"a whole number from -{LATEST} to {LATEST}", cells[1]
            )
        if before is not None and time <= before:
            return place.refusal("time (ns)", f"more than {before}", cells[1])
        before, first = time, time if first is None else first
        if held is Held.COUNTS and (time - first) % STEP:
            return place.refusal("time (ns)", f"whole milliseconds after {first}", cells[1])
        if held is Held.COUNTS and time - first > LONGEST * STEP:
            return place.refusal("time (ns)", f"at most {first + LONGEST * STEP}", cells[1])
        if not with_clutch:
            del named[held.headers[-1]]
        elif held is Held.COUNTS and not has_clutch:
            return place.refusal(
                held.headers[-1], "nothing, as its calibration has no clutch", cells[-1]
            )
        for header, text in named.items():
            if held is Held.PERCENT:
                try:
                    float(text)
                except ValueError:
                    return place.refusal(header, "a number", text)
            elif (count := _whole(text)) is None or abs(count) > COUNTS:
                return place.refusal(header, f"a whole number from -{COUNTS} to {COUNTS}", text)
    return CellError(f"{path}: line {line}: expected a trace")


def _whole(text: str) -> int | None:
    try:
        return int(text)
    except ValueError:
        return None
