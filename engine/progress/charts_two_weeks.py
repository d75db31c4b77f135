"""Chart of blips: those of the first week beside those of the newest week."""

from __future__ import annotations

from datetime import date, timedelta

from engine.date_words import range_words
from engine.kit import theme
from engine.kit.area import Area
from engine.kit.charts import ABOVE, Paper, framed
from engine.kit.charts_blips import blips_chart, blips_reach, halves
from engine.progress.bins import REST_OF_WEEK
from engine.progress.progress import Progress


def two_weeks_chart(paper: Paper, area: Area, progress: Progress) -> None:
    """Draw the blips of both weeks side by side on one scale, the first median in both."""
    weeks = progress.weeks
    reach = blips_reach([blip for week in weeks for blip in week.blips])
    is_current = len(weeks) < 2 or weeks[1].last == progress.today
    names = ("First week", "This week" if is_current else "Newest week")
    for number, (half, name) in enumerate(zip(halves(area), names, strict=True)):
        if number >= len(weeks):
            _empty_half(paper, half, name, _comes(weeks[0].first, progress.today))
            continue
        week = weeks[number]
        before = ("first week", weeks[0].median) if number else None
        heading = f"{name}: {range_words(week.first, week.last, progress.today)}"
        blips_chart(paper, half, heading, week.blips, week.median, reach, before)


def _comes(first: date, today: date) -> str:
    """When the current week comes, in words; `first` is the first day of the first week."""
    # The current week never overlaps with the first one.
    is_too_soon = today - first < 2 * REST_OF_WEEK + timedelta(days=1)
    return "comes two weeks after the first blip" if is_too_soon else "comes with the next blips"


def _empty_half(paper: Paper, area: Area, name: str, comes: str) -> None:
    """Draw the empty place of the current week while there is only the first week."""
    frame = framed(area).within(0, ABOVE, 0, 0)
    paper.text(name, (frame.left, area.top), theme.SMALL, theme.TEXT)
    middle = (frame.left + frame.width / 2, frame.top + frame.height / 2 - theme.SMALL)
    paper.text(comes, middle, theme.SMALL, theme.QUIET, "centre", frame.width - 80)
