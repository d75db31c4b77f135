"""How good a player's guesses have become: the mean absolute error, at first and now."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

TOGETHER = 10
"""count of guesses that are averaged: a set."""

STEPS = (0.0, 3.0, 6.0, 9.0, 12.0, 15.0, 20.0, 25.0, 30.0, 40.0)
"""points that can be said: finer ones cannot be felt, and a few taps reach every one."""

Guesses = Sequence[tuple[float, float]]
"""What was guessed and what it was, in one unit, oldest first."""


def is_right(guess: float, was: float) -> bool:
    """Whether no other step would have been nearer to what it was, in points."""
    return abs(guess - was) <= min(abs(step - was) for step in STEPS)


def mean_error(guesses: Guesses) -> float:
    """Mean absolute error, in the unit of the guesses. Raises ValueError where there are none."""
    if not guesses:
        raise ValueError("guesses: expected at least one, found none")
    return sum(abs(guess - was) for guess, was in guesses) / len(guesses)


@dataclass(frozen=True)
class Guessing:
    """How guesses stand."""

    now: float
    """points, mean error of the newest ten, or of as many as there are."""
    first: float | None
    """points, mean error of the first ten; None while these are among the newest."""

    @classmethod
    def of(cls, guesses: Guesses) -> Guessing | None:
        """How these stand; None where there are none."""
        if not guesses:
            return None
        now = mean_error(guesses[-TOGETHER:])
        if len(guesses) < 2 * TOGETHER:
            return cls(now, None)
        return cls(now, mean_error(guesses[:TOGETHER]))
