"""`BrakingZone`: how a car slows for one corner, in closed form; the brake line and the beats.

The tyres allow a deceleration `a = grip + downforce v²`, and the brake is proportional to it. All
of it is used until the brake is eased off, evenly over a time, so that nothing is left at turn-in.
Flat road and no drag: a drill's corner, not a car's.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from drills.trace import Values

KMH = 1 / 3.6
"""One km/h, in m/s."""
STEP = 0.05
"""Time between two corners of the brake line while the downforce fades, in s."""

Line = tuple[tuple[float, float], ...]
"""Corners of a brake line in order: time from the braking point in s, and brake in %."""


@dataclass(frozen=True)
class BrakingZone:
    """Braking for one corner: from the braking point, at full use of the tyres, to turn-in."""

    fast: float
    """Speed at the braking point, in m/s."""
    slow: float
    """Speed at turn-in, in m/s."""
    grip: float
    """Deceleration that the tyres allow without downforce, in m/s²."""
    downforce: float
    """Deceleration that downforce adds, in m/s² for each (m/s)² of speed: in 1/m."""
    ease: float
    """Time over which the brake comes off before turn-in, in s."""

    @property
    def has_ease(self) -> bool:
        """Whether easing off can begin at any speed; too much downforce leaves none."""
        return self._root >= 0

    @property
    def is_possible(self) -> bool:
        """Whether easing off takes no more speed than there is between both ends."""
        return self.has_ease and self.slow < self.eased_at <= self.fast

    @property
    def eased_at(self) -> float:
        """Speed at which easing off begins, in m/s.

        The root of `v - a(v) ease / 2 = slow`: the deceleration falls evenly, so half of it counts.
        """
        return 2 * self._after_ease / (1 + math.sqrt(max(self._root, 0.0)))

    @property
    def eased_from(self) -> float:
        """Time from the braking point to the start of easing off, in s."""
        return self._time_down_to(self.eased_at)

    @property
    def seconds(self) -> float:
        """Time from the braking point to turn-in, in s."""
        return self.eased_from + self.ease

    @property
    def metres(self) -> float:
        """Distance from the braking point to turn-in, in m."""
        speed = self.eased_at
        hard = self.deceleration(speed)
        if self.downforce:
            full = math.log(self.deceleration(self.fast) / hard) / (2 * self.downforce)
        else:
            full = (self.fast**2 - speed**2) / (2 * self.grip)
        return full + speed * self.ease - hard * self.ease**2 / 3

    def deceleration(self, speed: float) -> float:
        """Deceleration that the tyres allow at a speed in m/s, in m/s²."""
        return self.grip + self.downforce * speed**2

    def speed(self, time: float) -> float:
        """Speed at a time from the braking point to turn-in in s, in m/s."""
        if time > self.eased_from:
            since = time - self.eased_from
            hard = self.deceleration(self.eased_at)
            return self.eased_at - hard * (since - since**2 / (2 * self.ease))
        if not self.downforce:
            return self.fast - self.grip * time
        share = math.sqrt(self.downforce / self.grip)
        angle = math.atan(self.fast * share) - math.sqrt(self.grip * self.downforce) * time
        return math.tan(angle) / share

    def time_at(self, speed: float) -> float:
        """Time from the braking point until the car is down to a speed in m/s, in s."""
        if speed >= self.eased_at:
            return self._time_down_to(speed)
        hard = self.deceleration(self.eased_at)
        left = 1 - 2 * (self.eased_at - speed) / (hard * self.ease)
        return self.eased_from + self.ease * (1 - math.sqrt(max(left, 0.0)))

    def line(self, peak: float) -> Line:
        """Brake line from `peak` (%) at the braking point to nothing at turn-in."""
        hardest = self.deceleration(self.fast)
        corners = max(math.ceil(self.eased_from / STEP), 1) if self.downforce else 1
        times = [self.eased_from * number / corners for number in range(corners + 1)]
        full = [(at, peak * self.deceleration(self.speed(at)) / hardest) for at in times]
        return (*full, (self.seconds, 0.0))

    @property
    def _after_ease(self) -> float:
        """Speed that easing off would begin at if the downforce at it were none, in m/s."""
        return self.slow + self.grip * self.ease / 2

    @property
    def _root(self) -> float:
        return 1 - 2 * self.downforce * self.ease * self._after_ease

    def _time_down_to(self, speed: float) -> float:
        """Time at full use of the tyres from the braking point to a speed in m/s, in s."""
        if not self.downforce:
            return (self.fast - speed) / self.grip
        share = math.sqrt(self.downforce / self.grip)
        angle = math.atan(self.fast * share) - math.atan(speed * share)
        return angle / math.sqrt(self.grip * self.downforce)


def spread(fast: float, slow: float, shifts: int) -> tuple[float, ...]:
    """Speeds of a number of shifts spread evenly between two speeds, the ends left out."""
    return tuple(fast + (slow - fast) * place / (shifts + 1) for place in range(1, shifts + 1))


def at_line(line: Sequence[tuple[float, float]], times: Values) -> Values:
    """Values of a line at times in s, of the shape of `times`; beyond its ends, those there."""
    at, values = zip(*line, strict=True)
    found: Values = np.interp(times, at, values)
    return found
