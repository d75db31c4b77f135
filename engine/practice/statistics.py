"""Mann-Kendall trend test, Theil-Sen slope and quantiles of Student's t."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from itertools import combinations
from math import cos, erfc, pi, sin, sqrt, tan
from statistics import median
from typing import Self

HALVINGS = 60
"""count, after which the angle is as fine as a number can be."""


def rises(values: Sequence[float]) -> int:
    """S: the pairs of which the later value is higher, less those of which it is lower."""
    return sum((b > a) - (b < a) for a, b in combinations(values, 2))


def slope(values: Sequence[float]) -> float:
    """Theil-Sen: the median over all pairs of the rise from one value to the next.

    Raises ValueError where there are fewer than two values.
    """
    if len(values) < 2:
        raise ValueError(f"values: expected at least two, found {len(values)}")
    placed = combinations(enumerate(values), 2)
    return median((b - a) / (later - earlier) for (earlier, a), (later, b) in placed)


def chance_of_fall(values: Sequence[float]) -> float:
    """Exact one-sided p: the share of all orders of these values that fall as much, or more."""
    ties = tuple(sorted(Counter(values).values()))
    ways = _orders(ties)
    length = len(values)
    untied = (length * (length - 1) - sum(size * (size - 1) for size in ties)) // 2
    # Of the pairs that are not tied as many rise as S says more than fall.
    falling = (untied - rises(values)) // 2
    return sum(ways[falling:]) / sum(ways)


@cache
def _orders(ties: tuple[int, ...]) -> tuple[int, ...]:
    """How many orders of values so tied have 0, 1, 2 ... pairs that fall.

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


@dataclass(frozen=True)
class MannKendall:
    """The test for a trend, by the normal law: good from about ten values on."""

    s: int
    """count, pairs that rise less pairs that fall."""
    variance: float
    """count squared, of S where there is no trend, corrected for ties."""
    z: float
    """1, S in standard deviations, one nearer to none; negative where the values fall."""
    p: float
    """1, chance of a trend as strong either way where there is none."""
    p_falling: float
    """1, chance of a fall as strong where there is none."""

    @classmethod
    def of(cls, values: Sequence[float]) -> Self:
        """The test of values in the order they came."""
        s = rises(values)
        sizes = Counter(values).values()
        variance = (_spread(len(values)) - sum(map(_spread, sizes))) / 18
        nearer = s - (s > 0) + (s < 0)
        z = nearer / sqrt(variance) if variance else 0.0
        return cls(s, variance, z, erfc(abs(z) / sqrt(2)), erfc(-z / sqrt(2)) / 2)


def _spread(count: int) -> int:
    """Eighteen times the variance that so many values, all different, give S."""
    return count * (count - 1) * (2 * count + 5)


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
