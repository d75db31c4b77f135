"""Made-up blips of trials by days for tests."""

from collections.abc import Callable, Sequence
from math import exp

from drills.score import Reason
from engine.practice.blip_size import BLIP
from engine.trial.by_days import DayBlip
from engine.trial.randomisation import order
from engine.trial.trial import DAY_PAIRS, Arm

SEED = 7
SPREAD = (-0.3, -0.1, 0.0, 0.0, 0.1, 0.3)
"""Logarithms by which the blips of a day lie around their middle."""


def blip(
    block: int, deviation: float | None = 8.0, peak: float | None = BLIP, **changes: Reason
) -> DayBlip:
    """A clean blip of a day."""
    return DayBlip(block, changes.get("reason", Reason.CLEAN), deviation, peak)


def days(
    middle: Callable[[Arm, int], float],
    peaks: Callable[[Arm, int], float] = lambda _, __: BLIP,
    spread: Sequence[float] = SPREAD,
) -> list[DayBlip]:
    """All blips of a trial; `middle` gives the points of a day at a blip of 60 %, by arm and pair.

    `peaks` gives the throttle of the day's blips, in %; the deviations are proportional to it.
    """
    return [
        blip(block, middle(arm, block // 2) * peak / BLIP * exp(around), peak)
        for block, arm in enumerate(order(SEED, DAY_PAIRS))
        for around in spread
        for peak in [peaks(arm, block // 2)]
    ]
