"""How many digits it takes to see that a value is over its limit."""

from __future__ import annotations

MOST = 3
"""decimals beyond which nobody reads."""


def apart(value: float, limit: float, least: int = 0) -> tuple[str, str]:
    """A size over its limit, and by how much, with the digits it takes to see that it is over.

    Both are rounded alike, so that limit and excess make the value; `least` decimals at least.
    """
    for decimals in range(least, MOST + 1):
        shown = round(value, decimals)
        if shown > limit:
            break
    excess = round(shown - limit, MOST)
    return f"{shown:.{decimals}f}", f"{excess:g}"
