"""What a change brought: a foot's deviations before and after it, each level against itself.

The logarithms of level-days of the 21 days before a change and of days 4 to 24 with it are fitted
by least squares: `log = level + trend * day + step * after`. The trend is what practice does anyway
and is the same on both sides; the step is what the change brought. The unit of chance is the day,
as all that a day's levels share is luck of that day: the step's standard error is that of the
jackknife that leaves out one day at a time (Efron & Tibshirani 1993, from memory), and its interval
is of Student's t with as many degrees of freedom as days beyond `PARAMETERS`. A trend that bends
is even about the change and a step is odd, so that a bend moves the step little.

`tests/bench/change.py` measures the coverage, and how often a difference that is none is told, in
one look when the three weeks are over or in any of daily ones.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from math import exp, sqrt

import numpy as np
from numpy.typing import NDArray

from engine.practice.level_days import LevelDays
from engine.practice.students_t import within

Floats = NDArray[np.float64]

WINDOW = timedelta(days=21)
"""Time before a change, and with it, whose days are compared."""
SETTLING = timedelta(days=3)
"""Time from the day of a change on that is left out: that day has both positions, and the days
after it are given to get used to the new one. How many is a choice."""
EARLIEST = timedelta(days=12)
"""Time from a change until it is compared: with fewer days a trend that bends looks like a step."""
FEWEST = 5
"""Days with practice needed on each side, as a count."""
PARAMETERS = 3
"""Parameters that days are fitted by, as a count: a middle, a trend and the step."""
SHARE = 0.95
"""Coverage of the interval of the step, from 0 to 1, in one look."""


@dataclass(frozen=True)
class Sides:
    """First and last days of practice to compare: before a change, and with it."""

    before: tuple[date, date]
    """First and last day before the change."""
    after: tuple[date, date]
    """First and last day with it, once the foot has settled."""


@dataclass(frozen=True)
class BeforeAfter:
    """Deviation before a change and with it, on the day of the change; trend taken out."""

    before: float
    """Deviation to expect on that day without the change, in the unit of the measure."""
    step: float
    """Logarithm of the ratio of the deviation with the change to that without it."""
    half: float
    """Half the width of the interval of the step, as a logarithm."""
    trend: float
    """Logarithm by which the deviation changes in a day anyway."""

    @property
    def after(self) -> float:
        """Deviation with the change on that day, in the unit of the measure."""
        return self.before * exp(self.step)

    @property
    def better(self) -> tuple[float, float]:
        """Interval of what is less with the change, in the unit of the measure; below 0 is more."""
        ends = (self.step + self.half, self.step - self.half)
        return self.before * (1 - exp(ends[0])), self.before * (1 - exp(ends[1]))

    @property
    def is_told(self) -> bool:
        """Whether it is told as better or worse: no step is outside the interval."""
        return abs(self.step) > self.half


def sides(changed: date, others: Iterable[date] = ()) -> Sides:
    """Days to compare about a change, cut where foot or rig changed on `others` before or after.

    Changes of one day count as one.
    """
    first, last = changed - WINDOW, changed + SETTLING + WINDOW - timedelta(days=1)
    for other in others:
        if other < changed:
            first = max(first, other + SETTLING)
        elif other > changed:
            last = min(last, other - timedelta(days=1))
    return Sides((first, changed - timedelta(days=1)), (changed + SETTLING, last))


def days_on(found: LevelDays, dates: tuple[date, date]) -> int:
    """Number of days with level-days from the first of two dates to the last."""
    return int(np.unique(found.day[_on(found, dates)]).size)


def before_after(found: LevelDays, changed: date, compared: Sides) -> BeforeAfter | None:
    """What a change brought, by comparable level-days; None where there are too few.

    The deviation is told at the level with most days on both sides; of several, the one that came
    last. Levels that were played on one side alone tell of the trend.
    """
    if min(days_on(found, compared.before), days_on(found, compared.after)) < FEWEST:
        return None
    is_after = _on(found, compared.after)
    part = _on(found, compared.before) | is_after
    cells, after = found.only(part), is_after[part]
    levels, of = np.unique(cells.level, return_inverse=True)
    counts = np.array(
        [np.bincount(of[after == side], minlength=levels.size) for side in (False, True)]
    )
    both = counts.min(axis=0)
    if not both.any():
        return None
    design = np.zeros((len(cells), levels.size + 2))
    design[np.arange(len(cells), dtype=np.int64), of] = 1.0
    design[:, -2] = cells.day - changed.toordinal()
    design[:, -1] = after
    fitted, error, days = _jackknife(design, cells)
    told = int(np.flatnonzero(both == both.max())[-1])
    half = within(SHARE, days - PARAMETERS) * error
    step, trend = float(fitted[-1]), float(fitted[-2])
    return BeforeAfter(exp(float(fitted[told])), step, half, trend)


def _on(found: LevelDays, dates: tuple[date, date]) -> NDArray[np.bool_]:
    first, last = (day.toordinal() for day in dates)
    return (found.day >= first) & (found.day <= last)


def _jackknife(design: Floats, cells: LevelDays) -> tuple[Floats, float, int]:
    """Least squares fit, standard error of its last parameter by days, and the number of days."""
    days, begins = np.unique(cells.day, return_inverse=True)
    squares = np.zeros((days.size, design.shape[1], design.shape[1]))
    sums = np.zeros((days.size, design.shape[1]))
    np.add.at(squares, begins, design[:, :, None] * design[:, None, :])
    np.add.at(sums, begins, design * cells.log[:, None])
    inverse = np.linalg.pinv(squares.sum(axis=0), hermitian=True)
    fitted = inverse @ sums.sum(axis=0)
    left = np.linalg.pinv(squares.sum(axis=0) - squares, hermitian=True)
    steps = np.einsum("gp,gp->g", left[:, -1], sums.sum(axis=0) - sums)
    error = sqrt((days.size - 1) / days.size * float(np.sum((steps - fitted[-1]) ** 2)))
    return fitted, error, int(days.size)
