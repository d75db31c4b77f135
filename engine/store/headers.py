"""Headers of the columns in exported CSV, with their units.

A column that a migration adds gets its header here: a test looks for it.
"""

from __future__ import annotations

from collections.abc import Mapping

from drills.measures.catalogue import CATALOGUE

_BY_MEASURE = "value (in the unit of the measure)"

HEADERS: Mapping[str, str] = {
    **{
        name: name
        for name in (
            *("id", "repetition", "trial", "block", "drive", "calibration", "measure"),
            *("level", "kind", "source", "why", "what", "drawn", "reason", "seed", "name", "note"),
            *("key", "number", "run", "place", "pairs", "streak", "unbroken", "latest", "count"),
            *("best", "outlasted", "first", "rig"),
        )
    },
    "after": "after repetition",
    "a": "set-up A",
    "asked": "asked (points)",
    "by_days": "day by day (0 or 1)",
    "best_day": "best on (local day)",
    "binding": "axes of the pedals (JSON)",
    "at_utc": "at (UTC)",
    "b": "set-up B",
    "began_utc": "began (UTC)",
    "carry": "carry (points)",
    "clean": "clean (0 or 1)",
    "counted": "counted repetitions",
    "cues_ns": "cues (ns)",
    "dark_ns": "dark (ns)",
    "day": "local day",
    "day.clean": "clean repetitions",
    "days": "local days (JSON)",
    "definition": "definition of the measures (version)",
    "digest": "SHA-256",
    "dip": "dip (points)",
    "due": "due (local day)",
    "early": "early (points)",
    "ended": "block ended (local day)",
    "ends": "rest and full of each pedal (raw)",
    "feet": "feet (0 or 1)",
    "fixed": "cannot be remeasured (0 or 1)",
    "gap_max": "gap, longest (s)",
    "gap_p99": "gap, 99th percentile (s)",
    "guess.value": _BY_MEASURE,
    "keeping.day": "begun (local day)",
    "loads": "factors on the limits (JSON)",
    "mark": "mark (factor on the limits)",
    "measure.value": _BY_MEASURE,
    "minutes": "length (min)",
    "missed": "missed (0 or 1)",
    "new_ends": "rest and full of each pedal, new (raw)",
    "newest": "newest repetition",
    "noise": "noise (points)",
    "offset": "offset (min east of UTC)",
    "old_ends": "rest and full of each pedal, old (raw)",
    "onset": "onset (s)",
    "over": "over (0 or 1)",
    "pass_clean": "pass: clean",
    "pass_of": "pass: of",
    "passed": "passed (0 or 1)",
    "peak": "peak (%)",
    "personal.best": "best (factor on the limits)",
    "personal.block": "block (factor on the limits)",
    "rate": "rate (1/s)",
    "repetition.over": "over their limit",
    "removed": "removed (0 or 1)",
    "report_interval": "report interval (s)",
    "resolution": "resolution (%)",
    "score": "score (0 to 100)",
    "seconds": "length (s)",
    "setting.value": "value",
    "since": "repetitions since the block",
    "sitting": "session",
    "surge": "surge (points)",
    "target": "target (%)",
    "told": "told on (local day)",
    "tolerance": "tolerance (points)",
    "verdict_definition": "definition of the verdict (version)",
    "took": "took (s)",
    "top": "top score (0 to 100)",
    "void": "void (0 or 1)",
}
"""Header in CSV of a column, by its name, or by `table.name` if it differs between tables."""

FILES: Mapping[str, str] = {
    "keeping": "retention",
    "personal": "personal limits",
    "sitting": "session",
}
"""Name of the exported file of a table, where it is not that of the table."""


def header_of(table: str, column: str) -> str:
    """Header in CSV of a column of a table. Raises KeyError for a column without one."""
    return HEADERS.get(f"{table}.{column}") or HEADERS[column]


def file_of(table: str) -> str:
    """Name of the file that a table is exported to."""
    return f"{FILES.get(table, table)}.csv"


def unit_of(measure: str) -> str:
    """Unit of a measure by its name; empty for a plain number or a name no longer known."""
    found = CATALOGUE.get(measure)
    return "" if found is None else found.unit
