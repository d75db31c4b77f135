"""Words of the page on the days practised."""

from __future__ import annotations

from datetime import timedelta

from drills.number_words import counted
from engine.date_words import dated_words
from engine.kit.hill_weeks import MOST_YEARS, all_weeks, is_one_hill
from engine.progress.page_words import PageWords
from engine.progress.progress import Progress

YEAR = timedelta(days=365)
"""Length of the year back from today that sentences call "the last year"."""


def days_words(progress: Progress) -> PageWords:
    """How many days were practised, how the picture is read, and a few counts of weeks."""
    days, today = progress.days, progress.today
    if not days:
        return PageWords()
    total = sum(count for _, count in days)
    weeks = all_weeks(days, today)
    fullest = max(weeks, key=lambda week: week.total)
    rest = sum(1 for week in weeks if not week.counts)
    last_year = sum(1 for day, _ in days if day > today - YEAR)
    earlier = sum(1 for day, _ in days if day.year <= today.year - MOST_YEARS)
    drawn_all = is_one_hill(days, today) or not earlier
    return PageWords(
        f"{counted(len(days), 'day')} since {dated_words(days[0][0], today)}.",
        f"{counted(total, 'repetition')}. A step is a week, a layer one of its days.",
        (
            *([f"{counted(last_year, 'day')} in the last year."] if last_year < len(days) else []),
            *(_by_week(len(days), rest, (today - days[0][0]).days + 1) if len(weeks) > 1 else []),
            f"Most in a week: {counted(fullest.total, 'repetition')}"
            f" on {counted(len(fullest.counts), 'day')}.",
            *([] if drawn_all else [f"Not drawn: {counted(earlier, 'day')} of earlier years."]),
        ),
    )


def _by_week(days: int, rest: int, span: int) -> list[str]:
    """Sentences on the days practised a week and the weeks without any, of `span` days."""
    return [
        f"{7 * days / span:.1f} days a week.",
        f"{counted(rest, 'week')} of rest." if rest else "No week of rest.",
    ]
