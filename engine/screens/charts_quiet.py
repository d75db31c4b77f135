"""The foot getting quiet: the blips of the first week and of this one, each with its median."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

import numpy as np

from drills.deviation import AROUND_BLIP, Deviation
from drills.trace import Values
from engine.screens import charts_marks, theme
from engine.screens.canvas import Point
from engine.screens.charts import ABOVE, Area, Axes, Paper, framed, scale_across, scale_up, top_of
from engine.screens.charts_dates import range_words
from engine.screens.history_shown import Week

APART = 60
"""units, from one picture to the next."""
NEARLY_ALL = 95.0
"""%, of the blips that stay inside the scale: the wildest do not make all others small."""
LEAST_REACH = 10.0
"""points, the least that the scale reaches up and down."""
POINTS, BOLD_POINTS = 160, 400
"""count of points that a thin curve and a bold one are drawn with at most."""
SECONDS = (-0.5, 0.0, 0.5, 1.0, 1.5)
"""s, the marks across, 0 where the blip began."""


def quiet(paper: Paper, area: Area, weeks: Sequence[Week], today: date) -> None:
    """The pictures side by side on the same scale, the first median dashed in the second."""
    width = (area.width - APART) / 2
    reach = reach_of(weeks)
    is_this = len(weeks) < 2 or weeks[1].last == today
    for number, name in enumerate(("First week", "This week" if is_this else "Newest week")):
        half = Area(area.left + number * (width + APART), area.top, width, area.height)
        if number < len(weeks):
            before = weeks[0].median if number else None
            _week(paper, half, name, weeks[number], before, reach)
        else:
            _later(paper, half, name)


def reach_of(weeks: Sequence[Week]) -> float:
    """points, the scale that nearly all blips stay inside."""
    most = [float(np.abs(one.deviation).max()) for week in weeks for one in week.blips]
    return top_of(max(float(np.percentile(most, NEARLY_ALL)), LEAST_REACH))


def _week(
    paper: Paper, area: Area, name: str, week: Week, before: Deviation | None, reach: float
) -> None:
    """One week: thin curves, and its median bold."""
    axes = Axes(framed(area).within(0, ABOVE, 0, 0), *AROUND_BLIP, -reach, reach)
    scale_up(paper, axes, "points", zero="held")
    said = f"{name}: {range_words(week.first, week.last)}"
    paper.text(said, (axes.frame.left, area.top), theme.SMALL, theme.QUIET)
    samples = [(charts_marks.thin, "a blip"), (charts_marks.thick, "median")]
    if before is not None:
        samples.append((charts_marks.dashes, "first week"))
    charts_marks.legend(paper, axes, 0, samples)
    paper.line(axes.place(axes.first, 0), axes.place(axes.last, 0), theme.QUIET, 2)
    onset = axes.across(0.0)
    paper.line((onset, axes.frame.top), (onset, axes.frame.bottom), theme.FAINT, 2)
    for one in week.blips:
        paper.curve(_points(axes, one, POINTS), theme.EARLIER, 2)
    paper.curve(_points(axes, week.median, BOLD_POINTS), theme.BRAKE, 7)
    if before is not None:
        charts_marks.dashed(paper, _points(axes, before, BOLD_POINTS), theme.TEXT, 5)
    scale_across(paper, axes, [(one, "blip, 0 s" if one == 0 else f"{one:g}") for one in SECONDS])


def _later(paper: Paper, area: Area, name: str) -> None:
    """The place of the second picture while there is no more than the first week."""
    frame = framed(area).within(0, ABOVE, 0, 0)
    paper.box((frame.left, frame.top), (frame.width, frame.height), theme.RAISED, 6)
    paper.text(name, (frame.left, area.top), theme.SMALL, theme.QUIET)
    middle = (frame.left + frame.width / 2, frame.top + frame.height / 2 - theme.SMALL)
    said = "comes two weeks after the first blip"
    paper.text(said, middle, theme.SMALL, theme.QUIET, "centre", frame.width - 80)


def _points(axes: Axes, one: Deviation, most: int) -> list[Point]:
    chosen = _thinned(one.time, most)
    return [axes.place(float(one.time[k]), float(one.deviation[k])) for k in chosen]


def _thinned(time: Values, most: int) -> list[int]:
    """Places of enough points to draw, the last among them."""
    return [*range(0, time.size - 1, -(-time.size // most)), time.size - 1]
