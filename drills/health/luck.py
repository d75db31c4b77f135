"""Levels that are partly luck with a rig: its own error takes half of one of their limits."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from drills.health.pedal import PedalHealth
from drills.level import Level
from drills.measures.catalogue import CATALOGUE
from drills.measures.device import SELDOM
from drills.measures.easing import TURN
from drills.trace import Pedal

HALF = 2.0
"""A limit is partly luck where the rig's own error takes a half of it or more."""
WINDOW = 1.0
"""Length of what an extreme value is taken from, in s: a blip and the time after it."""
AVERAGED = 10
"""Reports that a mean is taken over, at least: 0.1 s at 100 a second (`measures`: base)."""
COARSEST = 2.0
"""Largest step at which repetitions are judged, in points: half of most targets' bands."""
EULER = 0.5772156649
"""Euler's constant."""
EXTREMES = frozenset(
    {"dip", "surge", "rebound", "overshoot", "ramp_worst", "swing", "line_worst", "peak_error"}
    | {f"dip_{place}" for place in range(1, 5)}
)
"""Measures that are the largest of many values, which noise adds to."""
SPREADS = frozenset({"variable_error", "total_error", "ramp_error", "line_error", "tremor"})
"""Measures that are root mean squares, in which noise adds by its square."""


@dataclass(frozen=True)
class Hardware:
    """What a rig can show of a repetition."""

    step: float
    """Step of the brake, in points."""
    noise: float
    """Noise of the brake, a standard deviation in points."""
    interval: float
    """Time between reports of the slower one of brake and throttle, in s."""

    @property
    def extreme(self) -> float:
        """How far the rig alone makes the brake stray in a second, in points.

        The expected largest of n normal values is r - (ln ln n + ln 4 pi - 2 g) / (2 r) times their
        spread, with r = sqrt(2 ln n) and Euler's constant g (Gumbel; Cramer 1946, 28.6); a step if
        that is more. Error: 3 %.
        """
        count = max(WINDOW / self.interval, 3.0)
        root = math.sqrt(2 * math.log(count))
        less = math.log(math.log(count)) + math.log(4 * math.pi) - 2 * EULER
        largest = root - less / (2 * root)
        return max(largest * self.noise, self.step)

    @property
    def dip_least(self) -> float:
        """Smallest limit on a dip or rise that is not partly luck, in points."""
        return HALF * self.extreme

    @property
    def wander_least(self) -> float:
        """Smallest limit on wander, a root mean square, that is not partly luck, in points."""
        return HALF * math.hypot(self.noise, self.step / math.sqrt(12))

    @property
    def time_least(self) -> float:
        """Shortest limit on a time that is not partly luck, in s.

        A movement is seen up to one report late, and so is what it is measured from.
        """
        return HALF * self.interval

    @property
    def is_slow(self) -> bool:
        """Whether the device reports too seldom for any repetition to be judged."""
        return self.interval > SELDOM

    @property
    def is_coarse(self) -> bool:
        """Whether the steps of the brake are too large for any repetition to be judged."""
        return self.step > COARSEST

    @property
    def can_judge(self) -> bool:
        """Whether repetitions can be judged at all."""
        return not self.is_slow and not self.is_coarse

    def least(self, measure: str) -> float | None:
        """Smallest limit on a measure that is not partly luck, in its unit; None: any is fair."""
        unit = CATALOGUE[measure].unit
        if measure in EXTREMES:
            return self.dip_least
        if measure in SPREADS:
            return self.wander_least
        if unit == "points":
            return HALF * max(self.noise / math.sqrt(AVERAGED), self.step / 2)
        return self.time_least if unit == "s" else None


def hardware_of(pedals: Iterable[PedalHealth]) -> Hardware | None:
    """What a rig can show, by the health of its pedals; None where too little is known of them.

    Steps too large to judge by are enough, as no report can be told apart then.
    """
    healths = {health.pedal: health for health in pedals}
    brake, throttle = healths.get(Pedal.BRAKE), healths.get(Pedal.THROTTLE)
    if brake is None or throttle is None or brake.step is None:
        return None
    if brake.timing is not None and throttle.timing is not None:
        interval = max(brake.timing.interval, throttle.timing.interval)
        return Hardware(brake.step, brake.noise or 0.0, interval)
    coarse = Hardware(brake.step, brake.noise or 0.0, SELDOM)
    return coarse if coarse.is_coarse else None


def is_luck(level: Level, hardware: Hardware) -> bool:
    """Whether a level is partly luck with a rig: one of its limits is, or nothing can be judged.

    A level that limits when the brake is steady asks it to stay in its band, and one that limits
    reversals asks for rises of less than one. `tests/bench/luck.py` shows what becomes of levels.
    """
    if not hardware.can_judge:
        return True
    limits = [(limit, hardware.least(name)) for name, limit in level.limits.items()]
    if "settle" in level.limits:
        limits.append((level.band, hardware.dip_least))
    if "reversals" in level.limits:
        limits.append((TURN, hardware.dip_least))
    return any(least is not None and limit < least for limit, least in limits)


def luck(levels: Iterable[Level], hardware: Hardware | None) -> frozenset[str]:
    """Ids of the levels that are partly luck with a rig; none where nothing is known of it."""
    if hardware is None:
        return frozenset()
    return frozenset(level.id for level in levels if is_luck(level, hardware))
