"""What a day is remembered by: its moments, and its one sentence with the figure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

from drills.remark import Headline
from engine.date_words import dated_words
from engine.drill.moment_rules import CLEAN_ROWS, Achievement, AchievementKind, days_row
from engine.drill.set_words import SAVED
from engine.five.day import Day
from engine.five.day_words import (
    FIRST_LAYER,
    MORE_CLEAN,
    MORE_DAYS,
    NOTHING,
    ONE_MORE,
    best_words,
    longest_row_words,
    named_words,
    new_limit_words,
    steadier_words,
)
from engine.ladder.ladder import RETAINED, State
from engine.practice.personal_words import OF_THE_LIMIT, figure


class Better(Enum):
    """What went better than ever in a session, the greatest first."""

    STEADIER = "steadier"
    """A step to a narrower steadiness is told that was not told before the session."""
    PASSED = "passed"
    LIMIT = "personal limit"
    """A new best of a personal limit is told: rarer than a level retained once more."""
    RETAINED = "retained"
    ROW = "row"
    """The longest row of clean repetitions."""
    SCORE = "score"
    """A best score."""
    DAYS = "days"
    """The longest row of days practised."""
    NOTHING = "nothing"


PASSED = (State.PASSED, State.RETAINED, State.WELL_RETAINED)
"""States of a level that was passed by playing."""


@dataclass(frozen=True)
class DayLead:
    """The one sentence about a day and its one figure."""

    sentence: str
    """What went better than ever or, where nothing did, what the day was."""
    figure: Headline | None
    """The figure that the sentence and the picture are about; None for none."""


def better_of(day: Day) -> Better:
    """The greatest of what went better than ever in a session.

    Steadiness is better only where a step is told; no other measure is compared over days.
    """
    found = {
        Better.STEADIER: day.views is not None and day.views.step is not None,
        Better.PASSED: bool(day.passed),
        Better.LIMIT: day.new_limit is not None,
        Better.RETAINED: bool(day.retained),
        Better.ROW: day.row > 0,
        Better.SCORE: day.best is not None,
        Better.DAYS: day.is_longest,
    }
    return next((better for better, is_so in found.items() if is_so), Better.NOTHING)


def lead_of(day: Day) -> DayLead:
    """The one sentence about a day, and the figure that agrees with it."""
    views, best, new_limit = day.views, day.best, day.new_limit
    match better_of(day):
        case Better.STEADIER if views is not None and views.step is not None:
            since = dated_words(views.step.first.last, views.today)
            steadiness = Headline(f"±{views.step.now.value:.1f}", "points of steadiness")
            return DayLead(steadier_words(since), steadiness)
        case Better.PASSED:
            return DayLead(named_words("Passed", day.passed), _levels(day, PASSED, "passed"))
        case Better.RETAINED:
            retained = (
                _levels(day, RETAINED, "retained") if day.still is None else _still(day.still)
            )
            return DayLead(named_words("Retained", day.retained), retained)
        case Better.LIMIT if new_limit is not None:
            return DayLead(
                new_limit_words(new_limit.title), Headline(figure(new_limit.factor), OF_THE_LIMIT)
            )
        case Better.ROW:
            return DayLead(MORE_CLEAN, Headline(f"{day.row}", "clean in a row"))
        case Better.SCORE if best is not None:
            return DayLead(best_words(best.title), Headline(f"{best.score}", "of 100"))
        case Better.DAYS:
            days = Headline(f"{day.streaks.days_streak}", "days in a row")
            return DayLead(MORE_DAYS, days)
    return DayLead(_ordinary(day), _repetitions(day))


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


def _ordinary(day: Day) -> str:
    """Sentence about a day on which nothing went better than ever."""
    if not day.parts:
        return NOTHING
    if day.is_early or not day.counted:
        return SAVED
    is_first = day.views is not None and len(day.views.days) == 1
    return FIRST_LAYER if is_first else ONE_MORE


def _levels(day: Day, states: tuple[State, ...], word: str) -> Headline | None:
    """How many levels of the ladder are in some states; None where the ladder was not read."""
    if day.views is None:
        return None
    rungs = [rung for stage in day.views.stages for rung in stage.rungs]
    done = sum(rung.state in states for rung in rungs)
    return Headline(f"{done}", f"of {len(rungs)} levels {word}")


def _still(still: tuple[int, int]) -> Headline:
    """How many levels were still there after a long rest, of those checked.

    All that are retained would be as many as before the rest, whatever was missed today.
    """
    there, checked = still
    return Headline(f"{there}", f"of {checked} still there")


def _repetitions(day: Day) -> Headline | None:
    """How many repetitions the newest layer of the hill stands for; None where there is none."""
    if not day.counted:
        return None
    count = day.views.days[-1][1] if day.views is not None and day.views.days else day.counted
    words = "repetition" if count == 1 else "repetitions"
    return Headline(f"{count}", words if day.past_midnight else f"{words} today")
