"""How far a player's guesses of a measure are off: mean absolute error, at first and now."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

AVERAGED = 10
"""Number of guesses over which their error is averaged: those of a set."""

STEPS = (0.0, 3.0, 6.0, 9.0, 12.0, 15.0, 20.0, 25.0, 30.0, 40.0)
"""Answers on offer for a guess, in points: finer steps cannot be felt, and a few taps reach
each."""

Guesses = Sequence[tuple[float, float]]
"""Pairs of a guess and the measured value, both in the same unit, oldest first."""


def is_right(guess: float, was: float) -> bool:
    """Whether no other answer on offer is nearer to the measured value `was`, in points."""
    return abs(guess - was) <= min(abs(step - was) for step in STEPS)


def mean_error(guesses: Guesses) -> float:
    """Mean absolute error of guesses, in their unit. Raises ValueError if there are none."""
    if not guesses:
        raise ValueError("guesses: expected at least one, found none")
    return sum(abs(guess - was) for guess, was in guesses) / len(guesses)


@dataclass(frozen=True)
class GuessErrors:
    """Mean absolute errors of the guesses on a level, at first and now."""

    now: float
    """Mean absolute error of the newest ten guesses, or of all if there are fewer, in points."""
    first: float | None
    """Mean absolute error of the first ten guesses, in points; None while among the newest ten."""

    @classmethod
    def of(cls, guesses: Guesses) -> GuessErrors | None:
        """Errors of these guesses, at first and now; None if there are no guesses."""
        if not guesses:
            return None
        now = mean_error(guesses[-AVERAGED:])
        if len(guesses) < 2 * AVERAGED:
            return cls(now, None)
        return cls(now, mean_error(guesses[:AVERAGED]))
