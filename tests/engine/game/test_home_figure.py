"""Steadiness on home: its figure, its curve, and the wait for the first one."""

from collections.abc import Callable
from datetime import date

import pygame
import pytest

from engine.game.home_figure import CURVE, draw_steadiness, draw_waiting
from engine.game.home_words import day_words
from engine.kit import theme
from engine.kit.canvas import Canvas, Fonts, Point
from engine.kit.steadiness_view import SteadinessView
from tests.engine.five.pictures import TODAY, steadiness
from tests.engine.kit.recording_canvas import RecordingCanvas


def canvas_of(draw: Callable[[Canvas], None]) -> RecordingCanvas:
    """Recording of a part of a screen."""
    pygame.font.init()
    canvas = RecordingCanvas((theme.WIDTH, theme.HEIGHT), Fonts())
    draw(canvas)
    return canvas


def curve_of(*days: tuple[int, float]) -> list[Point]:
    """Points of the curve of steadiness on some days, as pairs of days ago and points."""
    view = SteadinessView(days[-1][1], 1.0, 40.0, 6, days)
    [(_, points)] = canvas_of(lambda canvas: draw_steadiness(canvas, view, TODAY)).curves
    return points


def test_the_curve_begins_and_ends_at_its_own_days() -> None:
    older = SteadinessView(6.0, 5.0, 7.0, 6, ((25, 9.04), (3, 6.0)))

    texts = {
        text.text for text in canvas_of(lambda canvas: draw_steadiness(canvas, older, TODAY)).texts
    }

    assert {"±9.0 on 22 Apr", "14 May"} <= texts
    assert "today" not in texts


def test_a_single_day_of_steadiness_has_no_curve() -> None:
    canvas = canvas_of(
        lambda canvas: draw_steadiness(canvas, SteadinessView(6.0, 5.0, 7.0, 1, ((0, 6.0),)), TODAY)
    )

    assert canvas.curves == []
    assert "today" not in [text.text for text in canvas.texts]


def test_a_steadiness_of_before_a_rest_is_not_told_as_that_of_today() -> None:
    rested = SteadinessView(4.2, 3.5, 5.6, 6)

    texts = [
        text.text for text in canvas_of(lambda canvas: draw_steadiness(canvas, rested, TODAY)).texts
    ]

    assert texts == [
        "±4.2",
        "points",
        "Steadiness when last measured: three blips in four stayed inside.",
    ]


@pytest.mark.parametrize("blips", [0, 12, 35])
def test_each_blip_that_steadiness_waits_for_has_its_mark(blips: int) -> None:
    canvas = canvas_of(lambda canvas: draw_waiting(canvas, blips))

    assert len(canvas.discs) == 36
    assert [colour for _, colour in canvas.discs].count(theme.BRAKE) == blips


@pytest.mark.parametrize(
    ("day", "words"),
    [
        (TODAY, "today"),
        (date(2024, 5, 2), "2 May"),
        (date(2023, 12, 31), "31 Dec 2023"),
    ],
)
def test_a_day_has_its_year_where_that_is_another(day: date, words: str) -> None:
    assert day_words(day, TODAY) == words


def test_the_distance_between_days_is_proportional_to_their_number() -> None:
    xs = [x for x, _ in curve_of((29, 9.0), (20, 8.0), (2, 7.0), (0, 6.0))]

    assert (xs[1] - xs[0]) / (xs[3] - xs[0]) == pytest.approx(9 / 29)
    assert (xs[3] - xs[2]) / (xs[3] - xs[0]) == pytest.approx(2 / 29)


def test_a_steadier_day_is_drawn_lower_in_proportion() -> None:
    wide, narrow, middle = (y for _, y in curve_of((2, 10.0), (1, 2.0), (0, 4.0)))

    assert wide < middle < narrow
    assert narrow - middle == pytest.approx((narrow - wide) / 4)


def test_days_that_are_nearly_alike_look_alike() -> None:
    one, other = (y for _, y in curve_of((1, 5.0), (0, 5.3)))

    assert other < one
    assert one - other < 0.2 * CURVE[2]


@pytest.mark.parametrize("value", [0.4, 9.9, 37.0, 140.0])
def test_any_steadiness_stays_beside_the_figure(value: float) -> None:
    left, top, height = CURVE

    points = curve_of((3, value), (1, 1.2 * value), (0, 0.1 * value))

    assert all(left <= x <= theme.WIDTH - theme.MARGIN for x, _ in points)
    assert all(top <= y <= top + height for _, y in points)


def test_a_dot_marks_the_newest_day_of_the_curve() -> None:
    view = steadiness(12)

    canvas = canvas_of(lambda canvas: draw_steadiness(canvas, view, TODAY))

    [(_, points)] = canvas.curves
    assert canvas.discs == [(points[-1], theme.BRAKE)]
