"""Rows below the foot of a lesson: the courses of the pedals, what is seen or heard, and when."""

from __future__ import annotations

from functools import cache

import pygame
import pytest

from drills.trace import Sample, nanoseconds
from engine.drill.lesson_moves import LASTS, MOVES, PEAK
from engine.drill.lesson_rows import BETWEEN, BOTTOM, LEFT, RIGHT, TOP
from engine.drill.lesson_words import WORDS
from engine.kit import theme
from engine.kit.canvas import Fonts
from tests.engine.drill.pictures import lesson
from tests.engine.kit.recording_canvas import RecordingCanvas

each_lesson = pytest.mark.parametrize("name", MOVES)
BLIPS = sorted(name for name in MOVES if MOVES[name].blips)


@cache
def drawn(name: str, seconds: float = 0.0) -> RecordingCanvas:
    """Recording of a lesson, some seconds after it opened, at one pixel per canvas unit."""
    pygame.font.init()
    canvas = RecordingCanvas((theme.WIDTH, theme.HEIGHT), Fonts())
    screen = lesson(name, moves=True)
    screen.on_sample(Sample(nanoseconds(seconds), 0.0, 0.0), nanoseconds(seconds))
    screen.draw_on(canvas, 0.0)
    return canvas


def across(seconds: float) -> float:
    """Place of a time in s along a row, in canvas units."""
    return LEFT + (RIGHT - LEFT) * seconds / LASTS


def time_at(x: float) -> float:
    """Time in s at a place along a row; that at its end is just before the movement begins anew."""
    return min((x - LEFT) / (RIGHT - LEFT) * LASTS, LASTS - 1e-9)


def bases(canvas: RecordingCanvas) -> list[float]:
    """Lower end of each row, the uppermost first."""
    return [y for (x, y), end in canvas.lines if (x, end) == (LEFT, (RIGHT, y))]


@each_lesson
def test_the_rows_fill_their_area_evenly(name: str) -> None:
    moves, rows = MOVES[name], bases(drawn(name))

    count = 1 + bool(moves.blips) + (moves.clutch is not None)
    height = (BOTTOM - TOP - BETWEEN * (count - 1)) / count
    assert rows == pytest.approx([TOP + height + n * (height + BETWEEN) for n in range(count)])
    assert rows[-1] == pytest.approx(BOTTOM)


@each_lesson
@pytest.mark.parametrize(("pedal", "colour"), [("brake", theme.BRAKE), ("clutch", theme.CLUTCH)])
def test_the_curve_of_a_pedal_is_its_movement(
    name: str, pedal: str, colour: tuple[int, int, int]
) -> None:
    canvas = drawn(name)
    curves = [points for drawn_in, points in canvas.curves if drawn_in == colour]
    rows = bases(canvas)
    base, high = (rows[0], rows[0] - TOP) if pedal == "brake" else (rows[-1], rows[0] - TOP)

    assert len(curves) == (pedal == "brake" or MOVES[name].clutch is not None)
    for points in curves:
        assert (points[0][0], points[-1][0]) == pytest.approx((LEFT, RIGHT))
        for x, y in points:
            percent = getattr(MOVES[name].at(time_at(x)), pedal)
            assert y == pytest.approx(base - high * percent / 100, abs=1e-3)


@pytest.mark.parametrize("name", BLIPS)
def test_each_blip_is_filled_where_it_is_and_as_high(name: str) -> None:
    canvas, moves = drawn(name), MOVES[name]
    rows = bases(canvas)
    high = rows[0] - TOP

    fills = [points for colour, points in canvas.fills if colour == theme.THROTTLE]
    assert len(fills) == len(moves.blips)
    for points in fills:
        (start, low), *course, (end, low_too) = points
        assert low == low_too == pytest.approx(rows[1])
        assert (start, end) == (course[0][0], course[-1][0])
        for x, y in course:
            percent = moves.at(time_at(x)).throttle
            assert y == pytest.approx(rows[1] - high * percent / 100, abs=1e-3)
        assert max(moves.at(time_at(x)).throttle for x in (start, end)) < 5
        assert min(y for _, y in course) == pytest.approx(rows[1] - high * PEAK / 100, abs=2)


@each_lesson
def test_each_sign_stands_below_its_line_at_its_time(name: str) -> None:
    canvas, moves = drawn(name), MOVES[name]

    upright = [start for start, end in canvas.lines if start[0] == end[0] and start[1] == TOP]
    assert [x for x, _ in upright[:-1]] == pytest.approx([across(at) for at in moves.signs])
    for sign, at in zip(WORDS[name].signs, moves.signs, strict=True):
        inks = [text.ink for text in canvas.texts if text.text == sign and text.ink.top > BOTTOM]
        assert min(abs(ink.centerx - across(at)) for ink in inks) < 4


@pytest.mark.parametrize(("seconds", "at"), [(0.0, 0.0), (3.3, 3.3), (LASTS + 1.2, 1.2)])
def test_the_playhead_is_where_the_movement_is_and_begins_again(seconds: float, at: float) -> None:
    start, end = drawn("blip", seconds).lines[-1]

    assert (start[0], end[0]) == pytest.approx((across(at), across(at)))
    assert (start[1], end[1]) == (TOP, BOTTOM)


@each_lesson
def test_each_sign_is_something_that_is_seen_or_heard(name: str) -> None:
    assert {*WORDS[name].signs} <= {
        *("dark", "light", "cue", "knock", "low", "high", "click", "tone")
    }
    assert WORDS[name].signs.count("dark") == WORDS[name].signs[:1].count("dark")
