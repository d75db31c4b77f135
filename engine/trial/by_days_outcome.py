"""Outcome of a trial by days: what its steadiness blips say about the two set-ups.

The staircase's tolerance follows the foot, so the deviations are compared and never the tolerance.
The value of a day is the mean of the logarithm of its blips' deviations; every pair of days gives
the value of day B less that of day A, and their mean is tested by flipping signs (`sign_flip.py`).
It is told in points: with `d` the mean difference and `m` the geometric mean of both arms, B less A
is `2 m sinh(d / 2)`, just the difference of the two arms' geometric means; an end of the interval
is told in the same way.

A blip grows what it disturbs. So the deviations are tested scaled to one size of blip and raw, and
a set-up is steadier only where both say so. The throttle peaks are tested as well: the mean of day
B less that of day A. Where the blips differ, that is named.

A blip that counts takes the largest value of the whole trial where it has none and where the foot
did less than was asked (see `outcome.py`). An arm of which more than half failed has no finding.

The mean finds as much as the median of a day, or more, and the finding is wrong as seldom:
`tests/bench/trial_days.py`.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from statistics import fmean

from drills.score import Reason
from engine.trial.blips_compared import NOTICEABLE_BLIP
from engine.trial.by_days import DayBlip
from engine.trial.outcome import NOTICEABLE, ArmCount, Finding
from engine.trial.randomisation import order
from engine.trial.sign_flip import LEVEL, SignFlip
from engine.trial.trial import Arm

LEAST = 0.1
"""Smallest deviation whose logarithm is taken, in points: less than any pedal resolves."""


Size = Callable[[DayBlip], float | None]
"""Function that reads one figure of a blip; None if it was not measured."""
Pairs = Sequence[tuple[float, float]]
"""Value of the day with A and of the day with B, pair by pair."""


@dataclass(frozen=True)
class Compared:
    """One figure compared between the days with A and those with B."""

    a: float
    """Typical value with A, in the unit of the figure."""
    b: float
    """Typical value with B, in the unit of the figure."""
    low: float
    """Low end of the 95 % interval of B less A, in the unit of the figure."""
    high: float
    """High end of the 95 % interval of B less A, in the unit of the figure."""
    p: float
    """Two-sided p-value of the sign-flip test over the pairs of days."""

    @property
    def value(self) -> float:
        """B less A, in the unit of the figure."""
        return self.b - self.a

    @property
    def less(self) -> Arm | None:
        """Set-up with the lower value; None if chance alone explains the difference."""
        if self.p > LEVEL:
            return None
        return Arm.B if self.value < 0 else Arm.A

    @property
    def is_small(self) -> bool:
        """Whether the whole interval lies below what a player would notice, in points."""
        return self.low > -NOTICEABLE and self.high < NOTICEABLE


@dataclass(frozen=True)
class DaysOutcome:
    """Outcome of a trial by days."""

    finding: Finding
    """What the trial finds about the two set-ups."""
    steadier: Arm | None
    """Set-up that was found steadier; None unless the finding says that one is."""
    scaled: Compared | None
    """Comparison of the deviations at a blip of 60 %, in points; None if none was measured."""
    raw: Compared | None
    """Comparison of the deviations as they were, in points; None if none was measured."""
    peak: Compared | None
    """Comparison of the throttle peaks, in %; None if a day has none."""
    counts: tuple[ArmCount, ArmCount]
    """Numbers of blips played with A and with B, by how they ended."""
    pairs: int
    """Number of pairs of days."""
    recalibrated: bool = False
    """Whether the pedals were calibrated between days, so that A and B may read differently."""

    @property
    def blips_differ(self) -> bool:
        """Whether the blips of A and B differ by more than chance explains, and noticeably."""
        peak = self.peak
        return peak is not None and peak.less is not None and abs(peak.value) >= NOTICEABLE_BLIP

    @property
    def hangs_on_size(self) -> bool:
        """Whether raw and scaled figures say different things, and the blips differ in size."""
        if self.scaled is None or self.raw is None:
            return False
        return self.scaled.less is not self.raw.less and self.blips_differ


def days_outcome(
    blips: Sequence[DayBlip], seed: int, pairs: int, *, recalibrated: bool = False
) -> DaysOutcome:
    """Outcome of a trial of so many pairs of days, in all of which blips counted."""
    arms = order(seed, pairs)
    days = _days(blips, 2 * pairs)
    scaled = _ratio(_paired(_logarithms(days, lambda blip: blip.scaled), arms))
    raw = _ratio(_paired(_logarithms(days, lambda blip: blip.deviation), arms))
    counts = _count(days, blips, arms, Arm.A), _count(days, blips, arms, Arm.B)
    finding, steadier = _finding(scaled, raw, counts)
    peak = _difference(_paired(_peaks(days), arms))
    return DaysOutcome(finding, steadier, scaled, raw, peak, counts, pairs, recalibrated)


def _finding(
    scaled: Compared | None, raw: Compared | None, counts: Sequence[ArmCount]
) -> tuple[Finding, Arm | None]:
    if scaled is None or raw is None or not all(count.is_telling for count in counts):
        return Finding.CANNOT_TELL, None
    if scaled.is_small and raw.is_small:
        return Finding.NO_DIFFERENCE, None
    if scaled.less is None or scaled.less is not raw.less:
        return Finding.CANNOT_TELL, None
    return Finding.STEADIER, scaled.less


def _days(blips: Sequence[DayBlip], count: int) -> list[list[DayBlip]]:
    """Blips that count, day by day."""
    days = defaultdict[int, list[DayBlip]](list)
    for blip in blips:
        if not blip.void:
            days[blip.block].append(blip)
    return [days[block] for block in range(count)]


def _logarithms(days: Sequence[Sequence[DayBlip]], size: Size) -> list[float] | None:
    """Mean logarithm of a figure on each day; failed blips take the largest of the trial."""
    sizes = [value for day in days for blip in day if (value := size(blip)) is not None]
    if not sizes or not all(days):
        return None
    worst = max(sizes)

    def logarithm(blip: DayBlip) -> float:
        value = size(blip) if blip.is_done else worst
        return math.log(max(worst if value is None else value, LEAST))

    return [fmean(map(logarithm, day)) for day in days]


def _peaks(days: Sequence[Sequence[DayBlip]]) -> list[float] | None:
    """Mean throttle peak of each day, in %; None if a day has none."""
    peaks = [[blip.peak for blip in day if blip.peak is not None] for day in days]
    return [fmean(day) for day in peaks] if all(peaks) else None


def _paired(values: Sequence[float] | None, arms: Sequence[Arm]) -> Pairs:
    """Value of each pair's day with A and of its day with B."""
    if values is None:
        return []
    firsts = range(0, len(arms), 2)
    return [
        (values[n], values[n + 1]) if arms[n] is Arm.A else (values[n + 1], values[n])
        for n in firsts
    ]


def _difference(pairs: Pairs) -> Compared | None:
    """Comparison of values whose difference is told as it is; None with too few pairs."""
    test = SignFlip.of([b - a for a, b in pairs]) if pairs else None
    if test is None or test.low is None or test.high is None:
        return None
    a, b = (fmean(arm) for arm in zip(*pairs, strict=True))
    return Compared(a, b, test.low, test.high, test.p)


def _ratio(pairs: Pairs) -> Compared | None:
    """Comparison of values of which the pairs hold logarithms, told in the unit of the values."""
    found = _difference(pairs)
    if found is None:
        return None
    a, b = math.exp(found.a), math.exp(found.b)
    low, high = (in_points(end, math.sqrt(a * b)) for end in (found.low, found.high))
    return Compared(a, b, low, high, found.p)


def in_points(difference: float, middle: float) -> float:
    """Difference of two values with this difference of logarithms and this geometric mean."""
    return 2 * middle * math.sinh(difference / 2)


def _count(
    days: Sequence[Sequence[DayBlip]], blips: Sequence[DayBlip], arms: Sequence[Arm], arm: Arm
) -> ArmCount:
    counted = [blip for block, day in enumerate(days) if arms[block] is arm for blip in day]
    void = sum(blip.void and arms[blip.block] is arm for blip in blips)
    left = sum(blip.reason is Reason.WALKED_OUT for blip in counted)
    failed = sum(not blip.is_done for blip in counted) - left
    return ArmCount(len(counted), void, left, failed)
