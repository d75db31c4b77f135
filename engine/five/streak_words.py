"""Words about the streak of days: the rest day that is left, and a streak that ended."""

from __future__ import annotations

from engine.date_words import range_words
from engine.practice.results import LostStreak, Streaks

PASSED_STAYS = "Levels passed stay passed."
"""Sentence beside a streak of days that has ended."""


def rest_words(streaks: Streaks) -> str:
    """Whether the player may miss a day now, in words; empty if there is no streak of days."""
    if not streaks.days_streak:
        return ""
    if streaks.rest_left:
        return "1 rest day left"
    return "" if streaks.today or streaks.practised else "no rest day left: practise today"


def lost_words(lost: LostStreak) -> str:
    """Length and dates of a streak that ended, in words."""
    return f"{lost.days} days in a row, {range_words(lost.began, lost.ended, lost.ended)}."
