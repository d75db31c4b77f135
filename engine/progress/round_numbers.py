"""Numbers as a person would round them: counts, and shares in words such as "a third"."""

from __future__ import annotations

from math import floor, log10

ROUND = (10, 12, 15, 20, 25, 30, 40, 50, 60, 80, 100)
"""Round numbers from 10 to 100; times powers of ten they give the larger ones."""
SHARES = (
    (1 / 10, "a tenth"),
    (1 / 5, "a fifth"),
    (1 / 4, "a quarter"),
    (1 / 3, "a third"),
    (1 / 2, "half"),
    (2 / 3, "two thirds"),
    (3 / 4, "three quarters"),
    (9 / 10, "nine tenths"),
)
"""Shares that have everyday words, rising, each with them."""


def rounded_down(count: float) -> int:
    """Largest round number that is not above a count; 1 for a count below 1."""
    return max((number for number in _round(count) if number <= count), default=1)


def share_words(share: float) -> str:
    """The share that is nearest to this one and has everyday words."""
    return min(SHARES, key=lambda known: abs(known[0] - share))[1]


def share_words_up(share: float) -> str:
    """The smallest share with everyday words that is not below this one; empty if none is."""
    return next((words for known, words in SHARES if known >= share), "")


def _round(count: float) -> list[int]:
    """Round numbers around a count, some below and some above it, in order."""
    if count < ROUND[0]:
        return list(range(1, ROUND[0] + 1))
    power = 10 ** (floor(log10(count)) - 1)
    return [number * power for number in ROUND]
