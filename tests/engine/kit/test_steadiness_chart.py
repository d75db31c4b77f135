"""Steadiness on screens: its number, its interval and its chart agree."""

from itertools import pairwise

import pygame
import pytest

from engine.kit import theme
from engine.kit.canvas import Fonts, Point
from engine.kit.steadiness_chart import SteadinessView, steadiness_chart, steadiness_figure
from tests.engine.five.pictures import steadiness
from tests.engine.kit.recording_canvas import RecordingCanvas

SIZE = (470.0, 320.0)


def canvas() -> RecordingCanvas:
    """Canvas at one pixel per canvas unit."""
    pygame.font.init()
    return RecordingCanvas((theme.WIDTH, theme.HEIGHT), Fonts())


def days_of(shown: SteadinessView) -> RecordingCanvas:
    """Recording of the steadiness chart."""
    drawn = canvas()
    steadiness_chart(drawn, (100.0, 100.0), SIZE, shown)
    return drawn


def dots(drawn: RecordingCanvas) -> list[Point]:
    """Centres of the dots of the days."""
    return [centre for centre, _ in drawn.discs]


def test_the_number_is_written_with_its_meaning_and_its_interval() -> None:
    drawn = canvas()

    steadiness_figure(drawn, (100.0, 100.0), 620.0, SteadinessView(6.44, 5.04, 8.06, 6))

    assert [text.text for text in drawn.texts] == [
        "±6.4",
        "points",
        "Steadiness: three blips in four stay inside",
        "likely 5.0 to 8.1, your last 6 days",
    ]
    assert drawn.texts[0].size == max(text.size for text in drawn.texts) > theme.LARGE


@pytest.mark.parametrize("days", [1, 2, 12, 30])
def test_the_chart_has_a_dot_for_each_day_with_the_newest_at_the_right(days: int) -> None:
    at = dots(days_of(steadiness(days)))

    assert len(at) == days
    assert all(one[0] < other[0] for one, other in pairwise(at))


def test_the_distance_between_dots_is_proportional_to_the_days_between() -> None:
    shown = SteadinessView(6.0, 5.0, 7.0, 6, ((29, 9.0), (20, 8.0), (2, 7.0), (0, 6.0)))

    (first, second, third, today) = (x for x, _ in dots(days_of(shown)))

    assert (second - first) / (today - first) == pytest.approx(9 / 29)
    assert (today - third) / (today - first) == pytest.approx(2 / 29)


def test_twice_the_steadiness_is_drawn_twice_as_high_over_zero() -> None:
    shown = SteadinessView(4.0, 3.0, 5.0, 6, ((2, 8.0), (1, 2.0), (0, 4.0)))

    wide, narrow, middle = (y for _, y in dots(days_of(shown)))

    assert middle - wide == pytest.approx(2 * (narrow - middle))


def test_the_newest_dot_lies_inside_its_interval() -> None:
    drawn = days_of(steadiness(12))
    x, y = dots(drawn)[-1]

    (interval,) = [(start[1], end[1]) for start, end in drawn.lines if start[0] == end[0] == x]

    assert min(interval) < y < max(interval)


def test_both_axes_are_named_with_their_units() -> None:
    assert [text.text for text in days_of(steadiness(3)).texts] == [
        "points, the last 30 days",
        "0",
        "10",
        "29 days ago",
        "today",
    ]


@pytest.mark.parametrize("value", [0.4, 9.9, 37.0, 99.0, 140.0])
def test_any_steadiness_stays_inside_the_frame(value: float) -> None:
    days = ((3, value), (0, 1.2 * value))
    drawn = days_of(SteadinessView(value, 0.5 * value, 1.5 * value, 6, days))
    frame = drawn.boxes[0]

    assert all(frame.collidepoint(dot) for dot in dots(drawn))


def test_a_steadiness_without_days_has_an_empty_chart() -> None:
    assert dots(days_of(SteadinessView(6.0, 5.0, 7.0, 6))) == []
