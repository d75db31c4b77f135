"""Steadiness on screens: its number with its meaning and interval."""

import pygame

from engine.kit import theme
from engine.kit.canvas import Fonts
from engine.kit.steadiness_chart import SteadinessView, steadiness_figure
from tests.engine.kit.recording_canvas import RecordingCanvas


def test_the_number_is_written_with_its_meaning_and_its_interval() -> None:
    pygame.font.init()
    drawn = RecordingCanvas((theme.WIDTH, theme.HEIGHT), Fonts())

    steadiness_figure(drawn, (100.0, 100.0), 620.0, SteadinessView(6.44, 5.04, 8.06, 6))

    assert [text.text for text in drawn.texts] == [
        "±6.4",
        "points",
        "Steadiness: three blips in four stay inside",
        "likely 5.0 to 8.1, your last 6 days",
    ]
    assert drawn.texts[0].size == max(text.size for text in drawn.texts) > theme.LARGE
