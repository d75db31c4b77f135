"""Chart of the days practised: a hill of weeks, each a step as high as its repetitions.

A step is built of layers, one for each day practised, so that days a week can be counted; a week
of rest is flat ground. A history of more than a year has a ridge for each year, this one in front.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from typing import Protocol

from drills.number_words import counted
from engine.kit import theme
from engine.kit.area import Area
from engine.kit.canvas import Point
from engine.kit.charts import LETTER, Paper
from engine.kit.charts_dates import axis_marks
from engine.kit.hill_weeks import WEEK, PracticeWeek, Ridge, is_one_hill, ridges

FEWEST_WEEKS = 8
"""Fewest weeks that one hill has room for, as a count, so that first steps are no towers."""
LABELS = 56
"""Height below the hills for dates or months, in canvas units."""
SIDES = (110.0, 190.0)
"""Space left of ridges for their years and right of them for their days, in canvas units."""
BETWEEN = 46.0
"""Least distance from the foot of one ridge to that of the next, in canvas units: a text line."""
LOWEST = 70.0
"""Least height of the hill in front of ridges, in canvas units."""
OVERLAP = 1.6
"""Height of a ridge where there is room, as a share of that distance."""
SEAM = 2.0
"""Gap between two layers of a step and between two steps, in canvas units."""
WIDE = 24.0
"""Least width of a step that is set apart from the next by a gap, in canvas units."""
LIFT = 60.0
"""Height above its place at which the newest layer begins to come down, in canvas units."""
EDGE = 5.0
"""Width of the line along the top of the hill in front, in canvas units."""
ONE_HEIGHT, RIDGE_HEIGHT = 480.0, 90.0
"""Height of one hill in a report, and what each ridge adds to it, in canvas units."""


class Practised(Protocol):
    """Interface of what a hill is drawn from."""

    @property
    def days(self) -> Sequence[tuple[date, int]]:
        """Days practised with their repetitions, in order."""

    @property
    def today(self) -> date:
        """The present day, up to which there are weeks."""


def hill_height(practised: Practised) -> float:
    """Height of the chart in a report, in canvas units."""
    if is_one_hill(practised.days, practised.today):
        return ONE_HEIGHT
    hills = ridges(practised.days, practised.today, FEWEST_WEEKS)
    return LABELS + RIDGE_HEIGHT * (len(hills) + OVERLAP)


def hill(paper: Paper, area: Area, practised: Practised, laid: float | None = None) -> None:
    """Draw the days practised as a hill of weeks, or as a ridge for each year.

    There is at least one day. With `laid` the layer of the newest day is bright, and comes down
    from above: 1 where it lies, 0 where it begins.
    """
    hills = ridges(practised.days, practised.today, FEWEST_WEEKS)
    most = max(week.total for one in hills for week in one.weeks) or 1
    if is_one_hill(practised.days, practised.today):
        _one_hill(paper, area, hills[0], practised, laid)
        return
    left, right = SIDES
    height = area.height - LABELS
    # The oldest ridges are left out where there is no room.
    hills = hills[-max(int((height - LOWEST) // BETWEEN) + 1, 1) :]
    behind = len(hills) - 1
    between = max(height / (behind + OVERLAP), BETWEEN)
    tall = height - between * behind
    for number, ridge in enumerate(hills):
        foot = area.bottom - LABELS - between * (behind - number)
        place = Area(area.left + left, foot - tall, area.width - left - right, tall)
        in_front = number == behind
        if in_front:
            _draw_front(paper, place, ridge, most, laid)
        else:
            _draw(paper, place, ridge, most, in_front=False)
        colour = theme.TEXT if in_front else theme.QUIET
        at = foot - 2 * LETTER
        paper.text(f"{ridge.first.year}", (area.left, at), theme.SMALL, colour)
        paper.text(counted(ridge.days, "day"), (area.right, at), theme.SMALL, colour, "right")
    _months(paper, hills[-1], area.left + left, area.width - left - right, area.bottom - LABELS)


def _one_hill(
    paper: Paper, area: Area, ridge: Ridge, practised: Practised, laid: float | None
) -> None:
    """Draw one hill with its dates, and the repetitions of its highest step."""
    place = area.within(0, theme.SMALL + 8, 0, LABELS)
    highest = max(ridge.weeks, key=lambda week: week.total)
    _draw_front(paper, place, ridge, highest.total or 1, laid)
    words = f"{counted(highest.total, 'repetition')} in a week"
    half = paper.measure(words, theme.SMALL) / 2
    x = (_across(place, ridge, highest.monday) + _across(place, ridge, highest.monday + WEEK)) / 2
    x = min(max(x, place.left + half), place.right - half)
    paper.text(words, (x, place.top - theme.SMALL - 8), theme.SMALL, theme.TEXT, "centre")
    _dates(paper, place, ridge, axis_marks(practised.days[0][0], practised.today))


def _dates(paper: Paper, place: Area, ridge: Ridge, marks: Sequence[tuple[float, str]]) -> None:
    """Write dates below a hill: the first, the last, and those between that have room."""
    taken: list[tuple[float, float]] = []
    for ordinal, words in [*marks[:1], *marks[1:][-1:], *marks[1:-1]]:
        half = paper.measure(words, theme.SMALL) / 2
        x = _across(place, ridge, date.fromordinal(int(ordinal)))
        x = min(max(x, place.left + half), place.right - half)
        if all(abs(x - other) > half + reach + 24 for other, reach in taken):
            paper.text(words, (x, place.bottom + 12), theme.SMALL, theme.QUIET, "centre")
            taken.append((x, half))


def _months(paper: Paper, ridge: Ridge, left: float, width: float, top: float) -> None:
    """Write the name of each month below the ridges, where it begins."""
    for month in range(1, 13):
        first = date(ridge.first.year, month, 1)
        x = left + width * (first - ridge.first).days / ((ridge.last - ridge.first).days + 1)
        paper.text(f"{first:%b}", (x, top + 12), theme.SMALL, theme.QUIET)


def _across(place: Area, ridge: Ridge, day: date) -> float:
    """Position of a day on a hill, in canvas units from the left."""
    days = (ridge.last - ridge.first).days + 1
    share = (day - ridge.first).days / days
    return place.left + place.width * min(max(share, 0.0), 1.0)


def _draw_front(paper: Paper, place: Area, ridge: Ridge, most: int, laid: float | None) -> None:
    """Draw the hill in front; with `laid` its newest layer by itself, on its way down."""
    newest = ridge.weeks[-1]
    if laid is None or not newest.counts:
        _draw(paper, place, ridge, most, in_front=True)
        return
    before = replace(newest, counts=newest.counts[:-1])
    without = replace(ridge, weeks=(*ridge.weeks[:-1], before))
    _draw(paper, place, without, most, in_front=True)
    left, right = (_across(place, ridge, day) for day in (newest.monday, newest.monday + WEEK))
    top, foot = (
        place.bottom - place.height * week.total / most - LIFT * (1 - laid)
        for week in (newest, before)
    )
    paper.box((left, top), (right - left, max(foot - top - SEAM, EDGE)), theme.BRAKE)


def _draw(paper: Paper, place: Area, ridge: Ridge, most: int, *, in_front: bool) -> None:
    """Draw a hill: in front of all in layers, with a bright edge, or else as a dim ridge."""
    edge = _edge(place, ridge, most)
    outline = [*edge, (edge[-1][0], place.bottom), (edge[0][0], place.bottom)]
    paper.shape(outline, theme.DIP if in_front else theme.RAISED)
    if in_front:
        for week in ridge.weeks:
            _seams(paper, place, ridge, week, most)
        _joints(paper, place, edge)
    paper.line((place.left, place.bottom), (place.right, place.bottom), theme.BAND, 2)
    paper.curve(edge, theme.BRAKE if in_front else theme.EARLIER, EDGE if in_front else 2)


def _edge(place: Area, ridge: Ridge, most: int) -> list[Point]:
    """Line along the top of a hill, step by step."""
    edge: list[Point] = []
    for week in ridge.weeks:
        top = place.bottom - place.height * week.total / most
        for day in (week.monday, week.monday + WEEK):
            edge.append((_across(place, ridge, day), top))
    return edge


def _seams(paper: Paper, place: Area, ridge: Ridge, week: PracticeWeek, most: int) -> None:
    """Draw the seams between the layers of a step, one layer for each day practised."""
    left, right = (_across(place, ridge, day) for day in (week.monday, week.monday + WEEK))
    below = 0
    for count in week.counts[:-1]:
        below += count
        y = place.bottom - place.height * below / most
        paper.line((left, y), (right, y), theme.GROUND, SEAM)


def _joints(paper: Paper, place: Area, edge: Sequence[Point]) -> None:
    """Draw the gaps between steps, where these are wide enough, from the line along their tops."""
    for (left, high), (x, _), (_, next_high) in zip(
        edge[::2], edge[1::2], edge[2::2], strict=False
    ):
        if x - left >= WIDE:
            paper.line((x, max(high, next_high)), (x, place.bottom), theme.GROUND, SEAM)
