"""Date labels under a chart over time: days, weeks, months or years, whichever fit."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from engine.date_words import dated_words, day_words

MOST = 8
"""Largest number of date labels under a chart; more would touch on a chart as wide as a page."""
DAYS = (1, 2, 7, 14)
"""Steps that date labels under a chart may have, in days, tried first."""
MONTHS = (1, 2, 3, 6)
"""Steps that date labels under a chart may have, in months, where days give too many labels."""
YEARS = (1, 2, 5, 10, 20, 50)
"""Steps that date labels under a chart may have, in years, where months give too many labels."""


def axis_marks(first: date, today: date) -> list[tuple[float, str]]:
    """Date labels under a chart from a player's first day to today, as pairs of ordinal and text.

    The first day and today come with the dates between them, of which as many fit as fit.
    """
    begins = dated_words(first, today)
    if first == today:
        return [(first.toordinal(), begins)]
    between = [
        (at, words)
        for at, words in day_marks(first, today)
        if first.toordinal() < at < today.toordinal()
    ]
    return [(first.toordinal(), begins), *between, (today.toordinal(), "today")]


def day_marks(first: date, last: date) -> list[tuple[float, str]]:
    """Date labels under a chart, at most MOST, as pairs of a day's ordinal and its text."""
    days = (last - first).days
    for step in DAYS:
        if days / step < MOST:
            ordinals = range(first.toordinal(), last.toordinal() + 1, step)
            return [(day, day_words(date.fromordinal(day))) for day in ordinals]
    for months in MONTHS:
        if days / (30.4 * months) < MOST:
            return list(_months(first, last, months))
    step = next((years for years in YEARS if days / (365.2 * years) < MOST), YEARS[-1])
    return [
        (date(year, 1, 1).toordinal(), f"{year}")
        for year in range(first.year + 1, last.year + 1)
        if year % step == 0
    ]


def _months(first: date, last: date, step: int) -> Iterator[tuple[float, str]]:
    """Date labels on the first day of every `step`-th month; January is labelled with its year."""
    for count in range(first.year * 12 + first.month, last.year * 12 + last.month):
        year, month = divmod(count, 12)
        if month % step == 0:
            day = date(year, month + 1, 1)
            yield day.toordinal(), f"{day:%b}" if month else f"{year}"
