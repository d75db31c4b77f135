"""The days practised: the last year as squares, a week a column, and the years before."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from datetime import date, timedelta

from engine.kit import theme
from engine.kit.charts import Area, Paper

WEEKS = 53
"""weeks shown, this one the last: a year whatever day it is."""
LEFT = 110
"""units kept left of the squares, for the names of days."""
NAMED = (0, 3, 6)
"""The days of the week that are named, from Monday: all of them would touch."""
SQUARES = ((40, 0.86), (15, 0.62), (1, 0.38))
"""count of repetitions from which a day has a square of this share of its place: some five minutes
hold 40 to 60, a short sitting 15."""
NOTHING = 0.1
"""1, the same for a day without practice."""
WORDS = ("40 repetitions and more", "15 and more", "fewer", "none")
"""What the squares are, the largest first."""
MONTHS = 52
"""units, height of the row of months."""
SAMPLES = 56
"""units, height of the row that says what the squares are."""
YEARS = 12
"""count of years with a column at most."""
COLUMN = 0.5
"""1, width of such a column as a share of its place."""
WIDEST = 150
"""units, the place of a year."""
YEAR_ALONE = 440
"""units, height of the squares of a page and what is said about them."""


def has_years(days: Sequence[tuple[date, int]], today: date) -> bool:
    """Whether there are days before those that have a square."""
    return bool(days) and days[0][0] < _first(today)


def _first(today: date) -> date:
    """The day of the first square, a Monday."""
    return today - timedelta(days=today.weekday() + 7 * (WEEKS - 1))


def calendar(paper: Paper, area: Area, days: Sequence[tuple[date, int]], today: date) -> None:
    """The squares, what they are, and under them how many days each year had, where one is over."""
    pitch = (area.width - LEFT) / WEEKS
    counts = dict(days)
    first = _first(today)
    left, top = area.left + LEFT, area.top + MONTHS
    for weekday in NAMED:
        day = first + timedelta(days=weekday)
        corner = (area.left, top + (weekday + 0.5) * pitch - 16)
        paper.text(f"{day:%a}", corner, theme.SMALL, theme.QUIET)
    _months(paper, first, (left, area.top), pitch, area.right)
    for number in range((today - first).days + 1):
        week, weekday = divmod(number, 7)
        centre = (left + (week + 0.5) * pitch, top + (weekday + 0.5) * pitch)
        _square(paper, centre, pitch, counts.get(first + timedelta(days=number), 0))
    below = top + 7 * pitch + 20
    _samples(paper, (left, below), pitch)
    if has_years(days, today):
        rest = Area(left, below + SAMPLES, area.right - left, area.bottom - below - SAMPLES)
        _years(paper, rest, Counter(day.year for day, _ in days), today)


def _months(
    paper: Paper, first: date, corner: tuple[float, float], pitch: float, right: float
) -> None:
    """The name of each month over the week it begins in, where it has room."""
    free = 0.0
    for week in range(WEEKS):
        ends = first + timedelta(days=7 * week + 6)
        if ends.day <= 7:
            x, name = corner[0] + week * pitch, f"{ends:%b}"
            after = x + paper.measure(name, theme.SMALL)
            if x >= free and after <= right:
                paper.text(name, (x, corner[1]), theme.SMALL, theme.QUIET)
                free = after + 8


def _square(paper: Paper, centre: tuple[float, float], pitch: float, count: int) -> None:
    """A day: the more, the larger; a dot where there was nothing."""
    share = next((share for least, share in SQUARES if count >= least), NOTHING)
    side = pitch * share
    corner = (centre[0] - side / 2, centre[1] - side / 2)
    colour = theme.BRAKE if count else theme.FAINT
    paper.box(corner, (side, side), colour, min(side / 6, 4))


def _samples(paper: Paper, corner: tuple[float, float], pitch: float) -> None:
    """What the squares are."""
    x, y = corner
    for words, count in zip(WORDS, (*(least for least, _ in SQUARES), 0), strict=True):
        _square(paper, (x + pitch / 2, y + 16), pitch, count)
        paper.text(words, (x + pitch + 12, y), theme.SMALL, theme.QUIET)
        x += pitch + 12 + paper.measure(words, theme.SMALL) + 40


def _years(paper: Paper, area: Area, years: Mapping[int, int], today: date) -> None:
    """A column for each year, as high as it has days, the number on it and the year under it."""
    shown = range(max(min(years), today.year - YEARS + 1), today.year + 1)
    place = min(area.width / len(shown), WIDEST)
    floor, height = area.bottom - 48, area.height - 48 - 96
    most = max(years[year] for year in shown) or 1
    paper.text("days practised, year by year", (area.left, area.top), theme.SMALL, theme.QUIET)
    paper.line((area.left, floor), (area.left + place * len(shown), floor), theme.FAINT, 2)
    for number, year in enumerate(shown):
        middle = area.left + (number + 0.5) * place
        top = floor - height * years[year] / most
        width = place * COLUMN
        paper.box((middle - width / 2, top), (width, floor - top), theme.EARLIER)
        paper.text(f"{years[year]}", (middle, top - 44), theme.SMALL, theme.TEXT, "centre")
        paper.text(f"{year}", (middle, floor + 14), theme.SMALL, theme.QUIET, "centre")
