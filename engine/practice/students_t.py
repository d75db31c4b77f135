"""Quantiles of Student's t, two-sided and one-sided."""

from __future__ import annotations

from math import atan, cos, pi, sin, sqrt, tan

HALVINGS = 60
"""Halvings of the interval that find a quantile of t to the last digit of a float, as a count."""


def within(share: float, df: int) -> float:
    """Two-sided quantile of Student's t: for a share of 0.95, t at 0.975.

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


def over(t: float, df: int) -> float:
    """Chance, from 0 to 1, that Student's t is over a value.

    Raises ValueError where no degree of freedom is left.
    """
    if df < 1:
        raise ValueError(f"df: expected at least 1, found {df}")
    beyond = (1 - _share(atan(abs(t) / sqrt(df)), df)) / 2
    return beyond if t >= 0 else 1 - beyond


def _share(angle: float, df: int) -> float:
    """Share of Student's t that lies within plus and minus sqrt(df) * tan(angle)."""
    odd = df % 2 == 1
    square = cos(angle) ** 2
    term = cos(angle) if odd else 1.0
    total = 0.0 if df == 1 else term
    for number in range(2 if odd else 1, df - 1, 2):
        term *= number / (number + 1) * square
        total += term
    inside = sin(angle) * total
    return 2 / pi * (angle + inside) if odd else inside
