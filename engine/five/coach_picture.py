"""Picture of the coach's page: the typical blip with the fault, what is wrong with it marked."""

from __future__ import annotations

from drills.fault import Fault
from engine.five.coach_throttle import draw_throttle
from engine.five.coach_view import CoachView
from engine.five.coach_words import COMES, NO_PICTURE, levels_words
from engine.kit import theme
from engine.kit.area import Area
from engine.kit.charts import Paper, nothing_yet
from engine.kit.deviation_plot import decisive

LINE = 60.0
"""Height of the line below the plot, in canvas units."""
APART = 60.0
"""Smallest gap between the two texts of that line, in canvas units."""


def draw_coach(paper: Paper, area: Area, view: CoachView) -> None:
    """Draw the curves, and below them the levels that answer the fault and what the curves are."""
    if view.is_early:
        nothing_yet(paper, area, COMES)
        return
    plot = area.within(0, 0, 0, LINE)
    line, right = area.bottom - theme.SMALL, area.left + area.width
    room = area.width - paper.measure(view.legend, theme.SMALL) - APART
    wordings = levels_words(view.titles)
    levels = next((one for one in wordings if paper.measure(one, theme.SMALL) <= room), "")
    if levels:
        paper.text(levels, (area.left, line), theme.SMALL)
    if view.curves is None:
        nothing_yet(paper, plot, NO_PICTURE, "No picture")
        return
    paper.text(view.legend, (right, line), theme.SMALL, theme.QUIET, "right")
    typical, without = view.curves.typical, view.curves.without
    if view.fault in (Fault.BIG, Fault.SLOW):
        draw_throttle(paper, plot, typical, without, view.fault)
        return
    corner, size = (plot.left, plot.top), (plot.width, plot.height)
    decisive(paper, corner, size, typical, without)
