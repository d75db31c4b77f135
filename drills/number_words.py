"""Counts in words: "seven", "1 day", "11,785 repetitions"."""

from __future__ import annotations

NUMBERS = (
    *("no", "one", "two", "three", "four", "five", "six"),
    *("seven", "eight", "nine", "ten", "eleven", "twelve"),
)
"""Words for the numbers from 0 on."""


def number_words(number: int) -> str:
    """A number as a word, up to twelve."""
    return NUMBERS[number] if number < len(NUMBERS) else f"{number:,}"


def counted(count: int, name: str) -> str:
    """Count with a noun, such as "1 day" or "11,785 repetitions"."""
    return f"{count:,} {name}{'' if count == 1 else 's'}"
