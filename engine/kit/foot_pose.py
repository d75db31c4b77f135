"""Pose of the foot on its pedals, from how far each pedal is pressed: geometry, and no more.

The faces of the pedals sink in proportion to their travel: the throttle's from `BRAKE_FULL` on, the
brake's down to it, and the clutch's from half its travel above it to half below. The ball of the
foot is `ball_gap` above the brake's face, and the outer edge (or the heel) `edge_gap` above the
throttle's. Both gaps close over the first `SETTLED` percent of travel, eased as by `eased`, and the
edge rises with the ball, so that nothing jumps:

    ball_gap = REST * (1 - eased(brake / SETTLED))
    edge_gap = (CLEARANCE + ball_gap) * (1 - eased(throttle / SETTLED))

The sole is flat from `ON_BRAKE` inward of the brake's rim to `REACH` outward of it, and round at
both ends. The foot tilts until its edge is `drop` lower than its ball, as `Pose.angle` solves:

    drop = REACH * sin(angle) + EDGE_ROUND * (1 - cos(angle))

about the brake's rim where `drop` is 0 or more; where the edge is higher, it tilts about the round
inner edge, whose centre moves up and down only:

    drop = (REACH + ON_BRAKE) * sin(angle) + (EDGE_ROUND - BALL_ROUND) * (1 - cos(angle))

A heel that comes to the throttle also turns out, by `HEEL_YAW`: to its second angle as `edge_gap`
closes, and on towards its third in proportion to the throttle's travel.

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
"""Turn of the foot whose heel presses, in radians: off the throttle, as it touches but for its
travel since, and at full travel."""


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
LEFT_AT = CLUTCH_FACE[0]
"""Place of the left foot, on the clutch as the right one is on the brake: cm right of its rim."""
LEFT_BALL = CLUTCH_FACE[0] + 1.5
"""Middle of the contact between ball and clutch: cm right of the brake's rim."""
BALL = {Way.ROLL: -1.5, Way.HEEL: -3.0}
"""Middle of the contact between ball and brake: cm right of the brake's rim."""
TURNED_AT = -1.6
"""Place of the middle of a turned shoe, where it leaves the brake: cm right of the brake's rim."""
MIDDLE = 1.6
"""Middle of the shoe, in cm right of the contact of a rolling foot."""


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
    """Pose that pedals pressed so far put the foot in; travel beyond an end counts as that end."""
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


def edge_at(pose: Pose, way: Way) -> float:
    """Place of the part of the foot that presses the throttle: cm right of the brake's rim."""
    along = pose.place((REACH[way], EDGE_ROUND))[0]
    return along if way is Way.ROLL else TURNED_AT + along * math.sin(pose.yaw)


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
