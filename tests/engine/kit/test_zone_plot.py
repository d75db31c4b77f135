"""The plot of a braking zone: the brake itself, its line, its parts, and what decided on it."""

import numpy as np
import pygame
import pytest

from drills.deviation import Deviation
from engine.kit import theme
from engine.kit.canvas import Fonts
from engine.kit.deviation_frame import frame_of
from engine.kit.deviation_plot import decisive
from tests.drills.kinds.driven_zone import Foot, driven, random_zone
from tests.drills.kinds.zone_cases import CASES
from tests.engine.kit.plots import CORNER, SIZE, Drawn, misplaced, one_thing


@pytest.fixture(scope="module")
def fonts() -> Fonts:
    """Typeface, loaded without a window."""
    pygame.font.init()
    return Fonts()


PICTURES = {
    **{case.name: case.made.picture for case in CASES},
    **{f"seed {seed}": random_zone(seed).picture for seed in range(40)},
}
each = pytest.mark.parametrize("name", PICTURES)


def picture_of(name: str) -> Deviation:
    """A picture by its name; there is one of every zone."""
    picture = PICTURES[name]
    assert picture is not None
    return picture


@each
def test_all_words_of_a_zone_are_inside_and_none_on_another(name: str, fonts: Fonts) -> None:
    assert misplaced(fonts, picture_of(name)) == []


@each
def test_what_decided_a_zone_is_written_with_its_limit_and_its_parts(
    name: str, fonts: Fonts
) -> None:
    picture = picture_of(name)

    said = one_thing(fonts, picture).said

    assert {"asked", "brake", "turn-in"} <= {*said}
    assert "cue" not in said
    for one in (picture.worst, picture.decides, picture.timing):
        assert one is None or one.label in said


@each
def test_the_ring_is_on_the_brake_and_the_line_at_the_brake_asked(name: str, fonts: Fonts) -> None:
    picture = picture_of(name)
    drawing = Drawn(fonts)

    frame = decisive(drawing, CORNER, SIZE, picture)

    assert (frame.axes.low, frame.axes.high) == (0.0, picture.reach)
    assert frame.asked(picture)[1] == frame.axes.place(0.0, 70.0)
    if picture.worst is not None:
        k = int(np.argmin(np.abs(picture.time - picture.worst.at)))
        brake = float(picture.drawn[k])
        at = frame.place(picture, picture.worst.at, picture.worst.deviation)
        assert at == pytest.approx(frame.axes.place(picture.worst.at, brake), abs=0.5)


def test_an_area_is_filled_between_the_brake_and_what_it_is_compared_with(fonts: Fonts) -> None:
    picture = driven(Foot(dips=(20.0, 20.0)), {"shortfall": 0.5}).picture
    assert picture is not None

    fills = [points for colour, points in one_thing(fonts, picture).shapes if colour == theme.DIP]

    axes = frame_of(CORNER, SIZE, picture).axes
    assert len(fills) >= 2
    for points in fills:
        assert min(y for _, y in points) >= axes.down(75.0)
        assert max(y for _, y in points) <= axes.down(10.0)
