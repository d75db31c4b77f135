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
from scipy import stats

from drills.score import Reason
from engine.practice.blip_size import BLIP
from engine.trial.randomisation import order
from engine.trial.trial import BLOCK, Arm, SetUp, Trial, TrialRepetition

Floats = npt.NDArray[np.float64]
DAY = date(2024, 5, 17)
BEGAN = datetime(2024, 5, 17, 20, 15, tzinfo=UTC)
A, B = SetUp("ball"), SetUp("toes")
COUNTS = (40.0, 80.0)
"""%, blips that count."""
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


@dataclass(frozen=True)
class Blips:
    """The blips with one set-up, and how a dip grows with them."""

    typical: float = BLIP
    """%, throttle at their peak in the middle."""
    spread: float = 6.0
    """%, standard deviation of it; a blip outside 40 to 80 is drawn again."""
    grows: float = 1.0
    """1, exponent of the blip in the dip: 1 for a dip in proportion to it, 0 for one as deep."""

    def peaks(self, shape: tuple[int, ...], rng: np.random.Generator) -> Floats:
        """Throttle at the peak of many blips, in %."""
        low, high = stats.norm.cdf((np.array(COUNTS) - self.typical) / self.spread).tolist()
        drawn: Floats = stats.norm.ppf(rng.uniform(low, high, shape))
        return self.typical + self.spread * drawn


ALIKE = (Blips(), Blips())
"""The blips of a foot that blips alike in both positions."""
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


def trials(
    dips: Floats, worse: float, rng: np.random.Generator, blips: Sequence[Blips] = ALIKE
) -> list[Trial]:
    """One for each row of dips, which are at blips of 60 %, A's being higher by so many points.

    `blips` are those of A and of B, and make the dips deeper or less deep.
    """
    pairs = dips.shape[1] // 2
    peaks = [each.peaks(dips.shape, rng) for each in blips]
    made = []
    for place, (seed, row) in enumerate(zip(seeds(len(dips), rng), dips, strict=True)):
        is_a = of_a(order(seed, pairs))[:, None]
        of_blips = np.where(is_a, peaks[0][place], peaks[1][place])
        grows = np.where(is_a, blips[0].grows, blips[1].grows)
        deep = ((row + worse * is_a) * (of_blips / BLIP) ** grows).ravel().tolist()
        tried = (
            TrialRepetition(
                number, number // BLOCK, DAY, Reason.CLEAN, dip, None, None, 1, peak=peak
            )
            for number, (dip, peak) in enumerate(zip(deep, of_blips.ravel().tolist(), strict=True))
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
