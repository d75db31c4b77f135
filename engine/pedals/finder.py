"""Finder of a pedal by its movement: first its axis, then its two ends.

It uses only the values of all axes and their times, so it works for inverted axes, for several
devices, and for devices that report nothing until they are moved.
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
    """Axis and range of a pedal that was found by its movement."""

    axis: Axis
    """Axis that the pedal moves."""
    range: Range
    """Raw values of the axis at both ends of the pedal's travel."""


@dataclass(frozen=True)
class Position:
    """Position of a pedal while it is set up, for the picture of it."""

    place: float
    """Position as a share of the way from rest (0) to the farthest press (1); it may exceed 1."""
    low: float
    """Lower end of the zone that the player is to move to, on the scale of `place`."""
    high: float
    """Upper end of the zone that the player is to move to, on the scale of `place`."""


class Finder:
    """Finds one pedal while the player presses it, releases it, presses it fully, releases it."""

    def __init__(
        self,
        noise: Mapping[Axis, float],
        taken: Mapping[Axis, Range] | None = None,
        refused: Collection[Axis] = (),
    ) -> None:
        """`noise` is the noise of each axis at rest, in raw units.

        `taken` axes are bound to other pedals already. `refused` axes are ignored, unless the
        player holds one of them down for long.
        """
        self.refused = set(refused)
        """Axes that the search ignores, as the player refused them."""
        self._taken = dict(taken or {})
        self._seeker = Seeker(noise, self._taken, self.refused)
        self._insistence = Insistence()
        self._ends: Ends | None = None
        self._axis: Axis | None = None
        self._values: Mapping[Axis, float] = {}

    @property
    def motion(self) -> Motion:
        """Movement of the pedal, such as a full press, that the player is to make next."""
        return Motion.FIND if self._ends is None else self._ends.motion

    @property
    def trouble(self) -> Trouble | None:
        """Problem with how the player moved the pedal or moves it now; None if there is none."""
        if self._insistence.about is not None:
            return Trouble.REFUSED if self._ends is None else Trouble.OTHER
        return self._seeker.trouble if self._ends is None else self._ends.trouble

    @property
    def about(self) -> Axis | None:
        """Axis that the trouble is about; None if it is about no single axis."""
        if self._insistence.about is not None:
            return self._insistence.about
        return self._seeker.about if self._ends is None else self._axis

    @property
    def axis(self) -> Axis | None:
        """Axis of the pedal; None while it is searched for."""
        return None if self._ends is None else self._axis

    @property
    def moving(self) -> Axis | None:
        """Axis that has moved most during the search for the pedal; None if none has moved."""
        return self._seeker.most if self._ends is None else None

    @property
    def share(self) -> float:
        """Position of the pedal as a share of its press before: 0 released, 1 pressed as far."""
        return 0.0 if self._ends is None else self._ends.share

    @property
    def rest(self) -> float | None:
        """Raw value at which the pedal was first released; None until it was."""
        return None if self._ends is None else self._ends.rest

    @property
    def found(self) -> Found | None:
        """Axis and range of the pedal; None until both are found."""
        ends = None if self._ends is None else self._ends.found
        return None if ends is None or self._axis is None else Found(self._axis, ends)

    @property
    def position(self) -> Position:
        """Position of the pedal; during the search, of the axis that has moved most."""
        match self.motion:
            case Motion.FIND:
                return self._position_in_search()
            case Motion.FULL:
                return Position(self.share, FULL_AT_ONCE, 1.0)
            case Motion.RELEASE:
                return Position(self.share, 0.0, NEAR)
            case _:
                return Position(self.share, 0.0, RETURNED)

    def feed(self, time: int, values: Mapping[Axis, float]) -> None:
        """Continue to find the pedal with the raw value of every axis at `time` (ns)."""
        self._values = values
        if self._ends is not None and self._axis not in values:
            self._start_over(None)
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
            self._start_over(self._why_taken(found), found)
        else:
            self._take(found, self._seeker.travel(found))

    def _read(self, ends: Ends, time: int, values: Mapping[Axis, float]) -> None:
        """Measure the ends of the found axis, or start over, or switch to another pressed axis."""
        assert self._axis is not None
        motion = ends.motion
        ends.feed(time, values[self._axis])
        if ends.failure is not None:
            self._start_over(ends.failure, self._axis)
        elif motion is not ends.motion or not self._waits_idly(ends):
            self._insistence = Insistence()
        else:
            rivals = self._seeker.noise.keys() - self._taken.keys() - self.refused - {self._axis}
            self._insist(time, {axis: values[axis] for axis in rivals if axis in values})

    def _waits_idly(self, ends: Ends) -> bool:
        """Whether the found axis is released or should be, so that another may be the pedal."""
        return ends.motion is Motion.RELEASE or (
            ends.motion is Motion.FULL and abs(ends.share) <= NEAR
        )

    def _insist(self, time: int, values: Mapping[Axis, float]) -> None:
        """Switch to another axis as the pedal's if the player holds it down for long."""
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
        """Reason why an axis that is bound to another pedal cannot be used for this one.

        If the axis moves beyond the rest of the bound pedal, the two pedals share it; else it is
        taken.
        """
        ends, travel = self._taken[axis], self._seeker.travel(axis)
        reach = min(ends.percent(travel.low), ends.percent(travel.high))
        return Trouble.SHARED if reach < -100 * NEAR else Trouble.TAKEN

    def _start_over(self, trouble: Trouble | None, about: Axis | None = None) -> None:
        self._seeker = Seeker(self._seeker.noise, self._taken, self.refused)
        self._seeker.trouble, self._seeker.about = trouble, about
        self._insistence = Insistence()
        self._ends = None

    def _position_in_search(self) -> Position:
        most = self._seeker.most
        if most is None or most not in self._values:
            return Position(0.0, 1.0, 1.0)
        travel = self._seeker.travel(most)
        scale = max(FOUND, travel.reach)
        place = travel.farther * (self._values[most] - travel.start) / scale
        return Position(place, FOUND / scale, 1.0)
