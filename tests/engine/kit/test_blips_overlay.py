"""Chart of all blips of a drive: each is drawn, the typical one bold, the drill's dashed."""

import numpy as np
import pygame
import pytest

from drills.deviation import AROUND_BLIP, Deviation
from engine.kit import theme
from engine.kit.area import Area
from engine.kit.blips_overlay import overlay_chart
from engine.kit.canvas import Fonts
from tests.engine.kit.recording_canvas import RecordingCanvas

AREA = Area(120, 100, 1680, 800)


def curve(depth: float, ends: float = 0.5) -> Deviation:
    """A blip that dips by a depth under its chord."""
    time = np.arange(-100, round(1000 * ends)) / 1000
    dip = -depth * np.exp(-(((time - 0.15) / 0.07) ** 2))
    return Deviation(time, dip, AROUND_BLIP, zero="straight")


def drawn(
    *blips: Deviation, drill: tuple[str, Deviation] | None = None, band: float | None = None
) -> RecordingCanvas:
    """The chart of these blips, at one pixel a canvas unit."""
    pygame.font.init()
    canvas = RecordingCanvas((theme.WIDTH, theme.HEIGHT), Fonts())
    overlay_chart(canvas, AREA, blips, drill, band=band)
    return canvas


def test_all_of_ninety_blips_are_drawn_thin_and_their_median_bold() -> None:
    canvas = drawn(*(curve(5 + number / 10) for number in range(90)))

    colours = [colour for colour, _ in canvas.curves]
    # One more of each is the sample in the legend.
    assert colours.count(theme.EARLIER) == 90 + 1
    assert colours.count(theme.BRAKE) == 1 + 1
    assert "90 blips." in {text.text for text in canvas.texts}


def test_the_drill_is_dashed_and_named_only_where_there_is_one() -> None:
    alone, beside = drawn(curve(9.0)), drawn(curve(9.0), drill=("easing off", curve(4.0)))

    assert theme.TEXT not in {colour for colour, _ in alone.curves}
    assert theme.TEXT in {colour for colour, _ in beside.curves}
    assert "easing off" in {text.text for text in beside.texts}
    assert "One blip." in {text.text for text in beside.texts}


def test_a_curve_that_is_longer_than_the_chart_stays_inside_it() -> None:
    long = Deviation(np.arange(-500, 1500) / 1000, np.zeros(2000), AROUND_BLIP)

    canvas = drawn(curve(9.0, 0.4), drill=("single blips", long))

    for _, points in canvas.curves:
        assert len(points) < 3 or len({round(x) for x, _ in points}) > 2
        assert all(AREA.left <= x <= AREA.right for x, _ in points)


def test_the_median_of_the_drills_fits_on_the_scale() -> None:
    canvas = drawn(curve(4.0), drill=("easing off", curve(38.0)))

    assert "-40" in {text.text for text in canvas.texts}


@pytest.mark.parametrize(("band", "boxes"), [(None, 0), (5.0, 1)])
def test_a_tolerance_is_a_band_about_nothing(band: float | None, boxes: int) -> None:
    plain, canvas = drawn(curve(9.0)), drawn(curve(9.0), band=band)

    assert len(canvas.boxes) - len(plain.boxes) == boxes
