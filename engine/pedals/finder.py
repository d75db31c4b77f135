"""Finding a pedal by moving it: which axis it is, then where its two ends are.

All is told only what the axes read and when, so it works for inverted axes, for several devices,
and for devices that report nothing until they are moved.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from drills.calibration import Range
from engine.pedals.ends import FULL_AT_ONCE, RETURNED, Ends
from engine.pedals.identity import Axis
from engine.pedals.seeking import Insistence, Seeker
from engine.pedals.travel import FOUND, NEAR, Travel
from engine.pedals.trouble import Motion, Trouble


@dataclass(frozen=True)
class Found:
    """One pedal that was found."""

    axis: Axis
    """Where."""
    range: Range
    """Its ends."""


@dataclass(frozen=True)
class Position:
    """Where a pedal is while it is set up, for a picture of it."""

    place: float
    """1, between where it rested (0) and the farthest place that counts (1), or beyond."""
    low: float
    """1, where what is asked for begins."""
    high: float
    """1, where it ends."""


class Finder:
    """Finds one pedal: press it, release it, press it fully, release it."""

    def __init__(
        self,
        noise: Mapping[Axis, float],
        taken: Mapping[Axis, Range] | None = None,
        refused: Collection[Axis] = (),
    ) -> None:
        """`noise` (raw) is that of the axes that rest; `taken` are bound to other pedals already.

        `refused` are left out, unless one of them is kept down for long.
        """
        self.refused = set(refused)
        """The axes that are left out."""
        self._taken = dict(taken or {})
        self._seeker = Seeker(noise, self._taken, self.refused)
        self._insistence = Insistence()
        self._ends: Ends | None = None
        self._axis: Axis | None = None
        self._values: Mapping[Axis, float] = {}

    @property
    def motion(self) -> Motion:
        """What it waits for now."""
        return Motion.FIND if self._ends is None else self._ends.motion

    @property
    def trouble(self) -> Trouble | None:
        """What was wrong with the last movement, or is with this one; None where nothing is."""
        if self._insistence.about is not None:
            return Trouble.REFUSED if self._ends is None else Trouble.OTHER
        return self._seeker.trouble if self._ends is None else self._ends.trouble

    @property
    def about(self) -> Axis | None:
        """The axis that the trouble is about; None where it is about none."""
        if self._insistence.about is not None:
            return self._insistence.about
        return self._seeker.about if self._ends is None else self._axis

    @property
    def axis(self) -> Axis | None:
        """The axis that was found; None while one is looked for."""
        return None if self._ends is None else self._axis

    @property
    def moving(self) -> Axis | None:
        """The axis that has moved most while one is looked for; None where none has."""
        return self._seeker.most if self._ends is None else None

    @property
    def share(self) -> float:
        """1, how far it is pressed, of the press before."""
        return 0.0 if self._ends is None else self._ends.share

    @property
    def rest(self) -> float | None:
        """raw, where the pedal was let go the first time; None before."""
        return None if self._ends is None else self._ends.rest

    @property
    def found(self) -> Found | None:
        """The axis and its ends, once found."""
        ends = None if self._ends is None else self._ends.found
        return None if ends is None or self._axis is None else Found(self._axis, ends)

    @property
    def position(self) -> Position:
        """Where the pedal is; while it is looked for, the axis that has moved most."""
        match self.motion:
            case Motion.FIND:
                return self._sought()
            case Motion.FULL:
                return Position(self.share, FULL_AT_ONCE, 1.0)
            case Motion.RELEASE:
                return Position(self.share, 0.0, NEAR)
            case _:
                return Position(self.share, 0.0, RETURNED)

    def feed(self, time: int, values: Mapping[Axis, float]) -> None:
        """Take what every axis reads at `time` (ns)."""
        self._values = values
        if self._ends is not None and self._axis not in values:
            self._begin_again(None)
        if self._ends is None:
            self._seek(time, values)
        else:
            self._read(self._ends, time, values)

    def _seek(self, time: int, values: Mapping[Axis, float]) -> None:
        self._insist(time, {axis: values[axis] for axis in self.refused if axis in values})
        if self._ends is not None:
            return
        self._seeker.feed(time, values)
        found = self._seeker.found
        if found is None:
            return
        if found in self._taken:
            self._begin_again(self._why_taken(found), found)
        else:
            self._take(found, self._seeker.travel(found))

    def _read(self, ends: Ends, time: int, values: Mapping[Axis, float]) -> None:
        """Once the axis is still, read the end that was asked for."""
        assert self._axis is not None
        motion = ends.motion
        ends.feed(time, values[self._axis])
        if ends.failure is not None:
            self._begin_again(ends.failure, self._axis)
        elif motion is not ends.motion or not self._waits_idly(ends):
            self._insistence = Insistence()
        else:
            rivals = self._seeker.noise.keys() - self._taken.keys() - self.refused - {self._axis}
            self._insist(time, {axis: values[axis] for axis in rivals if axis in values})

    def _waits_idly(self, ends: Ends) -> bool:
        """What was found is let go, or should be: another that is pressed may be meant."""
        return ends.motion is Motion.RELEASE or (
            ends.motion is Motion.FULL and abs(ends.share) <= NEAR
        )

    def _insist(self, time: int, values: Mapping[Axis, float]) -> None:
        """Let another axis take the place of the one that was found, or that was refused."""
        self._insistence.feed(time, values)
        meant = self._insistence.meant
        if meant is None:
            return
        if self._ends is not None and self._axis is not None:
            self.refused.add(self._axis)
        self.refused.discard(meant)
        self._take(meant, self._insistence.travel(meant))

    def _take(self, axis: Axis, travel: Travel) -> None:
        self._axis = axis
        self._ends = Ends(travel, self._seeker.noise.get(axis, 0.0))
        self._insistence = Insistence()

    def _why_taken(self, axis: Axis) -> Trouble:
        """A pedal that drives a bound axis past its rest shares that axis with the bound pedal."""
        ends, seen = self._taken[axis], self._seeker.travel(axis)
        reach = min(ends.percent(seen.low), ends.percent(seen.high))
        return Trouble.SHARED if reach < -100 * NEAR else Trouble.TAKEN

    def _begin_again(self, trouble: Trouble | None, about: Axis | None = None) -> None:
        self._seeker = Seeker(self._seeker.noise, self._taken, self.refused)
        self._seeker.trouble, self._seeker.about = trouble, about
        self._insistence = Insistence()
        self._ends = None

    def _sought(self) -> Position:
        most = self._seeker.most
        if most is None or most not in self._values:
            return Position(0.0, 1.0, 1.0)
        seen = self._seeker.travel(most)
        scale = max(FOUND, seen.reach)
        return Position(
            seen.farther * (self._values[most] - seen.start) / scale, FOUND / scale, 1.0
        )
