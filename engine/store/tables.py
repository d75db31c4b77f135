"""The tables of a history as CSV, one literal each, in the order that they can be put in.

The ledger is none of them, as it is made from the repetitions; nor are the traces: see bundles.py.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from drills.measures.catalogue import CATALOGUE
from drills.score import Reason
from engine.practice.changes import Changed
from engine.practice.passes import LATEST
from engine.practice.results import LONGEST, Purpose, SessionKind
from engine.store.cells import MOST, Row
from engine.store.columns import Cell, Check, Column, Table
from engine.store.moments import cells_of
from engine.store.raw import calibration_from_json
from engine.store.trials import set_up_of
from engine.trial.trial import FEWEST_PAIRS, MOST_PAIRS

REPETITIONS = "repetitions.csv"
"""File of the repetitions."""
LARGEST = 2**63 - 1
"""The largest whole number that a cell can hold."""
EAST = 24 * 60 - 1
"""min, farthest that a place is from UTC."""


def unit_of(measure: str) -> str:
    """The unit of a measure; empty for a plain number, or where it is not known any more."""
    found = CATALOGUE.get(measure)
    return "" if found is None else found.unit


def add_units(db: sqlite3.Connection) -> None:
    """Let the statements of a connection ask for the unit of a measure. Raises sqlite3.Error."""
    db.create_function("unit_of", 1, unit_of)


def _whole(header: str, value: str, least: int, most: int, **more: Any) -> Column:
    return Column(header, value, int, _between(least, most), **more)


def _real(header: str, value: str, check: Check = Row.amount) -> Column:
    return Column(header, value, float, check)


def _maybe(header: str, value: str) -> Column:
    return Column(header, value, float, Row.number, optional=True)


def _text(header: str, value: str, check: Check = Row.text, **more: Any) -> Column:
    return Column(header, value, str, check, **more)


def _between(least: int, most: int) -> Check:
    return lambda row, column, value: row.whole(column, value, least, most)


def _word(among: type[SessionKind] | type[Purpose] | type[Changed]) -> Check:
    return lambda row, column, value: row.word(column, value, among)


def _listed(holds: type[int] | type[str], expected: str) -> Check:
    def check(row: Row, column: str, value: object) -> None:
        found = row.json(column, value)
        if not isinstance(found, list) or not all(isinstance(one, holds) for one in found):
            raise row.refusal(column, expected, value)

    return check


def _ends(row: Row, _: str, value: object) -> None:
    calibration_from_json(row, value)


def _minutes(row: Row, column: str, value: object) -> None:
    row.length(column, value, LONGEST)


def _at(column: Column) -> Callable[[Row, Mapping[str, Cell]], None]:
    return lambda row, cells: _moment(column, row, cells)


def _moment(column: Column, row: Row, cells: Mapping[str, Cell]) -> None:
    found = cells[column.value]
    at = row.moment(column.header, found, cells["offset"])
    # Python reads more ways to write one than SQLite does.
    if cells_of(at)[0] != found:
        raise row.refusal(column.header, "a date and time as 2024-05-17T18:15:30.250+00:00", found)


def _repetition(row: Row, cells: Mapping[str, Cell]) -> None:
    _moment(AT, row, cells)
    if cells["trial"] is not None:
        row.whole("block", cells["block"], 0, 2 * MOST_PAIRS - 1)
        row.word("reason", cells["reason"], Reason)


def _unit(row: Row, cells: Mapping[str, Cell]) -> None:
    unit = unit_of(str(cells["name"]))
    if cells[UNIT] != unit:
        raise row.refusal("unit", f"'{unit}'", cells[UNIT])


def _plain(file: str, table: str, columns: Sequence[Column], **more: Any) -> Table:
    """A table whose file has the very columns of the database, the first of which is its key."""
    names = ", ".join(column.value for column in columns)
    insert = f"INSERT INTO {table} ({names}) VALUES ({', '.join('?' * len(columns))})"
    order = more.pop("order", columns[0].value)
    return Table(file, table.replace("_", " "), columns, table, order, insert, **more)


ID = _whole("id", "id", 1, MOST)
OFFSET = _whole("offset (min east of UTC)", "offset", -EAST, EAST)
AT = _text("at (UTC)", "at_utc")
BEGAN = _text("began (UTC)", "began_utc")
SEED = _whole("seed", "seed", 0, LARGEST)
REPETITION = _whole("repetition", "repetition", 1, MOST, among="repetition")
MEASURE = _text("measure", "measure_name.name", among="measure")
UNIT = "unit_of(name)"
BY_NAME = "SELECT ?1, {} FROM measure_name WHERE name = ?2"

TABLES: Sequence[Table] = (
    _plain("settings.csv", "setting", (_text("key", "key"), _text("value", "value", Row.json))),
    _plain(
        "calibrations.csv",
        "calibration",
        (ID, _text("rest and full of each pedal (raw)", "ends", _ends)),
        known="calibration",
    ),
    _plain(
        "sittings.csv",
        "sitting",
        (
            *(ID, _text("what", "what", _word(SessionKind)), BEGAN, OFFSET),
            _text("local day", "day", Row.day),
            *(_real("length (min)", "minutes", _minutes), SEED),
            _whole("over (0 or 1)", "over", 0, 1),
        ),
        check=_at(BEGAN),
        known="sitting",
    ),
    _plain(
        "trials.csv",
        "trial",
        (
            *(ID, BEGAN, OFFSET, _text("level", "level")),
            *(_text("set-up A", "a", set_up_of), _text("set-up B", "b", set_up_of)),
            *(_whole("pairs", "pairs", FEWEST_PAIRS, MOST_PAIRS), SEED),
            _whole("over (0 or 1)", "over", 0, 1),
        ),
        check=_at(BEGAN),
        known="trial",
    ),
    _plain(
        REPETITIONS,
        "repetition",
        (
            *(ID, AT, OFFSET),
            *(_text(name, name) for name in ("level", "drawn", "kind", "source")),
            _whole("feet (0 or 1)", "feet", 0, 1),
            _text("why", "why", _word(Purpose)),
            _whole("sitting", "sitting", 1, MOST, optional=True, among="sitting"),
            _whole("trial", "trial", 1, MOST, optional=True, among="trial"),
            _whole("block", "block", 0, MOST, optional=True),
            *(_real("target (%)", "target"), _real("tolerance (points)", "tolerance")),
            _maybe("asked (points)", "asked"),
            _maybe("score (0 to 100)", "score"),
            *(_whole(f"{name} (0 or 1)", name, 0, 1) for name in ("clean", "void")),
            _text("reason", "reason"),
            _text("over their limit", "over", _listed(str, "a list of names")),
            _whole("pass: clean", "pass_clean", 1, LATEST),
            _whole("pass: of", "pass_of", 1, LATEST),
            _maybe("took (s)", "took"),
            _whole("dark (ns)", "dark_ns", -LARGEST, LARGEST, optional=True),
            _text("cues (ns)", "cues_ns", _listed(int, "a list of whole numbers")),
            _whole("seed", "seed", 0, LARGEST, optional=True),
            *(_maybe("rate (1/s)", "rate"), _maybe("gap, 99th percentile (s)", "gap_p99")),
            *(_maybe("gap, longest (s)", "gap_max"), _maybe("resolution (%)", "resolution")),
            _maybe("report interval (s)", "report_interval"),
        ),
        check=_repetition,
        known="repetition",
    ),
    Table(
        "measure-names.csv",
        "measure name",
        (ID, _text("name", "name"), _text("unit", UNIT)),
        "measure_name",
        "id",
        "INSERT INTO measure_name (id, name) SELECT ?1, ?2 WHERE ?3 IS NOT NULL",
        check=_unit,
        known="measure",
        named=1,
    ),
    Table(
        "measures.csv",
        "measure of repetition",
        (REPETITION, MEASURE, _maybe("value (in the unit of the measure)", "value")),
        "measure CROSS JOIN measure_name ON measure_name.id = measure.name",
        "repetition, measure.name",
        "INSERT INTO measure (repetition, name, value) " + BY_NAME.format("id, ?3"),
    ),
    Table(
        "guesses.csv",
        "guess of repetition",
        (REPETITION, MEASURE, _real("guessed (in the unit of the measure)", "value")),
        "guess JOIN measure_name ON measure_name.id = guess.measure",
        "repetition",
        "INSERT INTO guess (repetition, measure, value) " + BY_NAME.format("id, ?3"),
    ),
    _plain(
        "drives.csv",
        "drive",
        (
            *(ID, AT, OFFSET, _text("name", "name"), _text("SHA-256", "digest")),
            _real("length (s)", "seconds"),
        ),
        check=_at(AT),
        known="drive",
    ),
    _plain(
        "drive-blips.csv",
        "drive_blip",
        (
            _whole("drive", "drive", 1, MOST, among="drive"),
            _whole("number", "number", 1, MOST),
            *(_whole("run", "run", 1, MOST), _whole("place", "place", 1, MOST)),
            *(_real("onset (s)", "onset"), _real("peak (%)", "peak")),
            *(_maybe(f"{name} (points)", name) for name in ("dip", "surge", "carry")),
            _text("reason", "reason"),
        ),
        order="drive, number",
    ),
    _plain(
        "changes.csv",
        "change",
        (
            *(ID, AT, OFFSET, _text("what", "what", _word(Changed))),
            _whole("after repetition", '"after"', 0, MOST),
            _text("note", "note"),
        ),
        check=_at(AT),
    ),
)
"""Each after those whose rows it names."""
