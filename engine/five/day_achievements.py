"""What the five minutes of a day achieved that is worth a moment at their end."""

from __future__ import annotations

from engine.drill.moment_rules import CLEAN_ROWS, Achievement, What, days_row
from engine.five.day_end import Day
from engine.five.day_words import longest_row_words


def day_achievements(day: Day, days_before: int, *, is_first: bool) -> tuple[Achievement, ...]:
    """Bests that the session beat, and the row of days that it makes round or the longest ever.

    A row of clean repetitions that is the longest ever but shorter than ten is no moment. The days
    count once a day, at the end of the first session that was not left (`is_first`); `days_before`
    is the length of their row up to the day before.
    """
    row = day.streaks.best_clean_streak
    too_short = longest_row_words(row) if row < CLEAN_ROWS[0] else ""
    beaten = [sentence for sentence in day.beaten if sentence != too_short]
    bests = tuple(Achievement(What.BEST, sentence) for sentence in beaten)
    if day.is_early or not is_first:
        return bests
    return (*bests, *days_row(days_before, day.streaks.days_streak, is_longest=day.is_longest))
