"""Movement of one axis: how far it has moved from its start, and how long it has been still.

Everything is in raw units, as the ends of the pedal are not known yet.
"""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass
from statistics import median

from drills.trace import nanoseconds

FOUND = 0.5
"""Movement that identifies the axis of a pedal, in raw units: a quarter of an axis's travel."""
STILL = 0.04
"""Range within which an axis counts as still, in raw units: ten times a poor pedal's noise."""
STILL_FOR = nanoseconds(0.5)
"""Time that an axis must be still before its position is used, in ns."""
NEAR = 0.25
"""Share of its travel so far within which an axis counts as released."""
TURNED = (0.15, 0.85)
"""Distances from 0 between which an axis rests that may be a wheel turned to one side, in raw
units: a straight wheel rests nearer to 0, and most pedals near 0 or near an end."""
STRAIGHT = 0.05
"""Distance from 0 within which a wheel that was let go comes to rest, in raw units."""
SAME = 0.002
"""Distance within which two values of an axis are the same position, in raw units: a sixth of the
movement that SDL does not report."""


@dataclass
class Travel:
    """Movement of one axis since its first value, in raw units."""

    opening: float
    """First value of the axis, in raw units."""
    start: float = 0.0
    """Position of the pedal before it moved, in raw units."""
    low: float = 0.0
    """Least value of the axis since it first moved, in raw units."""
    high: float = 0.0
    """Greatest value of the axis since it first moved, in raw units."""
    moved: bool = False
    """Whether the axis has moved at all."""
    way: int = 0
    """Direction in which the axis first moved by FOUND: 1 up, -1 down, 0 not yet."""

    def take(self, value: float) -> None:
        """Take the next raw value of the axis.

        A device that reports nothing until it moves reads 0.0 first and then jumps to the actual
        position, which is then taken as the start.
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
        """Whether the pedal, once it has moved by FOUND, is released again at this raw value."""
        return self.is_back(value, self.way)

    def is_back(self, value: float, way: int) -> bool:
        """Whether the pedal is back near its start or beyond, or exactly at its opening value.

        `way` is the direction of pressing: 1 up, -1 down. A pedal that was pressed at the start
        goes beyond the start when it is released.
        """
        pressed = way * (value - self.start)
        return pressed <= NEAR * self.length or abs(value - self.opening) <= SAME

    @property
    def length(self) -> float:
        """Distance from the least value of the axis to the greatest, in raw units."""
        return self.high - self.low

    @property
    def reach(self) -> float:
        """Farthest distance of the axis from its start, in raw units."""
        return max(self.high - self.start, self.start - self.low)

    @property
    def other_side(self) -> float:
        """Farthest distance from the start on the side where the axis moved less, in raw units."""
        return min(self.high - self.start, self.start - self.low)

    @property
    def farther(self) -> int:
        """Direction in which the axis has been farthest from its start: 1 up, -1 down."""
        return 1 if self.farthest(self.start) == self.high else -1

    @property
    def was_turned(self) -> bool:
        """Whether the axis started where a wheel does that is held to one side."""
        least, most = TURNED
        return least <= abs(self.start) <= most

    def is_straight(self, value: float) -> bool:
        """Whether the axis is in the middle, where a wheel that is let go comes to rest."""
        return abs(value) <= STRAIGHT

    def away(self, value: float) -> float:
        """Position of a raw value between the start of the axis (0) and its farthest place (1)."""
        return self.farther * (value - self.start) / self.reach if self.reach > 0 else 0.0

    def farthest(self, place: float) -> float:
        """Least or greatest value of the axis, whichever is farther from a place, in raw units."""
        return self.high if self.high - place > place - self.low else self.low


class Still:
    """Measures how long the value of an axis has stayed within a tolerance, and where."""

    def __init__(self, over: int = STILL_FOR) -> None:
        """`over` is the time that its position is the median of, in ns."""
        self._over = over
        self._since: int | None = None
        self._low = 0.0
        self._high = 0.0
        self._latest: deque[tuple[int, float]] = deque()

    @property
    def place(self) -> float:
        """Position of the axis: the median of its latest values, in raw units."""
        return median(value for _, value in self._latest)

    def take(self, time: int, value: float, tolerance: float = STILL) -> int:
        """Take the next raw value of an axis; returns how long it stayed in `tolerance`, in ns."""
        low, high = min(self._low, value), max(self._high, value)
        if self._since is None or high - low > tolerance:
            self._since, self._low, self._high = time, value, value
            self._latest.clear()
        else:
            self._low, self._high = low, high
        self._latest.append((time, value))
        while time - self._latest[0][0] > self._over:
            self._latest.popleft()
        return time - self._since
