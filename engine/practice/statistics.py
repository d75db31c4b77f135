"""Exact Mann-Kendall test for a fall, and quantiles of Student's t."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from functools import cache
from itertools import combinations
from math import atan, cos, pi, sin, sqrt, tan

HALVINGS = 60
"""Halvings of the interval that find a quantile of t to the last digit of a float, as a count."""


def rises(values: Sequence[float]) -> int:
    """Mann-Kendall S of the values: number of pairs that rise minus number of pairs that fall."""
    return sum((b > a) - (b < a) for a, b in combinations(values, 2))


def chance_of_fall(values: Sequence[float]) -> float:
    """Exact one-sided Mann-Kendall p-value: share of all orders that fall at least as much."""
    ties = tuple(sorted(Counter(values).values()))
    ways = _orders(ties)
    length = len(values)
    untied = (length * (length - 1) - sum(size * (size - 1) for size in ties)) // 2
    # S is the pairs that rise minus those that fall, and the two add up to the untied pairs.
    falling = (untied - rises(values)) // 2
    return sum(ways[falling:]) / sum(ways)


@cache
def _orders(ties: tuple[int, ...]) -> tuple[int, ...]:
    """Numbers of orders of values with 0, 1, 2 ... falling pairs; `ties` are sizes of tied groups.

    These are the coefficients of the q-multinomial (MacMahon 1915): the product of 1 - q^k for
    k up to the count of values, divided by the same product for each group of ties.
    """
    length = sum(ties)
    ways = [1] + [0] * (length * (length - 1) // 2)
    for power in range(1, length + 1):
        for place in range(len(ways) - 1, power - 1, -1):
            ways[place] -= ways[place - power]
    for power in (power for size in ties for power in range(1, size + 1)):
        for place in range(power, len(ways)):
            ways[place] += ways[place - power]
    return tuple(ways)


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
