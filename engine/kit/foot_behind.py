"""The foot on its pedals from behind the heel."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from engine.kit import theme
from engine.kit.canvas import Colour, Point
from engine.kit.foot_pose import (
    BALL_ROUND,
    BRAKE_FACE,
    CLUTCH_FACE,
    EDGE_ROUND,
    LEAN,
    ON_BRAKE,
    REACH,
    THROTTLE_FACE,
    Pose,
    Pressed,
    Way,
)
from engine.kit.foot_view import (
    FAR,
    LEG,
    SEAM,
    SOLE,
    STEM,
    UPPER,
    View,
    face_colour,
    glow_strength,
)
from engine.kit.outline import arc, hull, smooth_through

THICK = 0.8
"""Thickness of the face of a pedal, in cm."""
HALO = 4.6
"""Radius of the glow at a contact, in cm."""

_INNER, _OUTER = -ON_BRAKE[Way.ROLL], REACH[Way.ROLL]
FRONT_SOLE = (
    *arc((_INNER, BALL_ROUND), BALL_ROUND, 180, 270),
    *arc((_OUTER, EDGE_ROUND), EDGE_ROUND, 270, 360),
    (_OUTER + EDGE_ROUND, 1.9),
    (_INNER - BALL_ROUND, 1.9),
)
"""Outline of the sole under the ball, in cm right of the contact and up from the flat sole."""
FRONT = (
    (_INNER - BALL_ROUND, 1.6),
    *smooth_through(
        (
            *(
                (-3.75, 1.7),
                (-3.7, 3.4),
                (-2.7, 5.2),
                (-0.4, 6.4),
                (2.6, 6.3),
                (5.2, 5.0),
                (6.6, 3.2),
            ),
            *((6.85, 1.6),),
        ),
        is_closed=False,
    ),
)
"""Outline of the upper over the ball."""
HEEL_SOLE = smooth_through(
    (
        *(
            (-0.7, -0.2),
            (-0.55, -1.3),
            (0.0, -1.7),
            (2.0, -1.75),
            (4.0, -1.7),
            (4.55, -1.3),
            (4.7, -0.2),
        ),
        *((2.0, 0.2),),
    ),
    is_closed=True,
)
"""Outline of the sole under the heel, which is nearer and so lower."""
HEEL = smooth_through(
    (
        *((-0.65, 0.0), (-0.85, 1.8), (-0.6, 4.2), (0.15, 6.4), (0.35, 8.3)),
        *((2.0, 7.8), (3.65, 8.3), (3.85, 6.4), (4.6, 4.2), (4.85, 1.8), (4.65, 0.0), (2.0, -0.4)),
    ),
    is_closed=True,
)
"""Outline of the upper around the heel, from the sole to the collar."""
ANKLE = (2.0, 7.9)
"""Middle of the collar, about which the leg leans."""
LEG_HALF = ((1.7, -0.6), (1.5, 1.2), (1.7, 3.6), (2.2, 7.0), (2.6, 10.5))
"""Right side of the leg: cm from its middle and up from the collar."""
SEAMS = (
    ((2.0, 0.4), (2.0, 7.7)),
    ((0.25, 7.2), (1.1, 6.85), (2.0, 6.75), (2.9, 6.85), (3.75, 7.2)),
    ((-0.75, 3.0), (0.5, 2.5), (2.0, 2.35), (3.5, 2.5), (4.75, 3.0)),
)
"""Seams of the heel: down its middle, below the collar and around the counter."""
SOCK = ((-1.48, 1.5), (-0.7, 1.2), (0.0, 1.12), (0.7, 1.2), (1.48, 1.5))
"""Upper end of the sock, in cm from the middle of the leg and up from the collar."""
SEAM_WIDTH = 0.22
"""Width of a seam, in cm."""
BALL_AT = -1.6
"""Place of a foot's ball whose heel presses: cm right of the brake's outer rim."""
MIDDLE = 1.6
"""Middle of the shoe, in cm right of the contact of a rolling foot."""

Placing = Callable[[Point], Point]


def draw_behind(view: View, pose: Pose, pressed: Pressed, way: Way) -> None:
    """Draw the pedals and the foot on them; the view's origin is on the floor, at the brake."""
    pedals = [
        (BRAKE_FACE, pose.brake, theme.BRAKE, pressed.brake),
        (THROTTLE_FACE, pose.throttle, theme.THROTTLE, pressed.throttle),
    ]
    if pose.clutch is not None and pressed.clutch is not None:
        pedals.append((CLUTCH_FACE, pose.clutch, theme.CLUTCH, pressed.clutch))
    view.box((min(face[0] for face, *_ in pedals) - 1.5, -0.2), (10.4, 0.0), STEM, 0.1)
    for face, height, colour, percent in pedals:
        _pedal(view, face, height, face_colour(colour, percent))
    contacts = [
        (-1.4, pose.brake, theme.BRAKE, glow_strength(pressed.brake, pose.ball_gap)),
        (
            edge_at(pose, way),
            pose.throttle,
            theme.THROTTLE,
            glow_strength(pressed.throttle, pose.edge_gap),
        ),
    ]
    for x, height, colour, strength in contacts:
        view.glow((x, height - THICK / 2), HALO, colour, strength)
    if pose.clutch is not None and pressed.clutch is not None:
        middle, lifted = sum(CLUTCH_FACE) / 2, pose.clutch
        strength = glow_strength(pressed.clutch, 0.0)
        view.glow((middle, lifted - THICK / 2), HALO, theme.CLUTCH, strength)
        _shoe(view, lambda at: (middle + MIDDLE - at[0], lifted + at[1]), 0.06)
    if way is Way.ROLL:
        _shoe(view, pose.place, LEAN * pose.angle - 0.06)
    else:
        _heel_down(view, pose)


def edge_at(pose: Pose, way: Way) -> float:
    """Place of the part of the foot that presses the throttle: cm right of the brake's rim."""
    along = pose.place((REACH[way], EDGE_ROUND))[0]
    return along if way is Way.ROLL else BALL_AT + along * math.sin(pose.yaw)


def _pedal(view: View, face: Point, height: float, colour: Colour) -> None:
    middle = sum(face) / 2
    view.box((middle - 0.35, 0.0), (middle + 0.35, height - THICK / 2), STEM)
    view.box((face[0], height - THICK), (face[1], height), colour, THICK / 2)


def _shoe(view: View, place: Placing, lean: float) -> None:
    """Draw a shoe whose points `place` puts into the view, and its leg, which leans right."""
    _fill(view, place, FRONT, FAR)
    _fill(view, place, FRONT_SOLE, SOLE)
    _leg(view, place(ANKLE), lean)
    _fill(view, place, HEEL_SOLE, SOLE)
    _fill(view, place, HEEL, UPPER)
    for seam in SEAMS:
        view.line([place(point) for point in seam], SEAM, SEAM_WIDTH)


def _leg(view: View, ankle: Point, lean: float) -> None:
    cos, sin = math.cos(lean), math.sin(lean)

    def placed(point: Point) -> Point:
        across, up = point
        return ankle[0] + across * cos + up * sin, ankle[1] - across * sin + up * cos

    right = smooth_through(LEG_HALF, is_closed=False)
    left = [(-across, up) for across, up in reversed(right)]
    view.fill([placed(point) for point in (*right, *left)], LEG)
    view.line([placed(point) for point in SOCK], STEM, SEAM_WIDTH)


def _heel_down(view: View, pose: Pose) -> None:
    """Draw a foot that is turned, so that its heel stands over the throttle and its ball behind."""
    turn = math.cos(pose.yaw)
    ball_up = pose.place((-2.0, 0.0))[1]
    heel_x = edge_at(pose, Way.HEEL)
    heel_up = pose.place((REACH[Way.HEEL], EDGE_ROUND))[1] - EDGE_ROUND
    lift = -min(up for _, up in HEEL_SOLE)

    def front(at: Point) -> Point:
        return BALL_AT + (at[0] - MIDDLE) * turn, ball_up + at[1]

    def back(at: Point) -> Point:
        return heel_x + at[0] - ANKLE[0], heel_up + lift + at[1]

    front_sole, heel_sole = _placed(front, FRONT_SOLE), _placed(back, HEEL_SOLE)
    upper = [point for point in _placed(back, HEEL) if point[1] < heel_up + lift + 6.5]
    view.fill(hull([*_placed(front, FRONT), *upper]), FAR)
    view.fill(hull([*front_sole, *heel_sole]), SOLE)
    _leg(view, back(ANKLE), -0.5 * pose.yaw)
    _fill(view, back, HEEL_SOLE, SOLE)
    _fill(view, back, HEEL, UPPER)
    for seam in SEAMS:
        view.line(_placed(back, seam), SEAM, SEAM_WIDTH)


def _fill(view: View, place: Placing, points: Sequence[Point], colour: Colour) -> None:
    view.fill(_placed(place, points), colour)


def _placed(place: Placing, points: Sequence[Point]) -> list[Point]:
    return [place(point) for point in points]
