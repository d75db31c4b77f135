"""The foot on its pedals from above: toes up, the pedals shining through the shoe."""

from __future__ import annotations

import math
from collections.abc import Callable

from engine.kit import theme
from engine.kit.canvas import Colour, Point
from engine.kit.foot_behind import BALL, LEFT_AT, LEFT_BALL, MIDDLE, TURNED_AT, edge_at
from engine.kit.foot_pose import (
    BRAKE_FACE,
    CLUTCH_FACE,
    LEAN,
    REACH,
    THROTTLE_FACE,
    Pose,
    Pressed,
    Way,
)
from engine.kit.foot_view import (
    FAR,
    LEG_COLOUR,
    SEAM,
    SEAM_PIECES,
    SHADE,
    SOLE,
    UPPER,
    View,
    closed,
    face_colour,
    glow_strength,
    mixed,
    seam,
)
from engine.kit.outline import smooth_through

SHORT_PAD = (-3.6, 3.6)
"""Ends of the faces of brake and clutch: cm forward of the middle of the ball."""
LONG_PAD = (-18.6, 3.6)
"""Ends of the face of the throttle: cm forward of the middle of the ball."""
CORNER = 0.9
"""Radius of the corners of a face, in cm."""
HALO = 4.2
"""Radius of the glow at a contact, in cm."""
LIT = 0.82
"""Share of its colour that a face has from above, where it is large."""
SHINE = 0.34
"""Strength with which a face shines through the shoe on it."""
ROLL_YAW = math.radians(-5)
"""Turn of a foot that rolls: its toes point a little to the right."""

OUTSOLE = closed(
    *((0.6, 9.7), (-2.2, 8.4), (-3.6, 5.0), (-3.7, 1.2), (-2.9, -3.0), (-1.7, -7.0)),
    *((-1.0, -11.0), (-1.2, -14.4), (-0.2, -17.0), (1.9, -18.0), (4.0, -17.0), (5.1, -14.4)),
    *((5.2, -11.0), (5.8, -6.5), (6.7, -1.8), (6.7, 2.2), (5.6, 6.0), (3.4, 8.8)),
)
"""Outline of the sole: cm right of the contact of a rolling foot and forward of its ball."""
OUTER = tuple((MIDDLE + (x - MIDDLE) * 0.93, y * 0.965) for x, y in OUTSOLE)
"""Outline of the upper."""
UP = 2.2
"""Height of the upper's outline above the sole, in cm."""
COLLAR = closed(
    *((2.0, -6.4), (0.3, -7.8), (-0.2, -11.0), (0.3, -14.0)),
    *((2.0, -15.4), (3.7, -14.0), (4.2, -11.0), (3.7, -7.8)),
)
"""Outline of the opening for the ankle."""
COLLAR_UP = 6.5
"""Height of the opening, in cm."""
ANKLE = tuple(
    (2.0 + 1.75 * math.cos(turn * math.pi / 9), -11.3 + 2.5 * math.sin(turn * math.pi / 9))
    for turn in range(18)
)
"""Outline of the leg above the opening."""
ANKLE_UP = 9.0
"""Height of the leg's outline, in cm."""
_THROAT = (
    *((0.2, -6.6), (-0.5, -2.5), (-0.1, 2.0), (1.7, 3.4)),
    *((3.5, 2.0), (3.9, -2.5), (3.6, -6.6)),
)
TONGUE = smooth_through(_THROAT, is_closed=False, pieces=SEAM_PIECES)
"""Outline of the tongue."""
THROAT = seam(0.22, *_THROAT)
"""Seam around the tongue."""
TOE_CAP = seam(0.22, (-3.0, 4.3), (-0.7, 5.7), (1.6, 6.0), (3.9, 5.6), (5.5, 4.5))
"""Seam of the toe cap."""
LACES = tuple(seam(0.5, (-0.7, y), (1.7, y - 0.5), (4.1, y)) for y in (1.2, -1.0, -3.2, -5.4))
"""Laces across the tongue."""
CROWN = 4.2
"""Height of the middle of the upper over the sole, in cm."""
HALF_WIDTH = 5.2
"""Half of the width of the shoe, in cm."""
BEHIND_BALL = -2.0
"""Where a shoe whose heel presses leaves the brake's face: cm forward of its ball."""

Placing = Callable[[float, float, float], Point]


def draw_above(view: View, pose: Pose, pressed: Pressed, way: Way) -> None:
    """Draw the pedals and the feet over them; the view's origin is at the ball, on the rim."""
    pads = [
        (BRAKE_FACE, SHORT_PAD, _pad_colour(theme.BRAKE, pressed.brake)),
        (THROTTLE_FACE, LONG_PAD, _pad_colour(theme.THROTTLE, pressed.throttle)),
    ]
    if pressed.clutch is not None:
        pads.append((CLUTCH_FACE, SHORT_PAD, _pad_colour(theme.CLUTCH, pressed.clutch)))
    for across, along, colour in pads:
        view.box((across[0], along[0]), (across[1], along[1]), colour, CORNER)
    place = _placing(pose, way)
    _shoe(view, place, LEAN * pose.angle if way is Way.ROLL else 0.0)
    if pressed.clutch is not None:
        _shoe(view, lambda right, forward, _: (LEFT_AT - right, forward), 0.0)
    for across, along, colour in pads:
        view.veil((across[0], along[0]), (across[1], along[1]), colour, CORNER, SHINE)
    edge = edge_at(pose, way), -1.5
    if way is Way.HEEL:
        edge = edge[0], place(MIDDLE, BEHIND_BALL - REACH[way], 0.0)[1]
    view.glow((BALL[way], 0.0), HALO, theme.BRAKE, glow_strength(pressed.brake, pose.ball_gap))
    view.glow(edge, HALO, theme.THROTTLE, glow_strength(pressed.throttle, pose.edge_gap))
    if pressed.clutch is not None:
        view.glow((LEFT_BALL, 0.0), HALO, theme.CLUTCH, glow_strength(pressed.clutch, 0.0))


def _pad_colour(colour: Colour, percent: float) -> Colour:
    return mixed(theme.GROUND, face_colour(colour, percent), LIT)


def _placing(pose: Pose, way: Way) -> Placing:
    """Function of a point of the shoe that gives its place from above, tilted and turned."""
    cos, sin = math.cos(pose.angle), math.sin(pose.angle)
    yaw = ROLL_YAW if way is Way.ROLL else pose.yaw
    turn_cos, turn_sin = math.cos(yaw), math.sin(yaw)

    def place(right: float, forward: float, up: float) -> Point:
        if way is Way.ROLL:
            x, y = right * cos + up * sin, forward
            return x * turn_cos - y * turn_sin, x * turn_sin + y * turn_cos
        x, y = right - MIDDLE, (forward - BEHIND_BALL) * cos - up * sin
        x, y = x * turn_cos - y * turn_sin, x * turn_sin + y * turn_cos
        return x + TURNED_AT, y + SHORT_PAD[0]

    return place


def _shoe(view: View, place: Placing, lean: float) -> None:
    """Draw the shoe; a leg that leans is shifted against the opening it stands in."""

    def placed(points: tuple[Point, ...], up: float) -> list[Point]:
        return [place(right, forward, up) for right, forward in points]

    view.fill(placed(OUTSOLE, 0.0), SOLE)
    view.fill(placed(OUTER, UP), UPPER)
    view.fill([place(x, y, _crown(x)) for x, y in TONGUE], SHADE)
    for line in (THROAT, TOE_CAP, *LACES):
        view.fill([place(x, y, _crown(x)) for x, y in line], SEAM)
    view.fill(placed(COLLAR, COLLAR_UP), FAR)
    shift = (ANKLE_UP - COLLAR_UP) * math.sin(lean)
    view.fill([(x - shift, y) for x, y in placed(ANKLE, ANKLE_UP)], LEG_COLOUR)


def _crown(right: float) -> float:
    """Height of the upper over the sole at a place across it, in cm."""
    aside = (right - MIDDLE) / HALF_WIDTH
    return UP + (CROWN - UP) * max(1 - aside * aside, 0.0)
