"""Chart of what counting costs, month by month and now, each with its likely range."""

from __future__ import annotations

import math
from datetime import date

from engine.drill.cost_words import month_words
from engine.kit import charts_marks, theme
from engine.kit.area import Area
from engine.kit.canvas import Point
from engine.kit.charts import BOTH_WAYS, LETTER, Axes, Paper, framed, scale_up, step_of
from engine.kit.typeface import Weight
from engine.practice.counting_cost import CostOverTime, CountingCost

MOST_MONTHS = 8
"""Most months that are drawn, as a count: the names of more would touch."""
DOT, NOW = 11.0, 18.0
"""Radius of the dot of a month and of that of now, in canvas units."""
WHISKER, END = 6.0, 16.0
"""Width of the line of a likely range and half the width of its ends, in canvas units."""
ZERO = 4.0
"""Width of the line where counting costs nothing, in canvas units."""
LEAST_REACH = 4.0
"""Least that the scale reaches above 0, in points."""


def cost_chart(paper: Paper, area: Area, cost: CostOverTime, today: date) -> None:
    """Draw the cost of each month and the present one over the line of no cost.

    There is a present cost.
    """
    if cost.now is None:
        return
    shown = [*_months(cost), cost.now]
    axes = Axes(framed(area), 0.0, float(len(shown)), *_reach(shown))
    scale_up(paper, axes, "points deeper with counting")
    charts_marks.legend(paper, axes, 0.0, [(_sample, "cost, and its likely range")])
    frame, zero = axes.frame, axes.down(0.0)
    paper.line((frame.left, zero), (frame.right, zero), theme.TEXT, ZERO)
    for number, month in enumerate(shown):
        is_now = month is cost.now
        x = axes.across(number + 0.5)
        _draw_cost(paper, (x, axes.down(month.dip.value)), _ends(axes, month), is_now=is_now)
        word = "now" if is_now else month_words(month.first, today)
        weight = Weight.BOLD if is_now else Weight.REGULAR
        colour = theme.TEXT if is_now else theme.QUIET
        paper.text(word, (x, frame.bottom + 14), theme.SMALL, colour, "centre", weight=weight)


def _months(cost: CostOverTime) -> list[CountingCost]:
    """Months that are drawn: the newest, after the one that the present cost is set against.

    One that holds just the pairs of the present cost is left out.
    """
    newest = [month for month in cost.months if month != cost.now][-MOST_MONTHS:]
    if cost.before is None or cost.before in newest:
        return newest
    return [cost.before, *newest[1:]]


def _reach(shown: list[CountingCost]) -> tuple[float, float]:
    """Ends of the scale, in points: round numbers beyond all likely ranges, and 0."""
    low = min(0.0, *(month.dip.low for month in shown))
    high = max(LEAST_REACH, *(month.dip.high for month in shown))
    step = step_of(high - low, BOTH_WAYS - 1)
    return step * math.floor(low / step), step * math.ceil(high / step)


def _ends(axes: Axes, month: CountingCost) -> tuple[float, float]:
    """Upper and lower end of a likely range, in canvas units."""
    return axes.down(month.dip.high), axes.down(month.dip.low)


def _draw_cost(paper: Paper, dot: Point, ends: tuple[float, float], *, is_now: bool) -> None:
    """Draw the dot of a cost on the line of its likely range."""
    x, colour = dot[0], theme.BRAKE if is_now else theme.EARLIER
    paper.line((x, ends[0]), (x, ends[1]), colour, WHISKER)
    for y in ends:
        paper.line((x - END, y), (x + END, y), colour, WHISKER)
    paper.disc(dot, NOW if is_now else DOT, colour)


def _sample(paper: Paper, centre: Point) -> None:
    """Draw a cost in the legend."""
    x, y = centre
    _draw_cost(paper, (x, y), (y - LETTER, y + LETTER), is_now=False)
