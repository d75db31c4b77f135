"""Pose of the foot on its pedals, from how far each pedal is pressed: geometry, and no more.

The faces of the pedals sink in proportion to their travel. The ball of the foot lies on the
brake's face at the height that it has, and the foot tilts about that contact until its outer edge
(or its heel) lies on the throttle's face at the height that that one has. Where the throttle is
released the edge stays a clearance above it, and where the brake is released so does the ball; the
clearance closes over the first `SETTLED` percent of travel, so that nothing jumps.

Lengths are in cm, angles in radians. From behind, x runs right from the outer rim of the brake's
face and y up from the floor.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum

from engine.kit.motion import eased

Point = tuple[float, float]

BRAKE_FULL = 4.0
"""Height of the fully pressed brake's face, in cm; the released throttle is as high."""
BRAKE_TRAVEL = 2.0
"""Distance that the brake's face sinks when fully pressed, in cm."""
THROTTLE_TRAVEL = 2.0
"""Distance that the throttle's face sinks when fully pressed, in cm."""
CLUTCH_TRAVEL = 3.0
"""Distance that the clutch's face sinks when fully pressed, in cm."""
BRAKE_FACE = (-7.4, 0.0)
"""Ends of the brake's face, in cm; the foot tilts about the right one."""
THROTTLE_FACE = (4.5, 8.9)
"""Ends of the throttle's face, in cm."""
CLUTCH_FACE = (-15.6, -8.8)
"""Ends of the clutch's face, in cm."""
SETTLED = 2.0
"""Travel over which a foot comes down on a pedal, in %; from there on it touches the face."""
CLEARANCE = 1.0
"""Height of the edge above the face of a released throttle, in cm."""
REST = 0.7
"""Height of the ball above the face of a released brake, in cm; the edge rises with it."""
BALL_ROUND = 1.2
"""Radius of the sole's inner edge, in cm."""
EDGE_ROUND = 0.8
"""Radius of the sole's outer edge and of the heel's back, in cm."""
LEAN = 0.55
"""Share of the foot's tilt that the leg above the ankle follows."""
HEEL_YAW = (math.radians(19), math.radians(24), math.radians(30))
"""Turn of the foot whose heel presses: off the throttle, as it touches, and at full travel."""


class Way(Enum):
    """How a foot blips while its ball stays on the brake."""

    ROLL = "roll"
    """The foot rolls, and its outer edge presses the throttle."""
    HEEL = "heel"
    """The heel swings out, and presses the throttle."""


REACH = {Way.ROLL: 6.0, Way.HEEL: 15.0}
"""Flat part of the sole from the brake's rim to the edge or heel that presses, in cm."""
ON_BRAKE = {Way.ROLL: 2.5, Way.HEEL: 4.0}
"""Flat part of the sole that lies on the brake's face, in cm."""


@dataclass(frozen=True)
class Pressed:
    """How far each pedal is pressed at one moment."""

    brake: float
    """Brake, in % of its travel."""
    throttle: float = 0.0
    """Throttle, in % of its travel."""
    clutch: float | None = None
    """Clutch, in % of its travel; None where there is none to draw."""


@dataclass(frozen=True)
class Pose:
    """Foot and faces of the pedals at one moment, in the section that the foot tilts in."""

    brake: float
    """Height of the brake's face, in cm."""
    throttle: float
    """Height of the throttle's face, in cm."""
    clutch: float | None
    """Height of the clutch's face, in cm; None without a clutch."""
    angle: float
    """Tilt of the sole, in radians; above 0 the edge or heel is lower than the ball."""
    origin: Point
    """Place of the sole's point that lies on the brake's rim while the foot is flat, in cm."""
    yaw: float
    """Turn of the foot seen from above, in radians; above 0 the heel is to the right."""
    ball_gap: float
    """Distance between the ball and the brake's face, in cm; 0 in contact."""
    edge_gap: float
    """Distance between the edge or heel and the throttle's face, in cm; 0 in contact."""

    def place(self, point: Point) -> Point:
        """Place of a point of the shoe, given along its flat sole and up from it, in cm."""
        along, up = point
        cos, sin = math.cos(self.angle), math.sin(self.angle)
        return self.origin[0] + along * cos + up * sin, self.origin[1] - along * sin + up * cos


def pose_of(pressed: Pressed, way: Way) -> Pose:
    """Pose that pedals pressed so far put the foot in; travel outside 0 to 100 % counts as its end.

    With the throttle's face `drop` below the brake's, the tilt solves
    `drop = reach * sin(tilt) + round * (1 - cos(tilt))`: the edge is `reach` from the contact.
    """
    brake, throttle = _share(pressed.brake), _share(pressed.throttle)
    faces = (
        BRAKE_FULL + BRAKE_TRAVEL * (1 - brake),
        BRAKE_FULL - THROTTLE_TRAVEL * throttle,
    )
    ball_gap = REST * _above(brake)
    edge_gap = (CLEARANCE + ball_gap) * _above(throttle)
    ball = faces[0] + ball_gap
    angle = _tilt(ball - faces[1] - edge_gap, way)
    clutch = None
    if pressed.clutch is not None:
        clutch = BRAKE_FULL + CLUTCH_TRAVEL * (1 - _share(pressed.clutch)) - CLUTCH_TRAVEL / 2
    origin, yaw = _origin(ball, angle, way), _yaw(throttle, way)
    return Pose(*faces, clutch, angle, origin, yaw, ball_gap, edge_gap)


def _share(percent: float) -> float:
    return min(max(percent, 0.0), 100.0) / 100


def _above(share: float) -> float:
    """Share of its clearance that a foot keeps above a pedal pressed by a share of its travel."""
    return 1 - eased(share * 100 / SETTLED)


def _tilt(drop: float, way: Way) -> float:
    """Tilt at which the edge is `drop` cm lower than the ball, in radians.

    A foot that tilts inward turns about the round inner edge of its sole instead of the rim.
    """
    inward = drop < 0
    reach = REACH[way] + (ON_BRAKE[way] if inward else 0.0)
    bend = EDGE_ROUND - (BALL_ROUND if inward else 0.0)
    return math.asin((drop - bend) / math.hypot(reach, bend)) + math.atan2(bend, reach)


def _origin(ball: float, angle: float, way: Way) -> Point:
    if angle >= 0:
        return BRAKE_FACE[1], ball
    inner, cos, sin = ON_BRAKE[way], math.cos(angle), math.sin(angle)
    return (
        BRAKE_FACE[1] - inner + inner * cos - BALL_ROUND * sin,
        ball + BALL_ROUND - inner * sin - BALL_ROUND * cos,
    )


def _yaw(throttle: float, way: Way) -> float:
    if way is Way.ROLL:
        return 0.0
    off, touching, full = HEEL_YAW
    return off + (touching - off) * (1 - _above(throttle)) + (full - touching) * throttle
