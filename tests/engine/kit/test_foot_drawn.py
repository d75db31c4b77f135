"""Pieces of the drawn foot: each keeps its form, lies on its pedal, and is lit where it touches."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from itertools import combinations, pairwise

import pytest

from engine.kit import theme
from engine.kit.canvas import Point
from engine.kit.foot_above import LIT
from engine.kit.foot_pose import (
    BRAKE_FACE,
    BRAKE_FULL,
    BRAKE_TRAVEL,
    CLUTCH_FACE,
    CLUTCH_TRAVEL,
    HEEL_YAW,
    LEAN,
    SETTLED,
    THROTTLE_FACE,
    THROTTLE_TRAVEL,
    Pressed,
    Way,
    pose_of,
)
from engine.kit.foot_view import (
    CREASE,
    FAINTEST,
    FAR,
    FULL,
    LEG_COLOUR,
    SHADE,
    SOLE,
    UPPER,
    face_colour,
    glow_strength,
    mixed,
)
from tests.engine.kit.foot_pieces import Drawn, Piece, above, behind

ROUND = 0.02
"""Largest error of a round edge that is drawn with straight pieces, in cm."""
BLIPPING = Pressed(60.0, 70.0)
"""Pedals in the middle of a blip."""
PEDALS = (Pressed(0.0), Pressed(60.0), BLIPPING, Pressed(20.0, 100.0), Pressed(100.0, 30.0))
"""Pedals that the foot is drawn on."""


def turn(before: Piece, after: Piece) -> float:
    """Angle in radians, clockwise, by which a piece that keeps its form was turned."""
    start = before.points[0]
    far = max(range(len(before.points)), key=lambda k: math.dist(start, before.points[k]))
    angles = []
    for piece in (before, after):
        (x, y), (x2, y2) = piece.points[0], piece.points[far]
        angles.append(math.atan2(y2 - y, x2 - x))
    return math.remainder(angles[0] - angles[1], math.tau)


def turned(piece: Piece, angle: float) -> list[Point]:
    """Corners of a piece from its first one, turned clockwise by an angle in radians."""
    (x0, y0), cos, sin = piece.points[0], math.cos(angle), math.sin(angle)
    away = [(x - x0, y - y0) for x, y in piece.points]
    return [(x * cos + y * sin, y * cos - x * sin) for x, y in away]


def flat(points: Sequence[Point]) -> list[float]:
    """Numbers of some points, one after another."""
    return [number for point in points for number in point]


def centre(piece: Piece) -> Point:
    """Middle of the box around a piece."""
    xs, ys = zip(*piece.points, strict=True)
    return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2


def surrounds(points: Sequence[Point], at: Point) -> bool:
    """Whether a polygon surrounds a point (even-odd rule)."""
    inside = False
    for (x, y), (x2, y2) in zip(points, [*points[1:], points[0]], strict=True):
        if (y > at[1]) != (y2 > at[1]) and at[0] < x + (at[1] - y) / (y2 - y) * (x2 - x):
            inside = not inside
    return inside


def crosses_itself(points: Sequence[Point]) -> bool:
    """Whether two sides of a polygon cross."""
    sides = list(pairwise([*points, points[0]]))
    return any(
        side(*one, two[0]) * side(*one, two[1]) < 0 and side(*two, one[0]) * side(*two, one[1]) < 0
        for one, two in combinations(sides, 2)
    )


def side(start: Point, end: Point, at: Point) -> float:
    """Above 0 where a point is left of a line, below 0 where it is right of it."""
    across, up = end[0] - start[0], end[1] - start[1]
    return across * (at[1] - start[1]) - up * (at[0] - start[0])


@pytest.mark.parametrize("pressed", PEDALS)
def test_each_piece_of_a_rolling_foot_keeps_its_form_and_tilts_as_its_pose_says(
    pressed: Pressed,
) -> None:
    rest = Pressed(40.0, 20.0)
    tilt = pose_of(pressed, Way.ROLL).angle - pose_of(rest, Way.ROLL).angle
    leg = (LEG_COLOUR, CREASE)

    for before, after in zip(
        behind(rest, Way.ROLL).pieces, behind(pressed, Way.ROLL).pieces, strict=True
    ):
        angle = turn(before, after)
        assert angle == pytest.approx(tilt, abs=1e-9) or before.colour in leg
        assert angle == pytest.approx(LEAN * tilt, abs=1e-9) or before.colour != CREASE
        assert flat(turned(after, 0.0)) == pytest.approx(flat(turned(before, angle)), abs=1e-9)


@pytest.mark.parametrize("pressed", PEDALS)
def test_the_heel_and_the_leg_of_a_turned_foot_keep_their_form(pressed: Pressed) -> None:
    drawn = [behind(one, Way.HEEL).pieces for one in (Pressed(40.0, 20.0), pressed)]

    for before, after in zip(*drawn, strict=True):
        if before.colour in (UPPER, SHADE, CREASE):
            angle = turn(before, after)
            assert angle == pytest.approx(0.0, abs=1e-9) or before.colour == CREASE
            assert flat(turned(after, 0.0)) == pytest.approx(flat(turned(before, angle)), abs=1e-9)


@pytest.mark.parametrize("way", Way)
@pytest.mark.parametrize("pressed", [BLIPPING, Pressed(20.0, 100.0), Pressed(100.0, 5.0)])
def test_what_presses_the_throttle_is_drawn_on_its_face(pressed: Pressed, way: Way) -> None:
    soles = [piece.points for piece in behind(pressed, way).pieces if piece.colour == SOLE]

    # A rolling foot presses with the sole under its ball, which is drawn before that of its heel.
    sole = soles[0 if way is Way.ROLL else -1]
    low = min(y for _, y in sole)
    touching = [x for x, y in sole if y < low + ROUND]
    assert low == pytest.approx(pose_of(pressed, way).throttle, abs=ROUND)
    assert THROTTLE_FACE[0] <= (min(touching) + max(touching)) / 2 <= THROTTLE_FACE[1]


@pytest.mark.parametrize("way", Way)
def test_the_left_foot_stands_on_the_clutch_and_apart_from_the_right_one(way: Way) -> None:
    pressed = Pressed(60.0, 0.0, 35.0)
    pose, alone = pose_of(pressed, way), pose_of(Pressed(60.0), way)

    points = [
        [point for piece in behind(pressed, way).pieces for point in piece.points],
        [point for piece in behind(Pressed(60.0), way).pieces for point in piece.points],
    ]
    left = [point for point in points[0] if point not in points[1]]
    assert pose.origin == alone.origin
    assert max(x for x, _ in left) < min(x for x, _ in points[1])
    over = [y for x, y in left if CLUTCH_FACE[0] <= x <= CLUTCH_FACE[1]]
    assert 0 <= (pose.clutch or 0.0) - min(over) < 2


@pytest.mark.parametrize("way", Way)
def test_each_face_is_drawn_as_high_as_its_pedal_is(way: Way) -> None:
    pressed = Pressed(60.0, 70.0, 35.0)
    pose = pose_of(pressed, way)

    faces = behind(pressed, way).faces
    for face, height, colour, percent in (
        (BRAKE_FACE, pose.brake, theme.BRAKE, 60.0),
        (THROTTLE_FACE, pose.throttle, theme.THROTTLE, 70.0),
        (CLUTCH_FACE, pose.clutch, theme.CLUTCH, 35.0),
    ):
        (left, top), (right, _) = faces[face_colour(colour, percent)]
        assert (left, top, right) == pytest.approx((face[0], height, face[1]))


@pytest.mark.parametrize("way", Way)
def test_from_above_each_face_is_as_bright_as_its_pedal_is_pressed(way: Way) -> None:
    faces = above(Pressed(3.0, 6.0, 9.0), way).faces

    for face, colour, percent in (
        (BRAKE_FACE, theme.BRAKE, 3.0),
        (THROTTLE_FACE, theme.THROTTLE, 6.0),
        (CLUTCH_FACE, theme.CLUTCH, 9.0),
    ):
        (left, _), (right, _) = faces[mixed(theme.GROUND, face_colour(colour, percent), LIT)]
        assert (left, right) == pytest.approx(face)


@pytest.mark.parametrize("way", Way)
@pytest.mark.parametrize("view", [behind, above])
def test_no_outline_crosses_itself(view: Callable[[Pressed, Way], Drawn], way: Way) -> None:
    pieces = view(BLIPPING, way).pieces

    for piece in pieces:
        if piece.colour in (SOLE, UPPER, FAR, SHADE, LEG_COLOUR):
            assert not crosses_itself(piece.points)


@pytest.mark.parametrize("percent", [0.0, 25.0, 50.0, 100.0])
def test_the_faces_sink_in_proportion_to_the_travel_of_their_pedals(percent: float) -> None:
    pose = pose_of(Pressed(percent, percent, percent), Way.ROLL)

    sunk = percent / 100
    assert (pose.brake, pose.throttle, pose.clutch) == pytest.approx(
        (
            BRAKE_FULL + BRAKE_TRAVEL * (1 - sunk),
            BRAKE_FULL - THROTTLE_TRAVEL * sunk,
            # A clutch that is half down is as high as a brake that is fully down.
            BRAKE_FULL + CLUTCH_TRAVEL * (0.5 - sunk),
        )
    )


@pytest.mark.parametrize("way", Way)
def test_what_touches_is_lit_on_the_face_and_under_the_foot(way: Way) -> None:
    pose = pose_of(BLIPPING, way)
    seen_from_above = above(BLIPPING, way)
    outline = next(piece for piece in seen_from_above.pieces if piece.colour == SOLE).points

    for lights in (behind(BLIPPING, way).lights, seen_from_above.lights):
        brake, throttle = lights
        assert (brake.colour, throttle.colour) == (theme.BRAKE, theme.THROTTLE)
        assert BRAKE_FACE[0] < brake.centre[0] < BRAKE_FACE[1]
        assert THROTTLE_FACE[0] < throttle.centre[0] < THROTTLE_FACE[1]
        assert brake.strength == glow_strength(60.0, 0.0)
        assert throttle.strength == glow_strength(70.0, 0.0)
    brake, throttle = behind(BLIPPING, way).lights
    assert 0 < pose.brake - brake.centre[1] < 1
    assert 0 < pose.throttle - throttle.centre[1] < 1
    for light in seen_from_above.lights:
        x, y = light.centre
        assert any(surrounds(outline, (x + dx, y)) for dx in (-0.6, 0.0, 0.6))


def test_from_above_the_toes_of_a_rolling_foot_point_right_and_its_heel_stays() -> None:
    outlines = [
        next(piece for piece in above(pressed, Way.ROLL).pieces if piece.colour == SOLE).points
        for pressed in (Pressed(60.0), BLIPPING)
    ]

    for outline in outlines:
        toe, heel = max(outline, key=lambda at: at[1]), min(outline, key=lambda at: at[1])
        assert toe[0] > heel[0] + 0.5
    heels = [min(outline, key=lambda at: at[1]) for outline in outlines]
    assert math.dist(*heels) < 0.5


@pytest.mark.parametrize(
    ("throttle", "share"), [(0.0, 0.0), (SETTLED, 0.02), (50.0, 0.5), (100.0, 1.0)]
)
def test_a_turned_foot_turns_by_what_is_written_down(throttle: float, share: float) -> None:
    off, touching, full = HEEL_YAW
    turn_at = touching + (full - touching) * share if throttle else off

    assert pose_of(Pressed(60.0, throttle), Way.HEEL).yaw == pytest.approx(turn_at)


def test_from_above_the_heel_of_a_turned_foot_swings_out_over_the_throttle() -> None:
    heels = []
    for throttle in (0.0, 20.0, 100.0):
        drawn = above(Pressed(60.0, throttle), Way.HEEL)
        outline = next(piece for piece in drawn.pieces if piece.colour == SOLE).points
        toe, heel = max(outline, key=lambda at: at[1]), min(outline, key=lambda at: at[1])
        assert BRAKE_FACE[0] < toe[0] < BRAKE_FACE[1]
        heels.append(heel[0])

    assert heels == sorted(set(heels))
    assert all(THROTTLE_FACE[0] - 1.5 < x < THROTTLE_FACE[1] for x in heels)


@pytest.mark.parametrize("way", Way)
def test_from_above_the_leg_stands_in_its_opening_and_leans_less_than_the_foot(way: Way) -> None:
    apart = []
    for pressed in (Pressed(60.0), BLIPPING):
        drawn = above(pressed, way).pieces
        leg, opening = centre(drawn[-1]), centre(drawn[-2])
        apart.append(leg[0] - opening[0])
        assert math.dist(leg, opening) < 2
    tilt = pose_of(BLIPPING, way).angle - pose_of(Pressed(60.0), way).angle

    assert tilt > 0.1
    assert abs(apart[1] - apart[0]) < 1.25 * tilt if way is Way.ROLL else 0.5


def test_a_glow_begins_faint_and_grows_with_the_pedal_and_none_is_where_nothing_touches() -> None:
    strengths = [glow_strength(percent, 0.0) for percent in (0.0, 1e-9, 50.0, 100.0, 130.0)]

    assert strengths == pytest.approx([0.0, FAINTEST, (1 + FAINTEST) / 2, 1.0, 1.0])
    assert glow_strength(50.0, 0.001) == 0


def test_a_face_is_dim_at_rest_and_has_its_colour_from_a_light_press_on() -> None:
    light = [sum(face_colour(theme.BRAKE, share * FULL)) for share in (-1, 0, 0.5, 1, 5)]

    assert light[0] == light[1] < light[2] < light[3] == light[4] == sum(theme.BRAKE)
