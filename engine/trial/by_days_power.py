"""What a trial by days can find, by how much the player's own days differ."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from itertools import pairwise
from statistics import fmean

from engine.practice.steadiness import SteadinessBlip
from engine.trial.by_days_outcome import LEAST, in_points
from engine.trial.outcome import NOTICEABLE
from engine.trial.trial import DAY_BLIPS

FINDABLE = 1.25
"""Difference of logarithms that 8 of 10 trials of eight pairs of days find, as a multiple of the
spread between neighbouring days (`tests/bench/trial_days.py`)."""
USUAL_SPREAD = 0.47
"""Spread assumed between two days of a player with too few of them, in logarithms: of days that
differ by 30 %, with six blips whose logarithms spread by 0.35 (0.33 as the spread of one day)."""
NEWEST_DAYS = 30
"""Number of newest days with steadiness blips from which their spread is estimated."""
FEWEST_DAYS = 9
"""Smallest number of days from which their spread is estimated, to about a quarter."""


@dataclass(frozen=True)
class Power:
    """What a trial by days can find."""

    share: float
    """Smallest difference that 8 of 10 trials find, as a share of the other set-up's value."""
    typical: float | None
    """Typical scaled deviation of the newest days, in points; None without such days."""
    is_guess: bool
    """Whether the spread between days is assumed, as too few days are known."""

    @property
    def points(self) -> float | None:
        """The difference in points; None if the player's typical deviation is not known."""
        if self.typical is None:
            return None
        return max(in_points(-math.log1p(-self.share), self.typical), NOTICEABLE)


def power_of(blips: Sequence[SteadinessBlip]) -> Power:
    """What a trial by days can find for a player with these steadiness blips, oldest first."""
    values = _days(blips)[-NEWEST_DAYS:]
    steps = [after - before for before, after in pairwise(values)]
    is_guess = len(values) < FEWEST_DAYS
    spread = USUAL_SPREAD if is_guess else math.sqrt(fmean(step**2 for step in steps))
    typical = math.exp(fmean(values)) if values else None
    return Power(-math.expm1(-FINDABLE * spread), typical, is_guess)


def _days(blips: Sequence[SteadinessBlip]) -> list[float]:
    """Mean logarithm of the scaled deviations of each day with enough blips, oldest first."""
    days = defaultdict[date, list[float]](list)
    for blip in blips:
        days[blip.day].append(math.log(max(blip.scaled, LEAST)))
    return [fmean(day) for day in days.values() if len(day) >= DAY_BLIPS]
