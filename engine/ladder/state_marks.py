"""Marks for the state of a level, on the climb, in lists and in charts."""

from __future__ import annotations

import math

from engine.kit import theme
from engine.kit.canvas import Colour, Point
from engine.kit.charts import Paper
from engine.kit.level_marks import RADIUS, draw_closing, draw_open, draw_passed, draw_retained
from engine.ladder.ladder import State


def draw_state(canvas: Paper, centre: Point, state: State, colour: Colour = theme.TEXT) -> None:
    """Draw the mark for the state of a level: a disc, half disc, circle, dot, dashes, rings."""
    x, y = centre
    match state:
        case State.PASSED:
            draw_passed(canvas, centre, colour)
        case State.RETAINED:
            draw_retained(canvas, centre, 1, colour)
        case State.WELL_RETAINED:
            draw_retained(canvas, centre, 2, colour)
        case State.PLACED:
            turns = [math.pi * turn / 24 for turn in range(25)]
            half = [(x + RADIUS * math.cos(a), y + RADIUS * math.sin(a)) for a in turns]
            draw_open(canvas, centre, colour)
            canvas.shape(half, colour)
        case State.OPEN:
            draw_open(canvas, centre, colour)
        case State.CLOSED:
            canvas.disc(centre, RADIUS * 0.38, colour)
        case State.UNHEARD:
            for side in (-0.45, 0.45):
                ends = (x - RADIUS * 0.8, y + side * RADIUS), (x + RADIUS * 0.8, y + side * RADIUS)
                canvas.line(*ends, colour, 5)
        case State.LACKING:
            canvas.line((x - RADIUS * 0.8, y), (x + RADIUS * 0.8, y), colour, 5)


def draw_state_reached(
    canvas: Paper, centre: Point, state: State, share: float, colour: Colour = theme.TEXT
) -> None:
    """Draw the mark of a level that was passed or retained, a share of the way from the last."""
    match state:
        case State.RETAINED:
            draw_closing(canvas, centre, (0, 1), share, colour)
        case State.WELL_RETAINED:
            draw_closing(canvas, centre, (1, 2), share, colour)
        case _:
            draw_passed(canvas, centre, colour, share=share)
