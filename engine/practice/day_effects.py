"""Day effects of a course and their slope: a level compared with itself, a day with other days.

Everything here is of level-days (`comparable(level_days(...))`), whose logarithms `y` are taken as
a sum of a level's part, a day's part and chance. Error rates: `tests/bench/learning.py`.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import exp, sqrt

import numpy as np
from numpy.typing import NDArray

from engine.practice.course import Ints
from engine.practice.level_days import FEWEST_DAYS, LevelDays

Reals = NDArray[np.float64]

LEAST = {"points": 0.1, "s": 0.01}
"""Values, by unit, that smaller ones are raised to before their logarithm: about what pedals tell
apart. A median of 0 then is as good as can be seen, and not endlessly good."""
LEAST_OF_OTHERS = 0.01
"""Value that smaller ones are raised to if the unit of the measure is another."""
WINDOW = 56
"""Days up to the newest with practice, of the calendar, whose slope is told: the newest weeks."""
FEWEST = 10
"""Days with comparable level-days, as a count, from which a slope is tested."""
BELIEVED = 0.04
"""One-sided p-value of the plain slope at or below which there is a fall or a rise."""
FLIPS = 999
"""Random flips of the signs of the days' scores, as a count."""
SEED = 50
"""Seed of the random flips: the same history is always told the same."""
SPAN = 50
"""Days over which a slope is told."""
NEWEST_DAYS = 10
"""Newest days with level-days, as a count, whose most played level is today's level."""
TIE = 1e-12
"""Share of the sum of the scores' sizes by which two sums of flipped scores are still equal."""


@dataclass(frozen=True)
class Slope:
    """Slope of a foot over days, in logarithms, and how sure it is."""

    a_day: float
    """Change of the logarithm of the measure in a day."""
    error: float
    """Standard error of `a_day`."""
    days: int
    """Days with comparable level-days, as a count."""
    p_fall: float
    """One-sided p-value of a fall."""
    p_rise: float
    """One-sided p-value of a rise."""

    @property
    def falls(self) -> bool:
        """Whether there is a fall: `p_fall` is at most `BELIEVED`, from `FEWEST` days on."""
        return self.days >= FEWEST and self.p_fall <= BELIEVED

    @property
    def rises(self) -> bool:
        """Whether there is a rise: `p_rise` is at most `BELIEVED`, from `FEWEST` days on."""
        return self.days >= FEWEST and self.p_rise <= BELIEVED

    @property
    def change(self) -> float:
        """Change of the measure in `SPAN` days, as a share of it: -0.33 is a third less."""
        return exp(SPAN * self.a_day) - 1


@dataclass(frozen=True, eq=False)
class DayEffects:
    """What each day is at one level: day effects by least squares, levels the other factor."""

    level: int
    """Number of the level: today's, unless another was asked for."""
    day: Ints
    """Local day as a proleptic ordinal, shape (d,), rising."""
    log: Reals
    """Logarithm of the measure that the day has at the level, shape (d,)."""
    count: Ints
    """Repetitions that the day's level-days are of, as a count, shape (d,)."""

    def __len__(self) -> int:
        return int(self.day.size)

    @property
    def value(self) -> Reals:
        """Value that each day has at the level, in the unit of the measure, shape (d,)."""
        return np.exp(self.log)


def least(unit: str) -> float:
    """Value that smaller ones of a measure are raised to, in the unit of the measure."""
    return LEAST.get(unit, LEAST_OF_OTHERS)


def newest(cells: LevelDays, back: int = WINDOW) -> LevelDays:
    """The level-days of the newest `back` days of the calendar that are still comparable.

    A level that has too few days among them is left out.
    """
    if not len(cells):
        return cells
    recent = cells.only(cells.day > cells.day.max() - back)
    _, of, counts = np.unique(recent.level, return_inverse=True, return_counts=True)
    return recent.only(counts[of] >= FEWEST_DAYS)


def slope(cells: LevelDays) -> Slope | None:
    """Slope of comparable level-days over days; None where there are none.

    With `u` a level-day's day minus the mean of its level's, `e` its logarithm minus the mean of
    its level's, the slope is `sum(u e) / sum(u^2)`. A day's score is `sum(u e sqrt(n / (n - 1)))`
    over its level-days, `n` the days of the level. A flip draws a sign for each day, oldest first,
    as `default_rng(SEED).integers(0, 2, (FLIPS, days))`, 0 for minus. `p_fall` is
    `(1 + flips whose sum is no higher than that of the scores) / (1 + FLIPS)`.
    """
    if not len(cells):
        return None
    _, of, counts = np.unique(cells.level, return_inverse=True, return_counts=True)
    u, e = (_without_means(values, of, counts) for values in (cells.day, cells.log))
    days, day = np.unique(cells.day, return_inverse=True)
    spread = float(np.sum(u**2))
    n = counts[of]
    scores = np.bincount(day, u * e * np.sqrt(n / (n - 1))).astype(np.float64)
    p_fall, p_rise = chances(scores)
    error = sqrt(float(np.sum(scores**2))) / spread
    return Slope(float(np.sum(u * e)) / spread, error, days.size, p_fall, p_rise)


def _without_means(values: Reals | Ints, of: NDArray[np.intp], counts: NDArray[np.intp]) -> Reals:
    """Values minus the mean of their level's values, shape (n,)."""
    # Days are counted from the first, so that their means lose no digits.
    centred = values - values[0]
    found: Reals = centred - (np.bincount(of, centred) / counts)[of]
    return found


def chances(scores: Reals) -> tuple[float, float]:
    """One-sided p-values of a fall and of a rise: share of flips as low, and as high."""
    signs = 2 * np.random.default_rng(SEED).integers(0, 2, (FLIPS, scores.size)) - 1
    sums, found = signs @ scores, float(scores.sum())
    near = TIE * float(np.abs(scores).sum())
    low, high = np.sum(sums <= found + near), np.sum(sums >= found - near)
    return (1 + int(low)) / (1 + FLIPS), (1 + int(high)) / (1 + FLIPS)


def todays_level(cells: LevelDays) -> int:
    """Number of today's level: the one most played on the newest days with level-days.

    Of two that are played as much it is the one that is numbered higher, as met later. There is at
    least one level-day.
    """
    first = np.unique(cells.day)[-NEWEST_DAYS:][0]
    recent = cells.only(cells.day >= first)
    levels, of = np.unique(recent.level, return_inverse=True)
    played = np.bincount(of, recent.count)
    return int(levels[np.flatnonzero(played == played.max())[-1]])


def day_effects(cells: LevelDays, level: int | None = None) -> DayEffects:
    """Day effects at today's level of comparable level-days, by unweighted least squares.

    With a `level` they are at that one instead.

    The least of `sum((y - level - day)^2)` over level-days; a day's value is its effect plus that
    of today's level. Days that no chain of levels and days joins with today's level have none and
    are left out. The days are eliminated, which leaves an equation a level: ten years are fast.
    """
    today = level if level is not None else todays_level(cells) if len(cells) else 0
    cells = _joined(cells, today)
    if not len(cells):
        nothing = np.zeros(0, dtype=np.int64)
        return DayEffects(today, nothing, np.zeros(0), nothing)
    levels, of = np.unique(cells.level, return_inverse=True)
    days, day = np.unique(cells.day, return_inverse=True)
    met = np.zeros((levels.size, days.size))
    met[of, day] = 1.0
    a_day = met / met.sum(axis=0)
    means = np.bincount(day, cells.log) / met.sum(axis=0)
    matrix = np.diag(met.sum(axis=1)) - a_day @ met.T
    right = np.bincount(of, cells.log) - met @ means
    # Only differences of levels are known: they are counted from today's level.
    others = levels != today
    effects = np.zeros(levels.size)
    effects[others] = np.linalg.solve(matrix[np.ix_(others, others)], right[others])
    count = np.bincount(day, cells.count).astype(np.int64)
    return DayEffects(today, days, means - effects @ a_day, count)


def _joined(cells: LevelDays, level: int) -> LevelDays:
    """The level-days that a chain of levels and days joins with a level."""
    part = cells.level == level
    while True:
        on_days = np.isin(cells.day, cells.day[part])
        wider = np.isin(cells.level, cells.level[on_days])
        if wider.sum() == part.sum():
            return cells.only(part)
        part = wider
