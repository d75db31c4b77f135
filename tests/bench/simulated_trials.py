"""Simulated trials: what a foot does over the blocks of one, and the two arms laid over it.

A foot is lognormal dips and what time does to them; the arms differ by points that are added to
those of A. Everything is drawn for many trials at once, in arrays of shape (trials, blocks,
repetitions).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime

import numpy as np
import numpy.typing as npt

from drills.score import Reason
from engine.trial.randomisation import order
from engine.trial.trial import BLOCK, Arm, SetUp, Trial, TrialRepetition

Floats = npt.NDArray[np.float64]
DAY = date(2024, 5, 17)
BEGAN = datetime(2024, 5, 17, 20, 15, tzinfo=UTC)
A, B = SetUp("ball"), SetUp("toes")
WARM = 4.0
"""repetitions, in which a warm-up of the day falls to a third."""


@dataclass(frozen=True)
class Foot:
    """A foot whose dips are lognormal, and what moves their logarithm."""

    median: float = 12.0
    """points, middle of its dips once learned."""
    spread: float = 0.35
    """1, standard deviation of their logarithm: 4.2 points of 12."""
    learning: float = 0.0
    """1, how much higher it begins, in logarithms; it falls exponentially over the trial."""
    within: float = 0.0
    """1, how much is learned in each day, half of which is gone by the next."""
    warm_up: float = 0.0
    """1, how much higher a day begins."""
    first: float = 0.0
    """1, how much higher the first of each block is."""
    kept: float = 0.0
    """1, of how far one repetition was off, that the next one is: an autocorrelation."""
    days: float = 0.0
    """1, standard deviation of what a day does."""

    def dips(self, trials: int, pairs: int, rng: np.random.Generator) -> Floats:
        """Its dips in many trials, two pairs a day, in points."""
        count = 2 * pairs * BLOCK
        number = np.arange(count)
        a_day = 4 * BLOCK
        since, day = number % a_day, number // a_day
        middle = (
            self.learning * np.exp(-3 * number / count)
            - self.within * (since / a_day + day / 2)
            + self.warm_up * np.exp(-since / WARM)
            + self.first * (number % BLOCK == 0)
        )
        noise = rng.standard_normal((trials, count))
        for place in range(1, count):
            fresh = np.sqrt(1 - self.kept**2) * noise[:, place]
            noise[:, place] = self.kept * noise[:, place - 1] + fresh
        of_days = rng.normal(0, self.days, (trials, day[-1] + 1))[:, day]
        dips: Floats = self.median * np.exp(middle + self.spread * noise + of_days)
        return dips.reshape(trials, 2 * pairs, BLOCK)


FEET = {
    "plain": Foot(),
    "learning": Foot(learning=0.7, within=0.15),
    "warm-up": Foot(warm_up=0.6, first=0.4),
    "autocorrelation 0.5": Foot(kept=0.5),
    "day effects": Foot(days=0.3),
    "all together": Foot(12, 0.35, 0.7, 0.15, 0.6, 0.4, 0.5, 0.3),
}


def of_a(arms: Sequence[Arm]) -> npt.NDArray[np.bool_]:
    """Which blocks are A's."""
    return np.array([arm is Arm.A for arm in arms])


def trial(repetitions: Sequence[TrialRepetition], pairs: int, seed: int) -> Trial:
    """A trial of some repetitions."""
    return Trial(1, BEGAN, "blip-3-good", A, B, pairs, seed, True, tuple(repetitions))


def seeds(count: int, rng: np.random.Generator) -> list[int]:
    """Seeds of lots, as a game draws them."""
    found: list[int] = rng.integers(2**63, size=count).tolist()
    return found


def trials(dips: Floats, worse: float, rng: np.random.Generator) -> list[Trial]:
    """One for each row of dips, A's dips being higher by so many points."""
    pairs = dips.shape[1] // 2
    made = []
    for seed, row in zip(seeds(len(dips), rng), dips, strict=True):
        raised = (row + worse * of_a(order(seed, pairs))[:, None]).ravel().tolist()
        tried = (
            TrialRepetition(number, number // BLOCK, DAY, Reason.CLEAN, dip, None, None, 1)
            for number, dip in enumerate(raised)
        )
        made.append(trial(list(tried), pairs, seed))
    return made


def drawn(
    own: Mapping[Arm, Sequence[TrialRepetition]], pairs: int, times: int, rng: np.random.Generator
) -> list[Trial]:
    """Trials whose repetitions are drawn from those of each arm, again and again."""
    made = []
    for seed in seeds(times, rng):
        tried = [
            replace(own[arm][place % len(own[arm])], block=block)
            for block, arm in enumerate(order(seed, pairs))
            for place in rng.integers(2**32, size=BLOCK).tolist()
        ]
        made.append(trial(tried, pairs, seed))
    return made


def lots(times: int, pairs: int, rng: np.random.Generator) -> npt.NDArray[np.bool_]:
    """Which blocks are A's in so many trials, by lot."""
    return np.array([of_a(order(seed, pairs)) for seed in seeds(times, rng)])


def differences(dips: Floats, arms: npt.NDArray[np.bool_]) -> Floats:
    """Median of B less that of A of each pair; `arms` says which blocks are A's, trial by trial."""
    pairs = np.median(dips, axis=2).reshape(len(dips), -1, 2)
    first = arms.reshape(len(dips), -1, 2)[:, :, 0]
    return np.where(first, 1, -1) * (pairs[:, :, 1] - pairs[:, :, 0])
