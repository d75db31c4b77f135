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
    CREASE,
    FAR,
    LEG_COLOUR,
    PIECES,
    SEAM,
    SHADE,
    SOLE,
    STEM,
    UPPER,
    View,
    closed,
    face_colour,
    glow_strength,
    seam,
)
from engine.kit.outline import arc, hull, ribbon, smooth_through

THICK = 1.0
"""Thickness of the face of a pedal, in cm."""
SEAM_WIDTH = 0.18
"""Width of a seam, in cm."""
HALO = 4.6
"""Radius of the glow at a contact, in cm."""

_INNER, _OUTER = -ON_BRAKE[Way.ROLL], REACH[Way.ROLL]
FRONT_SOLE = (
    *arc((_INNER, BALL_ROUND), BALL_ROUND, 180, 270),
    *arc((_OUTER, EDGE_ROUND), EDGE_ROUND, 270, 360),
    (_OUTER + EDGE_ROUND, 1.8),
    (_INNER - BALL_ROUND, 1.8),
)
"""Outline of the sole under the ball, in cm right of the contact and up from the flat sole."""
FRONT = smooth_through(
    (
        *((-3.7, 1.4), (-3.75, 2.6), (-3.3, 4.3), (-1.9, 5.7), (0.3, 6.4), (2.8, 6.2)),
        *((5.0, 5.1), (6.5, 3.3), (6.85, 2.2), (6.8, 1.4)),
    ),
    is_closed=False,
    pieces=PIECES,
)
"""Outline of the upper over the ball."""
HEEL_SOLE = closed(
    *((-0.75, 0.0), (-0.7, -0.9), (-0.2, -1.6), (0.8, -1.75), (2.0, -1.75), (3.2, -1.75)),
    *((4.2, -1.6), (4.7, -0.9), (4.75, 0.0), (2.0, 0.3)),
)
"""Outline of the sole under the heel, which is nearer and so lower."""
TREAD = seam(SEAM_WIDTH, (-0.72, -0.75), (0.5, -1.0), (2.0, -1.05), (3.5, -1.0), (4.72, -0.75))
"""Line between the two layers of the sole under the heel."""
HEEL = closed(
    *((-0.7, 0.0), (-0.95, 1.6), (-0.75, 3.4), (-0.1, 5.4), (0.2, 6.9), (0.5, 7.9)),
    *((1.2, 8.35), (2.0, 8.45), (2.8, 8.35), (3.5, 7.9), (3.8, 6.9), (4.1, 5.4)),
    *((4.75, 3.4), (4.95, 1.6), (4.7, 0.0), (3.4, -0.35), (2.0, -0.45), (0.6, -0.35)),
)
"""Outline of the upper around the heel, from the sole to the collar."""
HEEL_SHADE = (
    *smooth_through(
        ((3.0, 8.27), (3.5, 7.9), (3.8, 6.9), (4.1, 5.4), (4.75, 3.4), (4.95, 1.6), (4.7, 0.0)),
        is_closed=False,
        pieces=PIECES,
    ),
    *smooth_through(
        ((3.9, -0.25), (4.15, 1.6), (3.95, 3.4), (3.35, 5.2), (3.1, 6.8)),
        is_closed=False,
        pieces=PIECES,
    ),
)
"""Outline of the right side of the heel, which turns away."""
COUNTER = (
    seam(
        SEAM_WIDTH,
        *((0.0, 0.2), (0.1, 2.2), (0.9, 3.6), (2.0, 4.1), (3.1, 3.6), (3.9, 2.2), (4.0, 0.2)),
    ),
    seam(SEAM_WIDTH, (0.2, 6.8), (1.0, 6.5), (2.0, 6.4), (3.0, 6.5), (3.8, 6.8)),
    ribbon(((2.0, 4.1), (2.0, 6.4)), SEAM_WIDTH),
)
"""Seams of the heel: around its counter, below the padded collar and between the two."""
TAB = ((1.5, 6.4), (1.55, 8.75), (2.45, 8.75), (2.5, 6.4))
"""Outline of the pull tab at the back of the collar."""
ANKLE = (2.0, 7.6)
"""Middle of the collar, about which the leg leans."""
_CALF = smooth_through(
    ((1.25, -0.8), (1.33, 1.0), (1.4, 2.6), (1.55, 3.8), (1.75, 4.6)),
    is_closed=False,
    pieces=PIECES,
)
LEG = (*_CALF, *((-across, up) for across, up in reversed(_CALF)))
"""Outline of the leg: cm from its middle and up from the collar."""
CUFF = tuple(
    seam(SEAM_WIDTH, (-1.32, up + 0.2), (-0.7, up), (0.0, up - 0.05), (0.7, up), (1.32, up + 0.2))
    for up in (2.2, 2.75)
)
"""Lines around the cuff of the sock: cm from the middle of the leg and up from the collar."""
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

TOE_LOW = 0.82
"""Height of the front of a turned shoe, which is farther away, as a share."""
SIDE = (
    ((-2.6, 2.9), -0.5, (-0.6, 2.6)),
    ((-0.5, 6.0), -0.9, (0.0, 5.2)),
)
"""Seams along the side of a turned shoe: start at the front, bend in cm, end at the heel."""

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
        (BALL[way], pose.brake, theme.BRAKE, glow_strength(pressed.brake, pose.ball_gap)),
        (
            edge_at(pose, way),
            pose.throttle,
            theme.THROTTLE,
            glow_strength(pressed.throttle, pose.edge_gap),
        ),
    ]
    if pose.clutch is not None and pressed.clutch is not None:
        strength = glow_strength(pressed.clutch, 0.0)
        contacts.append((LEFT_BALL, pose.clutch, theme.CLUTCH, strength))
    with view.above(-0.2):
        for x, height, colour, strength in contacts:
            view.glow((x, height - THICK / 2), HALO, colour, strength)
    if pose.clutch is not None:
        lifted = pose.clutch
        _shoe(view, lambda at: (LEFT_AT - at[0], lifted + at[1]), 0.06)
    if way is Way.ROLL:
        _shoe(view, pose.place, LEAN * pose.angle - 0.06)
    else:
        _heel_down(view, pose)


def edge_at(pose: Pose, way: Way) -> float:
    """Place of the part of the foot that presses the throttle: cm right of the brake's rim."""
    along = pose.place((REACH[way], EDGE_ROUND))[0]
    return along if way is Way.ROLL else TURNED_AT + along * math.sin(pose.yaw)


def _pedal(view: View, face: Point, height: float, colour: Colour) -> None:
    middle = sum(face) / 2
    view.box((middle - 0.35, 0.0), (middle + 0.35, height - THICK / 2), STEM)
    view.box((face[0], height - THICK), (face[1], height), colour, THICK / 2)


def _shoe(view: View, place: Placing, lean: float) -> None:
    """Draw a shoe whose points `place` puts into the view, and its leg, which leans right."""
    _fill(view, place, FRONT, FAR)
    _fill(view, place, FRONT_SOLE, SOLE)
    _leg(view, place(ANKLE), lean)
    _heel(view, place)


def _heel(view: View, place: Placing) -> None:
    _fill(view, place, HEEL_SOLE, SOLE)
    _fill(view, place, TREAD, LEG_COLOUR)
    _fill(view, place, HEEL, UPPER)
    _fill(view, place, HEEL_SHADE, SHADE)
    for line in COUNTER:
        _fill(view, place, line, SEAM)
    _fill(view, place, TAB, SEAM)


def _leg(view: View, ankle: Point, lean: float) -> None:
    cos, sin = math.cos(lean), math.sin(lean)

    def placed(point: Point) -> Point:
        across, up = point
        return ankle[0] + across * cos + up * sin, ankle[1] - across * sin + up * cos

    _fill(view, placed, LEG, LEG_COLOUR)
    for line in CUFF:
        _fill(view, placed, line, CREASE)


def _heel_down(view: View, pose: Pose) -> None:
    """Draw a foot that is turned, so that its heel stands over the throttle and its ball behind."""
    turn = math.cos(pose.yaw)
    ball_up = pose.brake + pose.ball_gap
    heel_x = edge_at(pose, Way.HEEL)
    heel_up = pose.place((REACH[Way.HEEL], EDGE_ROUND))[1] - EDGE_ROUND
    lift = -min(up for _, up in HEEL_SOLE)

    def front(at: Point) -> Point:
        return TURNED_AT + (at[0] - MIDDLE) * turn, ball_up + at[1] * TOE_LOW

    def back(at: Point) -> Point:
        return heel_x + at[0] - ANKLE[0], heel_up + lift + at[1]

    inner = [point for point in FRONT_SOLE if point[0] < 0]
    view.fill(hull([*_placed(front, FRONT), *_placed(back, HEEL)]), FAR)
    view.fill(hull([*_placed(front, inner), *_placed(back, HEEL_SOLE)]), SOLE)
    for start, middle, end in SIDE:
        (x, y), (x2, y2) = front(start), back(end)
        bend = ((x + x2) / 2, (y + y2) / 2 + middle)
        view.fill(seam(SEAM_WIDTH, (x, y), bend, (x2, y2)), SEAM)
    _leg(view, back(ANKLE), -0.5 * pose.yaw)
    _heel(view, back)


def _fill(view: View, place: Placing, points: Sequence[Point], colour: Colour) -> None:
    view.fill(_placed(place, points), colour)


def _placed(place: Placing, points: Sequence[Point]) -> list[Point]:
    return [place(point) for point in points]
