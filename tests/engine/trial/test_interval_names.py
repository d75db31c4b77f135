"""Names of the intervals in the picture of a trial's result stand clear of the line at 0."""

import pygame
import pytest

from engine.kit import theme
from engine.kit.area import Area
from engine.kit.canvas import Fonts
from engine.trial.difference_picture import ASIDE, draw_difference
from engine.trial.difference_rows import DifferenceRow
from tests.engine.kit.recording_canvas import RecordingCanvas

NAME = "dips at blips of 60 %"
AREA = Area(theme.MARGIN, 400, theme.WIDTH - 2 * theme.MARGIN, 440)
MIDDLE = theme.WIDTH / 2


@pytest.mark.parametrize("low", [-9.5, -6.0, -3.0, -0.5, 0.0, 0.04, 2.0, 9.0])
def test_the_name_of_an_interval_is_beside_the_line_at_0_and_inside_the_frame(low: float) -> None:
    pygame.font.init()
    canvas = RecordingCanvas((theme.WIDTH, theme.HEIGHT), Fonts())

    draw_difference(canvas, AREA, [DifferenceRow(NAME, low + 0.5, low, low + 1.0)])

    [ink] = [text.ink for text in canvas.texts if text.text == NAME]
    assert ink.right <= MIDDLE - ASIDE or ink.left >= MIDDLE + ASIDE
    assert ink.left >= theme.MARGIN
    assert ink.right <= theme.WIDTH - theme.MARGIN
