"""The one large picture of a day: the climb, a row, a curve, the steadiness, or the hill."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from engine.date_words import dated_words
from engine.five.day import Day, DayViews
from engine.five.day_best import Better, better_of
from engine.kit import deviation_plot, theme
from engine.kit.canvas import Canvas
from engine.kit.charts import Area
from engine.kit.charts_marks import dashed
from engine.kit.curve_overlay import comparable, median_curve, typical_words
from engine.kit.hill import hill
from engine.ladder.climb_picture import ClimbArea, climb_picture
from engine.practice.steadiness import Steadiness

FAINT = 5
"""Most curves drawn faintly with the typical one, the newest, as a count."""
PITCH = 150.0
"""Largest distance from one disc of a row to the next, in canvas units."""
LEAST_PITCH = 60.0
"""Smallest distance of the discs of a row before it goes on in another line, in canvas units."""
LEAST_REACH = 3.0
"""Smallest range of steadiness that the height of its picture stands for, in points."""
DOT, RING = 16.0, 30.0
"""Radius of a dot of steadiness and of the ring round today's, in canvas units."""


@dataclass(frozen=True)
class Point:
    """Steadiness at the end of one day, as the picture shows it."""

    day: date
    """Local day."""
    value: float
    """Steadiness, in points."""


def has_motion(day: Day) -> bool:
    """Whether a part of the day's picture moves as it opens."""
    views, better = day.views, better_of(day)
    if views is None or better is Better.SCORE:
        return False
    if better in (Better.PASSED, Better.RETAINED):
        return views.rise is not None
    return better is not Better.NOTHING or bool(day.counted)


def draw_day(canvas: Canvas, area: Area, day: Day, share: float) -> None:
    """Draw the one picture of a day; `share` of the way of what moves in it is done, 0 to 1."""
    views, better = day.views, better_of(day)
    if views is None or not day.parts:
        return
    if better in (Better.PASSED, Better.RETAINED):
        rise = None if views.rise is None else replace(views.rise, share=share)
        climb = ClimbArea(area.top, area.top + area.height)
        climb_picture(canvas, climb, views.stages, views.following, rise=rise, fresh=theme.BRAKE)
    elif better is Better.ROW:
        draw_row(canvas, area, day.row, share)
    elif better is Better.STEADIER and views.step is not None:
        draw_steadiness(canvas, area, _points(day, views, views.step.first), views.today, share)
    elif better is Better.SCORE and day.best is not None and views.curves.get(day.best.level):
        _draw_typical(canvas, area, views, day.best.level)
    elif views.days:
        # Without a repetition that counted, the newest layer is not of this session.
        hill(canvas, area, views, share if day.counted else None)


def draw_row(canvas: Canvas, area: Area, count: int, share: float) -> None:
    """Draw a row of clean repetitions, a disc each; the newest one is filled to a share."""

    def pitch(rows: int) -> float:
        return min(area.width / math.ceil(count / rows), area.height / rows, PITCH)

    in_one = count * LEAST_PITCH <= area.width
    rows = 1 if in_one else max(range(1, count + 1), key=pitch)
    columns, step = math.ceil(count / rows), pitch(rows)
    top = area.top + (area.height - rows * step) / 2
    for number in range(count):
        line, column = divmod(number, columns)
        centre = (area.left + (column + 0.5) * step, top + (line + 0.5) * step)
        newest = number == count - 1
        radius = step * 0.36
        if newest:
            canvas.disc(centre, radius, theme.BRAKE, max(radius / 6, 2.0))
        canvas.disc(
            centre, radius * (share if newest else 1.0), theme.BRAKE if newest else theme.TEXT
        )


def draw_steadiness(
    canvas: Canvas, area: Area, points: Sequence[Point], today: date, share: float
) -> None:
    """Draw steadiness from the first day to today's, which a ring is drawn round.

    `share` of the ring's size is reached. The line to the days that are drawn is dashed.
    """
    values = [point.value for point in points]
    middle = (min(values) + max(values)) / 2
    reach = max(max(values) - min(values), LEAST_REACH)
    plot = area.within(RING, RING, RING, RING + theme.SMALL + 12)
    span = max((points[-1].day - points[0].day).days, 1)
    at = [
        (
            plot.left + plot.width * (point.day - points[0].day).days / span,
            plot.top + plot.height * (0.5 - (point.value - middle) / reach),
        )
        for point in points
    ]
    dashed(canvas, at[:2], theme.EARLIER, 5)
    canvas.curve(at[1:], theme.BRAKE, 7)
    canvas.disc(at[0], DOT, theme.EARLIER)
    canvas.disc(at[-1], DOT, theme.BRAKE)
    if share > 0:
        canvas.disc(at[-1], DOT + (RING - DOT) * share, theme.TEXT, 4)
    below = area.top + area.height - theme.SMALL
    first = f"±{values[0]:.1f} on {dated_words(points[0].day, today)}"
    canvas.text(first, (area.left, below), theme.SMALL, theme.QUIET)
    right = area.left + area.width
    canvas.text("now", (right, below), theme.SMALL, theme.QUIET, "right")


def _points(day: Day, views: DayViews, first: Steadiness) -> list[Point]:
    """The first steadiness, that of each of the last days after it, and today's."""
    recent = [] if day.steadiness is None else day.steadiness.days
    shown = [Point(views.today - timedelta(days=ago), value) for ago, value in recent]
    return [Point(first.last, first.value), *(one for one in shown if one.day > first.last)]


def _draw_typical(canvas: Canvas, area: Area, views: DayViews, level: str) -> None:
    """Draw the session's curves of a level, the typical one bold."""
    curves = comparable(views.curves[level])
    if not curves:
        hill(canvas, area, views, 1.0)
        return
    corner, size = (area.left, area.top), (area.width, area.height)
    deviation_plot.deviation(canvas, corner, size, median_curve(curves), curves[-FAINT:])
    right = (area.left + area.width, area.top - 8)
    canvas.text(typical_words(len(curves)), right, theme.SMALL, theme.QUIET, "right")
