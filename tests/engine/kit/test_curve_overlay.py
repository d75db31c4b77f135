"""The curve overlay: only curves of the same scale, and only limits they all have."""

from dataclasses import replace

import numpy as np
import pygame
import pytest

from drills.deviation import Bound, Deviation
from engine.kit import theme
from engine.kit.canvas import Fonts
from engine.kit.curve_overlay import comparable, draw_overlay, median_curve
from tests.engine.kit.recording_canvas import RecordingCanvas

DIP = Bound("dip 30", -30.0, None, (0.0, 1.0))
END = Bound("end ±8", -8.0, 8.0, (0.9, 1.2))
TIME = np.linspace(-0.5, 1.5, 21)


def picture(level: float, *bounds: Bound, span: tuple[float, float] = (-0.5, 1.5)) -> Deviation:
    """Constant deviation of that many points."""
    return Deviation(TIME, np.full(21, level), span, bounds=bounds)


def test_the_most_common_scale_is_drawn() -> None:
    blips = [picture(1.0, DIP), picture(2.0, DIP)]
    hold = picture(3.0, DIP, span=(0.0, 5.0))

    assert comparable([blips[0], hold, blips[1]]) == blips


def test_of_two_equally_common_scales_the_later_one_is_drawn() -> None:
    blip, hold = picture(1.0, DIP), picture(3.0, DIP, span=(0.0, 5.0))

    assert comparable([blip, hold]) == [hold]


def test_unmeasured_deviations_are_left_out() -> None:
    assert comparable([picture(1.0)]) == []
    assert comparable([]) == []


def test_only_limits_that_all_deviations_have_are_drawn() -> None:
    closer = replace(DIP, label="dip 15", low=-15.0)

    middle = median_curve([picture(-20.0, DIP, END), picture(-10.0, closer, END)])

    assert [bound.label for bound in middle.bounds] == ["end ±8"]


def test_the_median_is_drawn_on_a_scale_with_room_for_each_curve() -> None:
    wide = replace(picture(-20.0, DIP), reach=55.0)

    middle = median_curve([wide, picture(-10.0, DIP), picture(-12.0, DIP)])

    assert middle.reach == 55.0
    assert middle.deviation == pytest.approx(np.full(21, -12.0))


def test_the_caption_counts_the_curves_drawn_and_ends_at_the_right_edge() -> None:
    pygame.font.init()
    canvas = RecordingCanvas((theme.WIDTH, theme.HEIGHT), Fonts())
    hold = picture(3.0, span=(0.0, 5.0))
    pictures = [replace(each, zero="held") for each in (picture(1.0, DIP), picture(2.0, DIP), hold)]

    draw_overlay(canvas, (100.0, 400.0), (1600.0, 400.0), pictures, "{} curves".format)

    [caption] = [text.ink for text in canvas.texts if text.text == "2 curves"]
    assert caption.right == pytest.approx(1700, abs=4)
