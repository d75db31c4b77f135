"""Finding a pedal by moving it, and learning where its ends are.

The finder is told only what all axes read and when, so it works for inverted axes, for several
devices, and for devices that report nothing until they are moved.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from drills.trace import nanoseconds
from engine.pedals.calibration import SPAN_LEAST, Range
from engine.pedals.identity import Axis

FOUND = 0.5
"""raw, movement that tells which axis a pedal is: a quarter of an axis's whole travel."""
STILL = 0.04
"""raw, an axis that stays within this is held still: ten times the noise of a poor pedal."""
STILL_FOR = nanoseconds(0.5)
"""ns an axis must be still to be read."""
NEAR = 0.25
"""1, share of the travel seen within which a still axis counts as let go."""
FULL_ENOUGH = 0.6
"""1, share of the first press that a full press must reach; the first one may be a stomp."""
SAME = 0.002
"""raw, values this close are the same position: a sixth of the movement SDL lets pass unseen."""


class Motion(StrEnum):
    """The movement that the finder waits for."""

    FIND = "find"
    RELEASE = "release"
    FULL = "full"
    AGAIN = "release again"
    FOUND = "found"


class Trouble(StrEnum):
    """Why a pedal cannot be bound as it was moved."""

    TAKEN = "taken"
    SHARED = "shared axis"


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

    def is_let_go(self, value: float) -> bool:
        """Near where it started; or exactly back at 0.0, where a silent device never rests."""
        return abs(value - self.start) <= NEAR * self.length or abs(value - self.opening) <= SAME

    @property
    def length(self) -> float:
        """raw, how far it has moved."""
        return self.high - self.low

    @property
    def pressed(self) -> float:
        """raw, the end that lies farther from the start."""
        return self.high if self.high - self.start > self.start - self.low else self.low


class Finder:
    """Finds one pedal: press it, release it, press it fully, release it."""

    def __init__(self, taken: Mapping[Axis, Range] | None = None) -> None:
        """`taken` are the axes bound to other pedals already."""
        self._taken = dict(taken or {})
        self._seen: dict[Axis, Travel] = {}
        self._motion = Motion.FIND
        self._axis: Axis | None = None
        self._trouble: Trouble | None = None
        self._still: _Still = _Still()
        self._rest = 0.0
        self._full = 0.0

    @property
    def motion(self) -> Motion:
        """What it waits for now."""
        return self._motion

    @property
    def trouble(self) -> Trouble | None:
        """What was wrong with the last movement; None where nothing was."""
        return self._trouble

    @property
    def found(self) -> tuple[Axis, Range] | None:
        """The axis and its ends, once found."""
        if self._motion is not Motion.FOUND or self._axis is None:
            return None
        return self._axis, Range(self._rest, self._full)

    def feed(self, time: int, values: Mapping[Axis, float]) -> None:
        """Take what every axis reads at `time` (ns)."""
        for axis in [known for known in self._seen if known not in values]:
            del self._seen[axis]
        for axis, value in values.items():
            self._seen.setdefault(axis, Travel(value)).take(value)
        if self._motion is Motion.FIND:
            self._find()
        elif self._axis is None or self._axis not in values:
            self._begin_again(None)
        elif self._still.take(time, values[self._axis]):
            self._read_end(values[self._axis])

    def _find(self) -> None:
        moved = max(self._seen, key=lambda axis: self._seen[axis].length, default=None)
        if moved is None or self._seen[moved].length < FOUND:
            return
        if moved in self._taken:
            self._begin_again(self._why_taken(moved))
            return
        self._axis, self._motion, self._trouble = moved, Motion.RELEASE, None
        self._still = _Still()

    def _why_taken(self, axis: Axis) -> Trouble:
        """A pedal that drives a bound axis past its rest shares that axis with the bound pedal."""
        ends, seen = self._taken[axis], self._seen[axis]
        reach = min(ends.percent(seen.low), ends.percent(seen.high))
        return Trouble.SHARED if reach < -100 * NEAR else Trouble.TAKEN

    def _read_end(self, value: float) -> None:
        """The axis is still: take its value if it is at the end that was asked for."""
        assert self._axis is not None
        seen = self._seen[self._axis]
        match self._motion:
            case Motion.RELEASE if seen.is_let_go(value):
                self._rest, self._motion = value, Motion.FULL
            case Motion.FULL if abs(value - self._rest) >= FULL_ENOUGH * abs(
                seen.pressed - self._rest
            ):
                self._full, self._motion = value, Motion.AGAIN
            case Motion.AGAIN if abs(value - self._rest) <= NEAR * abs(self._full - self._rest):
                self._rest, self._motion = (self._rest + value) / 2, Motion.FOUND
                if abs(self._full - self._rest) < SPAN_LEAST:
                    self._begin_again(None)
            case _:
                return
        self._still = _Still()

    def _begin_again(self, trouble: Trouble | None) -> None:
        self._seen, self._axis = {}, None
        self._motion, self._trouble = Motion.FIND, trouble


class _Still:
    """Whether a value has stayed within STILL for STILL_FOR."""

    def __init__(self) -> None:
        self._since: int | None = None
        self._low = 0.0
        self._high = 0.0

    def take(self, time: int, value: float) -> bool:
        low, high = min(self._low, value), max(self._high, value)
        if self._since is None or high - low > STILL:
            self._since, self._low, self._high = time, value, value
            return False
        self._low, self._high = low, high
        return time - self._since >= STILL_FOR
