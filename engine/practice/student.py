"""Student's t: how many standard errors about a mean hold a share of what chance does.

The distribution is the finite sum of Abramowitz & Stegun 1964, 26.7.3 and 26.7.4, in the angle
whose tangent is t / sqrt(df); it rises with the angle, so halving finds the quantile.
"""

from __future__ import annotations

from math import cos, pi, sin, sqrt, tan

HALVINGS = 60
"""count, after which the angle is as fine as a number can be."""


def within(share: float, df: int) -> float:
    """The t that a share of the distribution lies within, on both sides: of 0.95 the 0.975 one.

    Raises ValueError where the share is not between 0 and 1, or no degree of freedom is left.
    """
    if not 0 < share < 1:
        raise ValueError(f"share: expected between 0 and 1, found {share:g}")
    if df < 1:
        raise ValueError(f"df: expected at least 1, found {df}")
    low, high = 0.0, pi / 2
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if _share(middle, df) < share else (low, middle)
    return sqrt(df) * tan(low)


def _share(angle: float, df: int) -> float:
    """The share that lies within an angle."""
    odd = df % 2 == 1
    square = cos(angle) ** 2
    term = cos(angle) if odd else 1.0
    total = 0.0 if df == 1 else term
    for number in range(2 if odd else 1, df - 1, 2):
        term *= number / (number + 1) * square
        total += term
    inside = sin(angle) * total
    return 2 / pi * (angle + inside) if odd else inside
