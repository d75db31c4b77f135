"""The curve overlay: only curves of the same scale, and their median."""

from dataclasses import replace

import numpy as np
import pygame
import pytest

from drills.deviation import Bound, Deviation
from engine.kit import theme
from engine.kit.canvas import Fonts
from engine.kit.curve_overlay import comparable, draw_overlay, median_curve, typical_words
from tests.engine.kit.recording_canvas import RecordingCanvas

DIP = Bound("dip 30", -30.0, None, (0.0, 1.0))
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


def zone(peak: float, away: float) -> Deviation:
    """Brake that comes down from a peak in % on its line, some points away from it."""
    asked, meant = ((-0.5, peak), (1.5, 0.0)), np.linspace(peak, 0.0, 21)
    return replace(picture(away, DIP), meant=meant, asked=asked)


def test_zones_to_several_peaks_are_as_far_from_the_line_drawn_as_from_their_own() -> None:
    first, last = comparable([zone(60.0, -3.0), zone(90.0, 2.0)])

    line = np.linspace(90.0, 0.0, 21)
    assert first.drawn == pytest.approx(line - 3.0)
    assert last.drawn == pytest.approx(line + 2.0)
    assert first.asked == last.asked


def test_unmeasured_deviations_are_left_out() -> None:
    assert comparable([picture(1.0)]) == []
    assert comparable([]) == []


def test_the_median_has_no_limits() -> None:
    middle = median_curve([picture(-20.0, DIP), picture(-10.0, DIP)])

    assert middle.bounds == ()


def test_the_median_is_drawn_on_a_scale_with_room_for_each_curve() -> None:
    wide = replace(picture(-20.0, DIP), reach=55.0)

    middle = median_curve([wide, picture(-10.0, DIP), picture(-12.0, DIP)])

    assert middle.reach == 55.0
    assert middle.deviation == pytest.approx(np.full(21, -12.0))


@pytest.mark.parametrize(("count", "words"), [(1, "one repetition"), (10, "typical of 10")])
def test_the_bold_curve_says_of_how_many_it_is_typical(count: int, words: str) -> None:
    assert typical_words(count) == words


def test_the_caption_counts_the_curves_drawn_and_ends_at_the_right_edge() -> None:
    pygame.font.init()
    canvas = RecordingCanvas((theme.WIDTH, theme.HEIGHT), Fonts())
    hold = picture(3.0, span=(0.0, 5.0))
    pictures = [replace(each, zero="held") for each in (picture(1.0, DIP), picture(2.0, DIP), hold)]

    draw_overlay(canvas, (100.0, 400.0), (1600.0, 400.0), pictures)

    [caption] = [text.ink for text in canvas.texts if text.text == "typical of 2"]
    assert caption.right == pytest.approx(1700, abs=4)
