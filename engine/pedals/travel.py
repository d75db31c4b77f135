"""What one axis has shown: how far it has moved from where it was, and how long it has been still.

Movements are judged in raw values, as nothing is known yet of where the ends of a pedal are.
"""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass
from statistics import median

from drills.trace import nanoseconds

FOUND = 0.5
"""raw, movement that tells which axis a pedal is: a quarter of an axis's whole travel."""
STILL = 0.04
"""raw, an axis that stays within this is held still: ten times the noise of a poor pedal."""
STILL_FOR = nanoseconds(0.5)
"""ns an axis must be still to be read."""
NEAR = 0.25
"""1, share of the travel seen within which a still axis counts as let go."""
SAME = 0.002
"""raw, values this close are the same position: a sixth of the movement SDL lets pass unseen."""


@dataclass
class Travel:
    """What one axis has shown since it was first looked at."""

    opening: float
    """raw, the first value."""
    start: float = 0.0
    """raw, where the pedal was before it moved."""
    low: float = 0.0
    """raw, least value since it moved."""
    high: float = 0.0
    """raw, greatest value since it moved."""
    moved: bool = False
    """Whether it has moved at all."""
    way: int = 0
    """1 where it first moved far upwards, -1 where downwards, 0 before."""

    def take(self, value: float) -> None:
        """Take the next value.

        A device that is silent until moved opens at 0.0 and jumps to where the pedal is.
        """
        if not self.moved:
            if value == self.opening:
                return
            self.moved = True
            self.start = value if self.opening == 0.0 else self.opening
            self.low = self.high = self.start
        self.low, self.high = min(self.low, value), max(self.high, value)
        if not self.way and self.length >= FOUND:
            self.way = self.farther

    def is_let_go(self, value: float) -> bool:
        """Whether the pedal that moved far is let go."""
        return self.is_back(value, self.way)

    def is_back(self, value: float, way: int) -> bool:
        """Near where it started or on the other side of it, where the start was no rest.

        Or exactly back at 0.0, where a silent device never rests. `way` is that of pressing.
        """
        pressed = way * (value - self.start)
        return pressed <= NEAR * self.length or abs(value - self.opening) <= SAME

    @property
    def length(self) -> float:
        """raw, how far it has moved."""
        return self.high - self.low

    @property
    def reach(self) -> float:
        """raw, how far it has been from where it started, on the side where it was farther."""
        return max(self.high - self.start, self.start - self.low)

    @property
    def other_side(self) -> float:
        """raw, the same on the side where it was less far."""
        return min(self.high - self.start, self.start - self.low)

    @property
    def farther(self) -> int:
        """1 where it has been farther upwards from where it started, -1 where downwards."""
        return 1 if self.farthest(self.start) == self.high else -1

    def away(self, value: float) -> float:
        """1, where a value lies between the start (0) and the farthest place from it (1)."""
        return self.farther * (value - self.start) / self.reach if self.reach > 0 else 0.0

    def farthest(self, place: float) -> float:
        """raw, the end that lies farther from a place."""
        return self.high if self.high - place > place - self.low else self.low


class Still:
    """How long a value has stayed within some tolerance, and where."""

    def __init__(self) -> None:
        self._since: int | None = None
        self._low = 0.0
        self._high = 0.0
        self._latest: deque[tuple[int, float]] = deque()

    @property
    def place(self) -> float:
        """raw, the median of what was read in the time that an axis must be still to be read."""
        return median(value for _, value in self._latest)

    def take(self, time: int, value: float, tolerance: float = STILL) -> int:
        """ns that it has been still within a tolerance (raw), with this value."""
        low, high = min(self._low, value), max(self._high, value)
        if self._since is None or high - low > tolerance:
            self._since, self._low, self._high = time, value, value
            self._latest.clear()
        else:
            self._low, self._high = low, high
        self._latest.append((time, value))
        while time - self._latest[0][0] > STILL_FOR:
            self._latest.popleft()
        return time - self._since
