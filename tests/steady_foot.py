"""Feet whose steadiness band is known, tracked blip by blip as the drill asks them."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np
from scipy import stats

from engine.practice.steadiness import SteadinessBlip, next_tolerance

DAY = date(2024, 3, 1)
QUARTILE = float(stats.norm.ppf(0.75))


@dataclass(frozen=True)
class SteadyFoot:
    """A foot whose deviations are lognormal, or drawn from those of another."""

    median: float = 8.0
    """points, the middle of its deviations on the first day."""
    spread: float = 0.4
    """1, standard deviation of their logarithms within a day."""
    day_spread: float = 0.0
    """1, standard deviation of the logarithm of what a day makes of them all."""
    learning: float = 0.0
    """1, by what share of the logarithm they become smaller each day."""
    drawn: tuple[float, ...] = ()
    """points, deviations to draw from in the place of lognormal ones."""

    def band(self, days: int) -> float:
        """What three in four of its deviations would stay inside after so many days, in points."""
        if self.drawn:
            return float(np.quantile(self.drawn, 0.75))
        upper = QUARTILE * np.hypot(self.spread, self.day_spread)
        return float(self.median * np.exp(upper - self.learning * (days - 1)))

    def deviations(self, days: int, a_day: int, rng: np.random.Generator) -> list[list[float]]:
        """Those of so many days, in points."""
        if self.drawn:
            return [list(day) for day in rng.choice(self.drawn, (days, a_day))]
        of_the_day = rng.normal(0, self.day_spread, (days, 1))
        learned = -self.learning * np.arange(days)[:, None]
        logs = of_the_day + learned + rng.normal(0, self.spread, (days, a_day))
        return [list(day) for day in self.median * np.exp(logs)]


def tracked(days: Iterable[Sequence[float]]) -> list[SteadinessBlip]:
    """The blips of a foot that deviated so, each asked what those before it say."""
    blips: list[SteadinessBlip] = []
    for number, deviations in enumerate(days):
        for deviation in deviations:
            asked = next_tolerance(blips)
            blips.append(SteadinessBlip(DAY + timedelta(days=number), asked, float(deviation)))
    return blips
