"""Dates in words: "17 May", with the year only where a reader could take it for another."""

from __future__ import annotations

from datetime import date


def day_words(day: date) -> str:
    """Date without its year, such as "17 May"."""
    return f"{day.day} {day:%b}"


def full_words(day: date) -> str:
    """Date with its year, such as "17 May 2024"."""
    return f"{day_words(day)} {day.year}"


def dated_words(day: date, today: date) -> str:
    """Date, with its year if that is not the present one."""
    return day_words(day) if day.year == today.year else full_words(day)


def range_words(first: date, last: date, today: date) -> str:
    """Range of dates without repetition of month or year, such as "3 to 9 May".

    Years are written where they are not the present one.
    """
    if first == last:
        return dated_words(last, today)
    if first.year != last.year:
        return f"{dated_words(first, today)} to {dated_words(last, today)}"
    begins = f"{first.day}" if first.month == last.month else day_words(first)
    return f"{begins} to {dated_words(last, today)}"
