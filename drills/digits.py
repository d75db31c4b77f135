"""How many digits a number is shown with: enough to tell, and no finer than it was read."""

from __future__ import annotations

import math

MOST = 3
"""decimals beyond which nobody reads."""

NEARLY = 0.05
"""1, a device that reports every 1.1 ms is one of 1 ms."""


def apart(value: float, limit: float, least: int = 0) -> tuple[str, str]:
    """A size over its limit, and by how much, with the digits it takes to see that it is over.

    Both are rounded alike, and no coarser than the limit is written, so that limit and excess make
    the value and the excess is what it was; `least` decimals at least.
    """
    written = len(f"{limit:g}".partition(".")[2])
    for decimals in range(min(max(least, written), MOST), MOST + 1):
        shown = round(value, decimals)
        if shown > limit:
            break
    excess = round(shown - limit, MOST)
    return f"{shown:.{decimals}f}", f"{excess:g}"


def outside(value: float, middle: float, reach: float) -> str:
    """A value outside a band about its middle, with the digits it takes to see that it is."""
    for decimals in range(MOST + 1):
        shown = round(value, decimals)
        if abs(shown - middle) > reach:
            break
    return f"{shown:.{decimals}f}"


def decimals(interval: float | None) -> int:
    """Decimals of a time in s from a device that reports every `interval` s; None for unknown.

    No time is shown finer than it was read: 3 at 1 ms, 2 at 8 ms, 1 at 0.05 s.
    """
    return 2 if interval is None else min(max(math.floor(NEARLY - math.log10(interval)), 0), MOST)
