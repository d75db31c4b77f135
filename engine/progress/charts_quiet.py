"""The foot getting quiet: the blips of the first week and of this one, each with its median."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from engine.kit import theme
from engine.kit.charts import ABOVE, Area, Paper, framed
from engine.kit.charts_blips import blips_chart, blips_reach, halves
from engine.kit.charts_dates import range_words
from engine.progress.progress import Week


def quiet(paper: Paper, area: Area, weeks: Sequence[Week], today: date) -> None:
    """The charts side by side on the same scale, the first median dashed in the second."""
    reach = blips_reach([one for week in weeks for one in week.blips])
    is_this = len(weeks) < 2 or weeks[1].last == today
    names = ("First week", "This week" if is_this else "Newest week")
    for number, (half, name) in enumerate(zip(halves(area), names, strict=True)):
        if number >= len(weeks):
            _later(paper, half, name)
            continue
        week = weeks[number]
        before = ("first week", weeks[0].median) if number else None
        said = f"{name}: {range_words(week.first, week.last)}"
        blips_chart(paper, half, said, week.blips, week.median, reach, before)


def _later(paper: Paper, area: Area, name: str) -> None:
    """The place of the second chart while there is no more than the first week."""
    frame = framed(area).within(0, ABOVE, 0, 0)
    paper.box((frame.left, frame.top), (frame.width, frame.height), theme.RAISED, 6)
    paper.text(name, (frame.left, area.top), theme.SMALL, theme.QUIET)
    middle = (frame.left + frame.width / 2, frame.top + frame.height / 2 - theme.SMALL)
    said = "comes two weeks after the first blip"
    paper.text(said, middle, theme.SMALL, theme.QUIET, "centre", frame.width - 80)
