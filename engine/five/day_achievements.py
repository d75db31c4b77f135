"""What the five minutes of a day achieved that is worth a moment at their end."""

from __future__ import annotations

from collections.abc import Sequence

from engine.drill.moment_rules import CLEAN_ROWS, Achievement, AchievementKind, days_row
from engine.five.day import Day
from engine.five.day_words import longest_row_words


def day_achievements(
    day: Day, waiting: Sequence[Achievement], days_before: int, *, is_first: bool
) -> list[Achievement]:
    """What still waits for a moment, the bests that the session beat, and the row of days.

    A row of clean repetitions that is the longest ever stands for the round lengths on its way; one
    shorter than ten is no moment. The row of days counts where it is of a round length or the
    longest ever, once a day: at the end of the first session that was not left (`is_first`).
    `days_before` is its length up to the day before.
    """
    row = day.streaks.best_clean_streak
    longest = longest_row_words(row)
    beaten = [words for words in day.beaten if words != longest or row >= CLEAN_ROWS[0]]
    found = [one for one in waiting if one.kind is not AchievementKind.ROW or longest not in beaten]
    found += [Achievement(AchievementKind.BEST, words) for words in beaten]
    if is_first and not day.is_early:
        found += days_row(days_before, day.streaks.days_streak, is_longest=day.is_longest)
    return found
