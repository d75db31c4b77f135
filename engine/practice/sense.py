"""Sense of pressure: what a player presses when a weight is asked, and whether it is sure.

Squeezes are asked without sight of the brake, so what is pressed is what the foot takes the weight
for. Reproduced forces have a constant error, the bias, and a variable one that grows with the force
(Schmidt & Lee 2011, *Motor Control and Learning*, from memory). The bias contracts to the middle of
what is asked: light is pressed too heavy and heavy too light (the central tendency of Hollingworth
1910, from memory). Both are one line: pressed = offset + gain * asked, with a gain below 1.
`tests/bench/sense.py` measures how often a fault is told, rightly and wrongly.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from math import ceil, sqrt

import numpy as np

from engine.practice.clustered import ClusteredFit, Reals, clustered_fit
from engine.practice.students_t import over, within

NEWEST = 75
"""Newest squeezes that the sense of pressure is estimated from, as a count."""
LEAST = 30
"""Fewest squeezes that the sense of pressure is told from, as a count."""
DOUBT, DOUBT_FALLS = 0.04, 6
"""Chance that a true foot is told an error after `LEAST` squeezes, 0 to 1, and the power of `LEAST`
over their number by which it falls with more: a player looks again after every squeeze."""
SHOWN = 0.95
"""Least coverage of an interval, from 0 to 1."""
HALVINGS, FURTHEST_REACH = 30, 20.0
"""Halvings that find how far an interval reaches, as a count, and the furthest it may, in standard
errors."""
LEAST_TOLD = 3.0
"""Smallest error that is told as a fault, in points: less is not felt on the road."""
MOST_WITHIN = 5
"""Furthest that a sense of pressure may be from the weight asked to be told as right, in points."""
LEAST_RANGE = 10.0
"""Smallest range of weights asked that tells a gain, in points: below it the error is one."""
OF_RANGE = 3
"""Place of the lightest and the heaviest weight that an error is told at, among those asked, from
each end: one or two squeezes there would not tell it."""
ROUND = 5
"""Step to which the weights are rounded that an error is told at, in points."""
PARTS = 8
"""Parts of the range of weights between which errors are given, as a count: an even number."""


@dataclass(frozen=True)
class Squeeze:
    """One squeeze of the brake that came to rest: what was asked, and what was pressed."""

    day: date
    """Local day on which the squeeze was played."""
    asked: float
    """Weight asked, in %."""
    pressed: float
    """Brake at rest at the end of the squeeze, in %."""


@dataclass(frozen=True)
class Estimate:
    """A value of a foot as its squeezes tell it, with its interval."""

    value: float
    """The value, in the unit of what is estimated."""
    low: float
    """Low end of the interval, in the same unit."""
    high: float
    """High end of the interval, in the same unit."""


@dataclass(frozen=True)
class ErrorAt:
    """How much more than asked a foot presses at one weight."""

    weight: float
    """The weight that is asked, in %."""
    error: Estimate
    """What is pressed minus what is asked, in points."""

    @property
    def is_fault(self) -> bool:
        """Whether the error is sure, and large enough to be told."""
        error = self.error
        return abs(error.value) >= LEAST_TOLD and not error.low <= 0 <= error.high

    @property
    def furthest(self) -> float:
        """How far from the weight the error may be, in points: the further end of its interval."""
        return max(-self.error.low, self.error.high)


@dataclass(frozen=True)
class Sense:
    """Sense of pressure of a player, from the newest squeezes."""

    squeezes: int
    """Squeezes it is estimated from, as a count."""
    days: int
    """Local days on which they were played, as a count."""
    gain: Estimate | None
    """Points pressed for each point asked, a ratio; None where too few weights were asked."""
    offset: Estimate | None
    """Points that are pressed beside the gain; None where the gain is."""
    errors: tuple[ErrorAt, ...]
    """Errors at evenly spaced weights, the lightest first; one where there is no gain."""

    @property
    def fault(self) -> ErrorAt | None:
        """The largest error that is sure, at the lightest, the middle or the heaviest weight.

        None where none of the three is sure. It is looked for at three weights alone, as each
        further look is another chance of a fault that is none.
        """
        ends = (self.errors[0], self.errors[len(self.errors) // 2], self.errors[-1])
        sure = [one for one in ends if one.is_fault]
        return max(sure, key=lambda one: abs(one.error.value), default=None)

    @property
    def asked_more(self) -> float | None:
        """Weight that squeezes ask for more often, in %: that of the fault, where others are known
        too; None if there is none."""
        return None if self.fault is None or self.gain is None else self.fault.weight

    @property
    def furthest(self) -> int:
        """How far from the weight asked the foot may be anywhere, in whole points."""
        return ceil(max(one.furthest for one in self.errors))

    @property
    def is_right(self) -> bool:
        """Whether it is sure that the player presses what is meant, within a few points."""
        return self.fault is None and self.furthest <= MOST_WITHIN


def sense_of(squeezes: Sequence[Squeeze]) -> Sense | None:
    """Sense of pressure from the newest squeezes; None if there are fewer than `LEAST`.

    `squeezes` are oldest first, of one rig and one scale of its brake.

    With x asked and y pressed, the relative error (y - x) / x is fitted as (gain - 1) + offset / x,
    which weighs each squeeze by 1 / x^2, as its spread grows with the weight. Where the weights
    asked lie within `LEAST_RANGE`, it is fitted by one mean. Days that differ widen the intervals
    (`clustered_fit`), which are those of Student's t. All reach as many standard errors as keep
    the chance that a true foot is told an error at one of the three weights below
    0.04 (30 / n)^6, n the number of squeezes: so looks after every squeeze stay as sure together
    as the first alone. Where the foot is so even that errors of `LEAST_TOLD` cannot be chance, an
    interval need reach less far.
    """
    newest = squeezes[-NEWEST:]
    if len(newest) < LEAST:
        return None
    asked = np.array([one.asked for one in newest])
    pressed = np.array([one.pressed for one in newest])
    days = [one.day for one in newest]
    light, heavy = _range_of(asked)
    has_gain = heavy - light >= LEAST_RANGE
    ones = np.ones(len(newest))
    columns = np.column_stack((ones, 1 / asked) if has_gain else (ones,))
    fit = clustered_fit(columns, (pressed - asked) / asked, days)
    weights = np.linspace(light, heavy, PARTS + 1) if has_gain else np.array([np.mean(asked)])
    looks = {0, len(weights) // 2, len(weights) - 1}
    at = [np.array([weight, 1.0][: 1 + has_gain]) for weight in weights]
    reach = _reach([_error(fit, at[look]) for look in looks], len(newest), fit.freedom)
    errors = tuple(
        ErrorAt(float(weight), _estimate(fit, factors, 0.0, reach))
        for weight, factors in zip(weights, at, strict=True)
    )
    return Sense(
        squeezes=len(newest),
        days=len(set(days)),
        gain=_estimate(fit, np.array([1.0, 0.0]), 1.0, reach) if has_gain else None,
        offset=_estimate(fit, np.array([0.0, 1.0]), 0.0, reach) if has_gain else None,
        errors=errors,
    )


def _reach(errors: Sequence[float], count: int, freedom: int) -> float:
    """Standard errors from a value to an end of its interval, for so many squeezes.

    `errors` are the standard errors at the weights where a fault is looked for, in points.
    """
    doubt = DOUBT * (LEAST / count) ** DOUBT_FALLS
    low, high = 0.0, FURTHEST_REACH
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        chances = (2 * over(max(middle, LEAST_TOLD / error), freedom) for error in errors)
        low, high = (middle, high) if sum(chances) > doubt else (low, middle)
    return max(high, within(SHOWN, freedom))


def _range_of(asked: Reals) -> tuple[float, float]:
    """Lightest and heaviest weight that errors are told at, of those asked, in %."""
    ranked = np.sort(asked)
    ends = ranked[OF_RANGE - 1], ranked[-OF_RANGE]
    light, heavy = (
        min(max(ROUND * round(float(end) / ROUND), float(ranked[0])), float(ranked[-1]))
        for end in ends
    )
    return light, heavy


def _estimate(fit: ClusteredFit, factors: Reals, base: float, reach: float) -> Estimate:
    """Sum of the coefficients of a fit by these factors, on top of a base, with its interval."""
    value = base + float(factors @ fit.coefficients)
    half = reach * _error(fit, factors)
    return Estimate(value, value - half, value + half)


def _error(fit: ClusteredFit, factors: Reals) -> float:
    """Standard error of the sum of the coefficients of a fit by these factors."""
    return sqrt(float(factors @ fit.covariance @ factors))
