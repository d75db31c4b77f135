"""Course of a replay: the pedals of a repetition at each moment of its picture, and its speed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Self

import numpy as np

from drills.deviation import Deviation, about_middle
from drills.trace import SECOND, Grid, Values
from engine.kit.foot_pose import Pressed

LONGEST = 12.0
"""Longest time that a replay takes, in s: a blip at quarter speed takes 8, and nobody holds a
pedal for much longer."""
SLOWEST = 0.25
"""Speed of a replay whose picture is short enough, as a share of real time."""


@dataclass(frozen=True, eq=False)
class PedalCourse:
    """What the pedals of one repetition did, on the time axis of its picture."""

    picture: Deviation
    """Picture that is drawn while it plays, its deviation the one that is drawn and heard."""
    brake: Values
    """Brake at the times of the picture, in %, shape (n,)."""
    throttle: Values
    """Throttle at those times, in %, shape (n,)."""
    clutch: Values | None = None
    """Clutch at those times, in %, shape (n,); None where it is no part of the repetition."""

    @classmethod
    def of(cls, picture: Deviation, grid: Grid) -> Self | None:
        """Course of the repetition that a picture is of, with its pedals on the 1 ms grid.

        None where the grid does not cover the picture.
        """
        first = grid.index(round((picture.origin + float(picture.time[0])) * SECOND))
        seen = slice(first, first + picture.time.size)
        if picture.time.size < 2 or seen.stop > len(grid):
            return None
        shows_clutch = picture.clutch is not None and grid.clutch is not None
        clutch = grid.clutch[seen] if shows_clutch and grid.clutch is not None else None
        return cls(about_middle(picture), grid.brake[seen], grid.throttle[seen], clutch)

    @property
    def begins(self) -> float:
        """First time of the picture, in s on its axis."""
        return float(self.picture.time[0])

    @property
    def ends(self) -> float:
        """Last time of the picture, in s on its axis."""
        return float(self.picture.time[-1])

    @property
    def speed(self) -> float:
        """Speed that it is played at: the slowest from a quarter on that takes LONGEST at most."""
        speed = SLOWEST
        while (self.ends - self.begins) / speed > LONGEST:
            speed *= 2
        return speed

    @property
    def lasts(self) -> float:
        """Time that the replay takes, in s."""
        return (self.ends - self.begins) / self.speed

    def pressed(self, at: float) -> Pressed:
        """Pedals at a time on the axis of the picture (s), between the points of the grid too."""
        time = self.picture.time
        clutch = None if self.clutch is None else float(np.interp(at, time, self.clutch))
        brake, throttle = (np.interp(at, time, pedal) for pedal in (self.brake, self.throttle))
        return Pressed(float(brake), float(throttle), clutch)

    def deviation(self, at: float) -> float:
        """Deviation of the brake at a time on the axis of the picture (s), in points."""
        return float(np.interp(at, self.picture.time, self.picture.deviation))
