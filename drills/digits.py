"""Rounding of numbers on the screen: enough digits to see the point, none finer than the device."""

from __future__ import annotations

import math

MOST = 3
"""Largest number of decimals shown on the screen."""

ROUND = 2
"""Most decimals of a limit that a level file sets, and that is written as it stands."""

NEARLY = 0.05
"""Slack in the base-10 logarithm of a device's report interval: 1.1 ms still counts as 1 ms."""


def apart(value: float, limit: float, least: int = 0) -> tuple[str, str]:
    """A value over its limit, and its excess, as text with enough digits to show that it is over.

    Both have at least the decimals of the limit and at least `least`, and limit and excess add up
    to the value.
    """
    written = len(f"{limit:g}".partition(".")[2])
    for decimals in range(min(max(least, written), MOST), MOST + 1):
        rounded = round(value, decimals)
        if rounded > limit:
            break
    excess = round(rounded - limit, MOST)
    return f"{rounded:.{decimals}f}", f"{excess:g}"


def beside(value: float, limit: float, least: int = 0) -> tuple[str, str]:
    """A value and the limit beside it as text: what is over the limit is seen to be over it.

    The value has at least `least` decimals and at least those of the limit. A limit of more than
    two decimals, as one that follows the player, is rounded as the value is.
    """
    written = len(f"{limit:g}".partition(".")[2])
    is_round = written <= ROUND and float(f"{limit:g}") == limit
    for decimals in range(max(least, written if is_round else 1), MOST + 1):
        shown, allowed = round(value, decimals), round(limit, decimals)
        if value <= limit or shown > allowed:
            break
    else:
        scale = 10**MOST
        shown, allowed = math.ceil(value * scale) / scale, math.floor(limit * scale) / scale
        if shown <= allowed:
            shown = allowed + 1 / scale
    return f"{shown:.{decimals}f}", f"{limit:g}" if is_round else f"{allowed:.{decimals}f}"


def plain(limit: float) -> str:
    """A limit as text: as a level file sets it, or with one decimal where it follows the player."""
    written = f"{limit:g}"
    return written if len(written.partition(".")[2]) <= ROUND else f"{limit:.1f}"


def outside(value: float, middle: float, reach: float) -> str:
    """A value outside a band, as text with enough digits to show that it is outside."""
    for decimals in range(MOST + 1):
        rounded = round(value, decimals)
        if abs(rounded - middle) > reach:
            break
    return f"{rounded:.{decimals}f}"


def decimals(interval: float | None) -> int:
    """Number of decimals of a time in s that a device with this report interval (s) can tell apart.

    3 at 1 ms, 2 at 8 ms, 1 at 0.05 s; 2 where the interval is None, for unknown.
    """
    return 2 if interval is None else min(max(math.floor(NEARLY - math.log10(interval)), 0), MOST)
