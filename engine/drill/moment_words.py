"""Words of a moment: what was achieved, and what comes next."""

from __future__ import annotations

from collections.abc import Sequence

MOST_MORE = 3
"""Most sentences in the quiet line of a moment, as a count."""


def passed_words(title: str) -> str:
    """Sentence on a level that is passed."""
    return f"Passed: {title}."


def retained_words(title: str, *, well: bool) -> str:
    """Sentence on a level that was passed again on a later day; `well`: after a week."""
    return f"{'Well retained' if well else 'Retained'}: {title}."


def best_words(clean: int, of: int) -> str:
    """Sentence on the most clean repetitions of a level among as many as its pass rule counts."""
    return f"{clean} clean of {of}: your best on this level."


def clean_row_words(row: int) -> str:
    """Sentence on a row of clean repetitions."""
    return f"{row} clean in a row."


def days_words(days: int, *, is_longest: bool = False) -> str:
    """Sentence on a row of days practised."""
    return f"{days} days in a row, your longest." if is_longest else f"{days} days in a row."


def pass_words(clean: int, of: int) -> str:
    """Sentence on what passes a level."""
    return f"{clean} clean of {of} pass it."


def next_row_words(row: int) -> str:
    """Sentence on the next row of clean repetitions that is a moment."""
    return f"Next: {row} in a row."


def next_days_words(days: int) -> str:
    """Sentence on the next row of days that is a moment."""
    return f"Next: {days} days in a row."


def next_words(title: str) -> str:
    """Sentence on the level that comes next."""
    return f"Next: {title}."


def line_words(more: Sequence[str], note: str) -> str:
    """The quiet line of a moment: what else was achieved, or else the note on the greatest."""
    return " ".join(more[:MOST_MORE]) if more else note
