"""The scale of days under a chart: days, weeks, months or years, as fits."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

MOST = 8
"""count of words under a chart; more of them would touch at a width of a page."""
DAYS = (1, 2, 7, 14)
"""days from one word to the next, while there are few."""
MONTHS = (1, 2, 3, 6)
"""months from one word to the next, where there are more days."""
YEARS = (1, 2, 5, 10, 20, 50)
"""years from one word to the next, where there are more months."""


def day_words(day: date) -> str:
    """A day within its year, such as "17 May"."""
    return f"{day.day} {day:%b}"


def full_words(day: date) -> str:
    """A day with its year, such as "17 May 2024"."""
    return f"{day_words(day)} {day.year}"


def range_words(first: date, last: date) -> str:
    """From one day to another, each thing said once, such as "3 to 9 May 2024"."""
    if first == last:
        return full_words(last)
    if first.year != last.year:
        return f"{full_words(first)} to {full_words(last)}"
    begins = f"{first.day}" if first.month == last.month else day_words(first)
    return f"{begins} to {full_words(last)}"


def day_marks(first: date, last: date) -> list[tuple[float, str]]:
    """Days as ordinals with their words, at most a handful, from one day to another."""
    span = (last - first).days
    for step in DAYS:
        if span / step < MOST:
            ordinals = range(first.toordinal(), last.toordinal() + 1, step)
            return [(day, day_words(date.fromordinal(day))) for day in ordinals]
    for months in MONTHS:
        if span / (30.4 * months) < MOST:
            return list(_months(first, last, months))
    step = next((one for one in YEARS if span / (365.2 * one) < MOST), YEARS[-1])
    years = range(first.year + 1, last.year + 1)
    return [(date(year, 1, 1).toordinal(), f"{year}") for year in years if year % step == 0]


def _months(first: date, last: date, step: int) -> Iterator[tuple[float, str]]:
    """The first day of every so many months; January is called by its year."""
    for count in range(first.year * 12 + first.month, last.year * 12 + last.month):
        year, month = divmod(count, 12)
        if month % step == 0:
            day = date(year, month + 1, 1)
            yield day.toordinal(), f"{day:%b}" if month else f"{year}"
