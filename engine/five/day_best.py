"""What a day is remembered by: what went better than ever in it, or else what the day was."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from drills.remark import Headline
from engine.date_words import dated_words
from engine.drill.set_words import SAVED
from engine.five.day import Day
from engine.five.day_words import (
    FIRST_LAYER,
    MORE_CLEAN,
    MORE_DAYS,
    NOTHING,
    ONE_MORE,
    best_words,
    named_words,
    steadier_words,
)
from engine.ladder.ladder import State


class Better(Enum):
    """What went better than ever in a session, the greatest first."""

    STEADIER = "steadier"
    """A step to a narrower steadiness is told that was not told before the session."""
    PASSED = "passed"
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
RETAINED = (State.RETAINED, State.WELL_RETAINED)
"""States of a level that was retained."""


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
        Better.RETAINED: bool(day.retained),
        Better.ROW: day.row > 0,
        Better.SCORE: day.best is not None,
        Better.DAYS: day.is_longest,
    }
    return next((better for better, is_so in found.items() if is_so), Better.NOTHING)


def lead_of(day: Day) -> DayLead:
    """The one sentence about a day, and the figure that agrees with it."""
    views, best = day.views, day.best
    match better_of(day):
        case Better.STEADIER if views is not None and views.step is not None:
            since = dated_words(views.step.first.last, views.today)
            figure = Headline(f"±{views.step.now.value:.1f}", "points of steadiness")
            return DayLead(steadier_words(since), figure)
        case Better.PASSED:
            return DayLead(named_words("Passed", day.passed), _levels(day, PASSED, "passed"))
        case Better.RETAINED:
            sentence = named_words("Retained", day.retained)
            return DayLead(sentence, _levels(day, RETAINED, "retained"))
        case Better.ROW:
            return DayLead(MORE_CLEAN, Headline(f"{day.row}", "clean in a row"))
        case Better.SCORE if best is not None:
            return DayLead(best_words(best.title), Headline(f"{best.score}", "of 100"))
        case Better.DAYS:
            figure = Headline(f"{day.streaks.days_streak}", "days in a row")
            return DayLead(MORE_DAYS, figure)
    return DayLead(_ordinary(day), _repetitions(day))


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


def _repetitions(day: Day) -> Headline | None:
    """How many repetitions the newest layer of the hill stands for; None where there is none."""
    if not day.counted:
        return None
    count = day.views.days[-1][1] if day.views is not None and day.views.days else day.counted
    words = "repetition" if count == 1 else "repetitions"
    return Headline(f"{count}", words if day.past_midnight else f"{words} today")
