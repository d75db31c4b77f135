"""Units of the columns of a recording, as headers and rows of units write them."""

from __future__ import annotations

import re
from collections.abc import Mapping

TIME_UNITS: Mapping[str, float] = {
    **dict.fromkeys(("s", "sec", "secs", "second", "seconds"), 1.0),
    **dict.fromkeys(("ms", "msec", "millisecond", "milliseconds"), 0.001),
    **dict.fromkeys(("us", "\N{MICRO SIGN}s", "\N{GREEK SMALL LETTER MU}s"), 1e-6),
    **dict.fromkeys(("ns", "nanosecond", "nanoseconds"), 1e-9),
    **dict.fromkeys(("min", "minute", "minutes"), 60.0),
}
"""Length of each unit of time that a header may name, in s."""
PEDAL_UNITS: Mapping[str, float] = {
    **dict.fromkeys(("%", "percent", "per cent", "pct", "0-100", "0..100", "0 to 100"), 1.0),
    **dict.fromkeys(("0-1", "0..1", "0 to 1", "0.0-1.0", "0.0 to 1.0"), 100.0),
}
"""Size of each unit of a pedal that a header may name, in %."""
CLOCK = re.compile(r"[hms]+(:[hms]+)+([.,:][0fmsxz]+)?")
"""Pattern of a header that says how clock times are written, such as "h:mm:ss.000"."""
NO_UNIT = ("", "-", "1")
"""Texts in the place of a unit that name none."""
BRACKETS = {"]": "[", ")": "(", "}": "{"}
"""The bracket that opens a unit, by the one that closes it."""
SEPARATED = re.compile(r"[\s_,/]+")
"""Pattern of what stands between a name and a unit without brackets, as in "time_ms"."""


def is_time(name: str) -> bool:
    """Whether a column, by our name for it, holds times rather than a pedal."""
    return name == "time"


def size_of_unit(name: str, text: str) -> float | None:
    """Size of a unit in s or %, of the column called `name` by us; None: it is not known."""
    unit = text.strip().lower()
    if is_time(name):
        return 1.0 if CLOCK.fullmatch(unit) else TIME_UNITS.get(unit)
    return PEDAL_UNITS.get(unit)


def expected_unit(name: str) -> str:
    """Units that a column may have, as an error names them."""
    if is_time(name):
        return "s, ms, us, ns, min or h:mm:ss"
    return "% or 0-1"


def without_brackets(text: str) -> str:
    """A unit without the brackets around it."""
    unit = text.strip()
    is_bracketed = len(unit) > 1 and BRACKETS.get(unit[-1]) == unit[0]
    return unit[1:-1].strip() if is_bracketed else unit


def name_and_unit(cell: str) -> tuple[str, str]:
    """Name and unit in a cell of a header; the unit is empty if there is none.

    A unit is whatever stands in brackets at the end, a % sign at the end, or one of the known units
    after a space, underscore, comma or slash: "Brake [%]", "Brake %", "time_ms".
    """
    text = cell.strip()
    opening = text.rfind(BRACKETS.get(text[-1:], "\0"))
    if opening > 0:
        return text[:opening].strip(), text[opening + 1 : -1].strip()
    if text.endswith("%"):
        return text[:-1].rstrip(" _,/"), "%"
    parts = SEPARATED.split(text)
    last = parts[-1].lower()
    if len(parts) > 1 and (last in TIME_UNITS or last in PEDAL_UNITS):
        return text[: -len(last)].rstrip(" \t_,/"), last
    return text, ""
