"""Upper part of home: the steadiness with its curve, or what will stand in its place."""

from __future__ import annotations

from datetime import date, timedelta

from engine.game.home_words import BEFORE_REST, MEANING, day_words, waiting_words
from engine.kit import theme
from engine.kit.canvas import Canvas
from engine.kit.opening import draw_lead
from engine.kit.steadiness_view import SteadinessView
from engine.kit.typeface import Weight
from engine.practice.steadiness import WINDOW

TOP = 158
"""Top of the large figure, in canvas units."""
UNIT = 256
"""Top of the word "points" beside the large figure, in canvas units."""
MEANING_TOP = 344
"""Top of the line under the large figure, in canvas units."""
LEAD_TOP = 192
"""Top of the sentence that stands in place of the large figure, in canvas units."""
CURVE = (1150.0, 150.0, 170.0)
"""Left, top and height of the curve of steadiness, in canvas units."""
LEAST_REACH = 3.0
"""Smallest range of steadiness that the curve's height stands for, in points."""
DOTS_TOP = 316
"""Height of the row of blips that the first steadiness waits for, in canvas units."""


def draw_steadiness(canvas: Canvas, view: SteadinessView, today: date) -> None:
    """Draw the steadiness as the large figure, with its meaning and its curve up to today.

    Without a day of it among the last 30, its meaning says that it is an earlier one.
    """
    value = f"±{view.value:.1f}"
    left = theme.MARGIN - 6
    canvas.text(value, (left, TOP), theme.FIGURE, theme.BRAKE, weight=Weight.BOLD)
    after = left + canvas.measure(value, theme.FIGURE, Weight.BOLD) + 28
    canvas.text("points", (after, UNIT), theme.BODY, theme.QUIET)
    meaning = MEANING if view.days else BEFORE_REST
    canvas.text(meaning, (theme.MARGIN, MEANING_TOP), theme.SMALL + 4)
    if len(view.days) > 1:
        _curve(canvas, view, today)


def draw_waiting(canvas: Canvas, blips: int) -> None:
    """Draw when the first steadiness comes, with a mark for each blip it takes."""
    draw_lead(canvas, LEAD_TOP, waiting_words(blips))
    radius, ends = 13.0, (theme.MARGIN + 13.0, theme.WIDTH - theme.MARGIN - 13.0)
    for blip in range(WINDOW):
        x = ends[0] + (ends[1] - ends[0]) * blip / (WINDOW - 1)
        if blip < blips:
            canvas.disc((x, DOTS_TOP), radius, theme.BRAKE)
        else:
            canvas.disc((x, DOTS_TOP), radius, theme.FAINT, 3)


def draw_sentences(canvas: Canvas, lead: str, more: str) -> None:
    """Write a sentence in place of the large figure, and a quiet one below it."""
    y = draw_lead(canvas, LEAD_TOP, lead)
    canvas.text(more, (theme.MARGIN, y + 2), theme.BODY, theme.QUIET)


def _curve(canvas: Canvas, view: SteadinessView, today: date) -> None:
    """Draw the steadiness of each day as a line from the first day to the last one measured."""
    left, top, height = CURVE
    right = float(theme.WIDTH - theme.MARGIN - 14)
    agos, values = zip(*view.days, strict=True)
    middle = (min(values) + max(values)) / 2
    reach = max(max(values) - min(values), LEAST_REACH)
    first, last = agos[0], agos[-1]
    points = [
        (
            left + (right - left) * (first - ago) / (first - last),
            top + height * (0.5 - (value - middle) / reach),
        )
        for ago, value in view.days
    ]
    canvas.curve(points, theme.BRAKE, 6)
    canvas.disc(points[-1], 14, theme.BRAKE)
    began, ended = (today - timedelta(days=ago) for ago in (first, last))
    words = f"±{values[0]:.1f} on {day_words(began, today)}"
    canvas.text(words, (left, MEANING_TOP), theme.SMALL, theme.QUIET)
    at = (theme.WIDTH - theme.MARGIN, MEANING_TOP)
    canvas.text(day_words(ended, today), at, theme.SMALL, theme.QUIET, "right")
