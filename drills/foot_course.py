"""Courses that a simulated foot means to take the brake along: an even release, and a line."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

import numpy as np

from drills.braking_zone import Line
from drills.habit import Habit

SHOVE = 0.15
"""How long a simulated squeeze stays past the weight it means before it comes back, in s."""


class BrakeCourse(Protocol):
    """Interface of a course of the brake, over the steps of the simulated foot."""

    def at(self, step: int) -> float:
        """Brake that the foot intends at a step, in %."""
        ...


class EvenRelease:
    """How a simulated foot eases off the brake, from a weight to nothing."""

    def __init__(self, begins: int, takes: float, power: float, weight: float) -> None:
        """`begins` is a step, `takes` a number of them, `weight` in %; a `power` of 1: straight."""
        self._begins = begins
        self._takes = takes
        self._power = power
        self._weight = weight

    def at(self, step: int) -> float:
        """Brake that the foot intends at a step of the easing off, in %."""
        share = min(max((step - self._begins) / self._takes, 0.0), 1.0)
        return float(self._weight * (1 - share**self._power))


class FollowedLine:
    """How a simulated foot squeezes to the peak of a brake line and comes down along it."""

    def __init__(
        self, line: Line, begins: int, habit: Habit, errors: Sequence[float], dt: float
    ) -> None:
        """`begins` is a step, and `dt` the length of one in s.

        `errors` are standard normal numbers: those of the weight, of how far it goes past it, of
        the time that the line takes, and of its bend.
        """
        miss, shove, stretch, bend = errors
        times, brakes = (np.array(axis) for axis in zip(*line, strict=True))
        highest = float(brakes.max())
        takes = float(times[-1]) * np.exp(habit.stretch * stretch)
        time = np.arange(0.0, takes, dt, dtype=np.float64)
        off = 1 - np.interp(time * times[-1] / takes, times, brakes / highest)
        weight = highest * (1 + habit.miss * miss)
        means = weight * (1 - off ** np.exp(habit.bend * bend))
        means[time < SHOVE] += highest * habit.shove * abs(shove)
        self._begins = begins
        self._means: list[float] = means.tolist()

    def at(self, step: int) -> float:
        """Brake that the foot intends at a step, in %; nothing before the line and after it."""
        since = step - self._begins
        return self._means[since] if 0 <= since < len(self._means) else 0.0
