"""Finding a pedal by moving it, learning where its ends are, and checking them with the feet off.

All is told only what the axes read and when, so it works for inverted axes, for several devices,
and for devices that report nothing until they are moved. A foot that was on the pedal at the
start and is lifted looks just like one that presses an inverted pedal; only the check tells.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from drills.trace import nanoseconds
from engine.pedals.calibration import COUNTS, SPAN_LEAST, Range
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
DOUBTED = nanoseconds(3.0)
"""ns a pedal to be let go may stay where it is before that is doubted: one reads, then moves."""
GIVEN_UP = nanoseconds(8.0)
"""ns after which it is looked for anew; a slow but willing person has let go by then."""
QUIET = 0.1
"""raw, movement of any axis that still counts as nothing moving: feet come off by more."""
RESTED = nanoseconds(1.0)
"""ns nothing must move for the feet to be off."""
CONTRADICTED = nanoseconds(6.0)
"""ns after which a pedal that reads as pressed is taken to be set up wrongly."""
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
    """It is set up already."""
    SHARED = "shared axis"
    """It moves the axis of another pedal, the other way."""
    PRESSED = "pressed"
    """It was to be let go and did not move; perhaps the foot is off it."""


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
            self.way = 1 if self.farthest(self.start) == self.high else -1

    def is_let_go(self, value: float) -> bool:
        """Near where it started or on the other side of it, where the start was no rest.

        Or exactly back at 0.0, where a silent device never rests.
        """
        pressed = self.way * (value - self.start)
        return pressed <= NEAR * self.length or abs(value - self.opening) <= SAME

    @property
    def length(self) -> float:
        """raw, how far it has moved."""
        return self.high - self.low

    def farthest(self, place: float) -> float:
        """raw, the end that lies farther from a place."""
        return self.high if self.high - place > place - self.low else self.low


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
        self._first = 0.0
        self._full = 0.0

    @property
    def motion(self) -> Motion:
        """What it waits for now."""
        return self._motion

    @property
    def trouble(self) -> Trouble | None:
        """What was wrong with the last movement, or is with this one; None where nothing is."""
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
        else:
            self._wait(time, values[self._axis])

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

    def _wait(self, time: int, value: float) -> None:
        """Once the axis is still, read the end that was asked for; doubt it if it is elsewhere."""
        still = self._still.take(time, value)
        if still >= STILL_FOR and self._is_asked(value):
            self._read_end(value)
        elif self._motion is Motion.FULL or still < DOUBTED:
            self._trouble = None
        elif still < GIVEN_UP:
            self._trouble = Trouble.PRESSED
        else:
            self._begin_again(Trouble.PRESSED)

    def _is_asked(self, value: float) -> bool:
        assert self._axis is not None
        match self._motion:
            case Motion.RELEASE:
                return self._seen[self._axis].is_let_go(value)
            case Motion.FULL:
                share = (value - self._rest) / (self._first - self._rest)
                return share >= FULL_ENOUGH
            case Motion.AGAIN:
                return abs(value - self._rest) <= NEAR * abs(self._full - self._rest)
            case _:
                return False

    def _read_end(self, value: float) -> None:
        assert self._axis is not None
        self._still, self._trouble = _Still(), None
        match self._motion:
            case Motion.RELEASE:
                self._rest, self._first = value, self._seen[self._axis].farthest(value)
                self._motion = Motion.FULL
            case Motion.FULL:
                self._full, self._motion = value, Motion.AGAIN
            case Motion.AGAIN:
                between = round((self._rest + value) / 2 * COUNTS) / COUNTS
                self._rest, self._motion = between, Motion.FOUND
                if abs(self._full - self._rest) < SPAN_LEAST:
                    self._begin_again(None)

    def _begin_again(self, trouble: Trouble | None) -> None:
        self._seen, self._axis = {}, None
        self._motion, self._trouble = Motion.FIND, trouble


class _Still:
    """How long a value has stayed within STILL."""

    def __init__(self) -> None:
        self._since: int | None = None
        self._low = 0.0
        self._high = 0.0

    def take(self, time: int, value: float) -> int:
        """ns that it has been still, with this value."""
        low, high = min(self._low, value), max(self._high, value)
        if self._since is None or high - low > STILL:
            self._since, self._low, self._high = time, value, value
        else:
            self._low, self._high = low, high
        return time - self._since


class AtRest:
    """Whether the feet are off all pedals, and whether the pedals known so far agree."""

    def __init__(self, known: Mapping[Axis, Range]) -> None:
        """`known` are the axes bound to pedals already."""
        self._known = dict(known)
        self._quiet: dict[Axis, float] = {}
        self._since: int | None = None
        self._still = 0
        self._pressed: Axis | None = None

    @property
    def rested(self) -> bool:
        """Nothing moves, and every known pedal is let go."""
        return self._still >= RESTED and self._pressed is None

    @property
    def pressed(self) -> Axis | None:
        """A known pedal that reads as pressed while nothing moves; None where there is none."""
        return self._pressed if self._still >= DOUBTED else None

    @property
    def contradicts(self) -> bool:
        """It has read so for so long that no foot is on it: its ends are the wrong way round."""
        return self._still >= CONTRADICTED and self._pressed is not None

    def feed(self, time: int, values: Mapping[Axis, float]) -> None:
        """Take what every axis reads at `time` (ns). One that is not there is not judged."""
        moved = self._quiet.keys() != values.keys() or any(
            abs(value - self._quiet[axis]) > QUIET for axis, value in values.items()
        )
        if moved or self._since is None or not values:
            self._quiet, self._since = dict(values), time
        self._still = time - self._since
        self._pressed = next(
            (
                axis
                for axis, ends in self._known.items()
                if axis in values and ends.percent(values[axis]) >= 100 * NEAR
            ),
            None,
        )
