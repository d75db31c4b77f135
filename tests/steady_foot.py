"""Simulated feet with a known steadiness, and their blips on the staircase."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np
from scipy import stats

from engine.practice.blip_size import BLIP
from engine.practice.steadiness import SteadinessBlip, next_tolerance

DAY = date(2024, 3, 1)
QUARTILE = float(stats.norm.ppf(0.75))


@dataclass(frozen=True)
class SteadyFoot:
    """Simulated foot with lognormal deviations, or with deviations drawn from a sample."""

    median: float = 8.0
    """Median deviation on the first day, in points."""
    spread: float = 0.4
    """Standard deviation within a day, in logarithms."""
    day_spread: float = 0.0
    """Standard deviation between days, in logarithms."""
    learning: float = 0.0
    """Logarithm by which deviations shrink each day."""
    drawn: tuple[float, ...] = ()
    """Deviations in points to draw from instead of lognormal ones; empty for none."""

    def band(self, days: int) -> float:
        """Tolerance in points that three in four deviations stay inside on day `days`, from 1."""
        if self.drawn:
            return float(np.quantile(self.drawn, 0.75))
        upper = QUARTILE * np.hypot(self.spread, self.day_spread)
        return float(self.median * np.exp(upper - self.learning * (days - 1)))

    def deviations(self, days: int, a_day: int, rng: np.random.Generator) -> list[list[float]]:
        """Deviations of each of some days, in points."""
        if self.drawn:
            return [list(day) for day in rng.choice(self.drawn, (days, a_day))]
        of_the_day = rng.normal(0, self.day_spread, (days, 1))
        learned = -self.learning * np.arange(days)[:, None]
        logs = of_the_day + learned + rng.normal(0, self.spread, (days, a_day))
        return [list(day) for day in self.median * np.exp(logs)]


def tracked(days: Iterable[Sequence[float]]) -> list[SteadinessBlip]:
    """Blips with these deviations day by day, each at the tolerance that the earlier ones give."""
    blips: list[SteadinessBlip] = []
    for number, deviations in enumerate(days):
        for deviation in deviations:
            asked = next_tolerance(blips)
            blips.append(
                SteadinessBlip(DAY + timedelta(days=number), asked, float(deviation), BLIP)
            )
    return blips


def plain(deviations: Sequence[float], a_day: int = 6) -> list[SteadinessBlip]:
    """Blips with these deviations, so many a day."""
    return [
        SteadinessBlip(DAY + timedelta(days=number // a_day), 10.0, deviation, BLIP)
        for number, deviation in enumerate(deviations)
    ]


def followed(foot: SteadyFoot, days: int, a_day: int = 6, seed: int = 1) -> list[SteadinessBlip]:
    """The blips of a foot on so many days."""
    return tracked(foot.deviations(days, a_day, np.random.default_rng(seed)))
