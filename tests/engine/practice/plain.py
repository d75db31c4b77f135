"""The rules of practice said plainly, over a whole history at once: what the quick ones must be."""

from collections.abc import Iterable, Sequence
from datetime import date, timedelta

from drills.level import PassRule
from engine.practice.progress import LevelStanding
from engine.practice.results import Result, Standing
from engine.practice.streaks import REST_EVERY

DAY = timedelta(days=1)


def passes(clean: Iterable[bool], rule: PassRule) -> bool:
    """Whether the rule was met at any point of a level's counted repetitions, oldest first."""
    latest: list[bool] = []
    for one in clean:
        latest = [*latest[-(rule.of - 1) :], one] if rule.of > 1 else [one]
        if sum(latest) >= rule.clean:
            return True
    return False


def passed(results: Sequence[Result]) -> frozenset[str]:
    """Ids of the levels passed, each repetition under the rule of its time."""
    counted = [result for result in results if result.counts]
    done = set()
    for number, result in enumerate(counted, start=1):
        of_level = [one.clean for one in counted[:number] if one.level == result.level]
        if sum(of_level[-result.rule.of :]) >= result.rule.clean:
            done.add(result.level)
    return frozenset(done)


def level_standing(results: Sequence[Result], level: str) -> LevelStanding:
    """How a level stands."""
    counted = [result for result in results if result.level == level and result.counts]
    clean = [result.clean for result in counted]
    most = [sum(clean[: k + 1][-one.rule.of :]) for k, one in enumerate(counted)]
    return LevelStanding(tuple(clean[-100:]), level in passed(results), max(most, default=0))


def clean_streak(results: Sequence[Result]) -> int:
    """Clean repetitions since the last that was not; those that do not count are passed over."""
    streak = 0
    for result in reversed(results):
        if not result.counts:
            continue
        if not result.clean:
            break
        streak += 1
    return streak


def day_streak(days: Iterable[date], today: date) -> int:
    """Days practised up to today; today itself is not missed before it is over.

    One rest day in seven does not break the streak and does not count in it.
    """
    practised = frozenset(days)
    day = today if today in practised else today - DAY
    streak, last_rest = 0, date.max
    while True:
        if day in practised:
            streak += 1
        elif (last_rest - day).days < REST_EVERY:
            return streak
        else:
            last_rest = day
        day -= DAY


def standing(results: Sequence[Result], today: date) -> Standing:
    """Where the player stands on a day."""
    counted = [result for result in results if result.counts]
    of_today = [result for result in counted if result.day == today]
    return Standing(
        today=len(of_today),
        clean_today=sum(result.clean for result in of_today),
        clean_row=clean_streak(results),
        days_row=day_streak((result.day for result in counted), today),
    )
