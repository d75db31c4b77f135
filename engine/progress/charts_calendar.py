"""Chart of the days practised: a calendar of the last year, and the days of each year before."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from datetime import date, timedelta

from engine.kit import theme
from engine.kit.charts import Area, Paper
from engine.progress.progress import Progress

WEEKS = 53
"""Number of weeks in the calendar of days practised, with the current one: just over a year."""
LEFT = 110
"""Space for the names of weekdays left of the calendar's squares, in canvas units."""
NAMED = (0, 3, 6)
"""Weekdays named beside the calendar, from 0 for Monday: the names of all would touch."""
SQUARES = ((40, 0.86), (15, 0.62), (1, 0.38))
"""Fewest repetitions on a day, and the side of its square as a share of the calendar's pitch. Five
minutes hold some 40 to 60 repetitions, a short session 15."""
EMPTY_SQUARE = 0.1
"""Side of the square for a day without practice, as a share of the calendar's pitch."""
WORDS = ("40 repetitions and more", "15 and more", "fewer", "none")
"""Legend of the calendar: words for each size of square, the largest first."""
MONTHS_HEIGHT = 52
"""Height of the row with names of months above the calendar's squares, in canvas units."""
LEGEND_HEIGHT = 56
"""Height of the row that explains the calendar's squares, in canvas units."""
MOST_YEARS = 12
"""Largest number of years in the column chart of days practised per year."""
COLUMN = 0.5
"""Width of a year's column, as a share of the distance from one column to the next."""
WIDEST_YEAR = 150
"""Largest distance from one year's column to the next, in canvas units."""
WITHOUT_YEARS, WITH_YEARS = 440, 600
"""Height of the calendar in a report, without and with the columns of years, in canvas units."""


def calendar_height(progress: Progress) -> float:
    """Height of the calendar in a report, with the years before if any, in canvas units."""
    return WITH_YEARS if has_years(progress.days, progress.today) else WITHOUT_YEARS


def has_years(days: Sequence[tuple[date, int]], today: date) -> bool:
    """Whether there was practice before the calendar's first day, so that years are drawn too."""
    return bool(days) and days[0][0] < _first_day(today)


def _first_day(today: date) -> date:
    """The Monday on which the calendar of days practised begins."""
    return today - timedelta(days=today.weekday() + 7 * (WEEKS - 1))


def calendar(paper: Paper, area: Area, progress: Progress) -> None:
    """Draw the calendar of days practised, its legend and, below, the days of each year."""
    days, today = progress.days, progress.today
    pitch = (area.width - LEFT) / WEEKS
    counts = dict(days)
    first = _first_day(today)
    left, top = area.left + LEFT, area.top + MONTHS_HEIGHT
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
    _legend(paper, (left, below), pitch)
    if has_years(days, today):
        height = area.bottom - below - LEGEND_HEIGHT
        rest = Area(left, below + LEGEND_HEIGHT, area.right - left, height)
        _years(paper, rest, Counter(day.year for day, _ in days), today)


def _months(
    paper: Paper, first: date, corner: tuple[float, float], pitch: float, right: float
) -> None:
    """Draw each month's name above the week that contains its first day, if there is room."""
    free = 0.0
    for week in range(WEEKS):
        sunday = first + timedelta(days=7 * week + 6)
        if sunday.day <= 7:
            x, name = corner[0] + week * pitch, f"{sunday:%b}"
            end = x + paper.measure(name, theme.SMALL)
            if x >= free and end <= right:
                paper.text(name, (x, corner[1]), theme.SMALL, theme.QUIET)
                free = end + 8


def _square(paper: Paper, centre: tuple[float, float], pitch: float, count: int) -> None:
    """Draw the square of one day: larger with more repetitions; a dot for none."""
    share = next((share for fewest, share in SQUARES if count >= fewest), EMPTY_SQUARE)
    side = pitch * share
    corner = (centre[0] - side / 2, centre[1] - side / 2)
    colour = theme.BRAKE if count else theme.FAINT
    paper.box(corner, (side, side), colour, min(side / 6, 4))


def _legend(paper: Paper, corner: tuple[float, float], pitch: float) -> None:
    """Draw the legend of the calendar: a square of each size with its words."""
    x, y = corner
    for words, count in zip(WORDS, (*(fewest for fewest, _ in SQUARES), 0), strict=True):
        _square(paper, (x + pitch / 2, y + 16), pitch, count)
        paper.text(words, (x + pitch + 12, y), theme.SMALL, theme.QUIET)
        x += pitch + 12 + paper.measure(words, theme.SMALL) + 40


def _years(paper: Paper, area: Area, counts: Mapping[int, int], today: date) -> None:
    """Draw a column for each year, as high as its number of days practised, and that number."""
    years = range(max(min(counts), today.year - MOST_YEARS + 1), today.year + 1)
    pitch = min(area.width / len(years), WIDEST_YEAR)
    floor, height = area.bottom - 48, area.height - 48 - 96
    most = max(counts[year] for year in years) or 1
    paper.text("days practised, year by year", (area.left, area.top), theme.SMALL, theme.QUIET)
    paper.line((area.left, floor), (area.left + pitch * len(years), floor), theme.FAINT, 2)
    for number, year in enumerate(years):
        middle = area.left + (number + 0.5) * pitch
        top = floor - height * counts[year] / most
        width = pitch * COLUMN
        paper.box((middle - width / 2, top), (width, floor - top), theme.EARLIER)
        paper.text(f"{counts[year]}", (middle, top - 44), theme.SMALL, theme.TEXT, "centre")
        paper.text(f"{year}", (middle, floor + 14), theme.SMALL, theme.QUIET, "centre")
