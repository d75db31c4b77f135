"""Feet that warm up on days of several courses, and what a warm-up says of them."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from engine.five.usual_foot import BLIPS, WORSE, FootVerdict, expected, foot_today
from tests.bench.falling_scores import Chance

BLIP_SD = 0.5  # log, of the largest deviation from blip to blip
DAY_SD = 0.25  # log, of a day
STILL = 8.0  # points, median of a foot that has learned


def steady(_: Chance, days: int) -> np.ndarray:
    """A foot that stays as it is: median deviation on each day, in points."""
    return np.full(days, STILL)


def learning(_: Chance, days: int) -> np.ndarray:
    """A foot that goes from 12 points towards 6, a third of the way in 12 days."""
    return 6 + 6 * np.exp(-np.arange(days) / 30)


def quick(_: Chance, days: int) -> np.ndarray:
    """A foot that goes from 14 points towards 6, two thirds of the way in 10 days."""
    return 6 + 8 * np.exp(-np.arange(days) / 10)


def of_days(chance: Chance, days: int) -> np.ndarray:
    """A foot with good days and bad ones."""
    return STILL * np.exp(DAY_SD * chance.standard_normal(days))


def of_bad_days(chance: Chance, days: int) -> np.ndarray:
    """A foot with one bad day in seven, worse by 60 %."""
    return np.where(chance.random(days) < 1 / 7, 1.6, 1.0) * STILL


def of_spells(chance: Chance, days: int) -> np.ndarray:
    """A foot whose good and bad days come in spells."""
    noise = chance.standard_normal(days)
    for day in range(1, days):
        noise[day] = 0.4 * noise[day - 1] + np.sqrt(1 - 0.4**2) * noise[day]
    return STILL * np.exp(DAY_SD * noise)


Medians = Callable[[Chance, int], np.ndarray]


def earlier_and_today(
    chance: Chance, worse: float, medians: Medians, days: int
) -> tuple[list[float], float]:
    """Means of so many earlier warm-ups and of today's, where today is worse by a share."""
    middle = medians(chance, days + 1)
    middle[-1] *= 1 + worse
    blips = middle[:, None] * np.exp(BLIP_SD * chance.standard_normal((days + 1, BLIPS)))
    *earlier, today = blips.mean(axis=1).tolist()
    return earlier, today


def word_of(chance: Chance, worse: float, medians: Medians, days: int) -> FootVerdict:
    """What a warm-up says after so many earlier days, where today is worse by a share."""
    earlier, today = earlier_and_today(chance, worse, medians, days)
    return foot_today(today, earlier).word


def unusual(chance: Chance, *, medians: Medians, days: int) -> bool:
    """A warm-up on a day like the others that is called steadier or less steady."""
    return word_of(chance, 0.0, medians, days) is not FootVerdict.USUAL


def less_steady(chance: Chance, worse: float, *, medians: Medians, days: int) -> bool:
    """A warm-up on a worse day that is called less steady."""
    return word_of(chance, worse, medians, days) is FootVerdict.LESS_STEADY


def said_of_worse(chance: Chance, *, medians: Medians, days: int) -> bool:
    """A draw by the chance that a warm-up says a foot worse by half is noticed with."""
    earlier, _ = earlier_and_today(chance, WORSE, medians, days)
    return bool(chance.random() < expected(earlier).notices)
