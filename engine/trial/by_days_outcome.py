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
from dataclasses import dataclass, replace
from statistics import fmean

from drills.score import Reason
from engine.trial.blips_compared import BlipsCompared
from engine.trial.by_days import DayBlip
from engine.trial.difference import Difference
from engine.trial.outcome import ArmCount, Finding, finding_of
from engine.trial.randomisation import order
from engine.trial.sign_flip import SignFlip
from engine.trial.trial import FEWEST_PAIRS, Arm

LEAST = 0.1
"""Smallest deviation whose logarithm is taken, in points: less than any pedal resolves."""

Size = Callable[[DayBlip], float | None]
"""Function that reads one figure of a blip; None if it was not measured."""
Pairs = Sequence[tuple[float, float]]
"""Value of the day with A and of the day with B, pair by pair."""


@dataclass(frozen=True)
class DaysOutcome:
    """Outcome of a trial by days."""

    finding: Finding
    """What the trial finds about the two set-ups."""
    steadier: Arm | None
    """Set-up that was found steadier; None unless the finding says that one is."""
    raw: Difference
    """Comparison of the deviations as they were, in points; without values if none was measured."""
    blips: BlipsCompared
    """Comparison of the throttle peaks, and of the deviations at a blip of 60 %; without values
    likewise."""
    counts: tuple[ArmCount, ArmCount]
    """Numbers of blips played with A and with B, by how they ended."""
    pairs: int
    """Number of pairs of days."""
    recalibrated: bool = False
    """Whether the pedals were calibrated between days, so that A and B may read differently."""

    @property
    def hangs_on_size(self) -> bool:
        """Whether raw and scaled figures say different things, and the blips differ in size."""
        return self.raw.p is not None and not self.blips.agree(self.raw) and self.blips.differ


def days_outcome(
    blips: Sequence[DayBlip], seed: int, pairs: int, *, recalibrated: bool = False
) -> DaysOutcome:
    """Outcome of a trial of so many pairs of days, in all of which blips counted."""
    arms = order(seed, pairs)
    days = _days(blips, 2 * pairs)
    raw = _ratio(_paired(_logarithms(days, lambda blip: blip.deviation), arms))
    scaled = _ratio(_paired(_logarithms(days, lambda blip: blip.scaled), arms))
    compared = BlipsCompared(scaled, _difference("peak", _paired(_peaks(days), arms)))
    counts = _count(days, blips, arms, Arm.A), _count(days, blips, arms, Arm.B)
    finding, steadier = finding_of(raw, compared, counts)
    return DaysOutcome(finding, steadier, raw, compared, counts, pairs, recalibrated)


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


def _difference(measure: str, pairs: Pairs) -> Difference:
    """Comparison of the values of a measure; without any in fewer than FEWEST_PAIRS pairs."""
    if len(pairs) < FEWEST_PAIRS:
        return Difference(measure, None, None, None, pairs=len(pairs))
    a, b = (fmean(arm) for arm in zip(*pairs, strict=True))
    test = SignFlip.of([b - a for a, b in pairs])
    return Difference(measure, a, b, b - a, test.low, test.high, test.p, len(pairs))


def _ratio(pairs: Pairs) -> Difference:
    """Comparison of deviations whose logarithms the pairs hold, told in points."""
    found = _difference("dip", pairs)
    if found.a is None or found.b is None or found.low is None or found.high is None:
        return Difference(found.measure, None, None, None, pairs=found.pairs)
    a, b = math.exp(found.a), math.exp(found.b)
    low, high = (in_points(end, math.sqrt(a * b)) for end in (found.low, found.high))
    return replace(found, a=a, b=b, value=b - a, low=low, high=high)


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
