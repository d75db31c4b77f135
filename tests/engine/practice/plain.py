"""Plain versions of the practice rules over a whole history, to compare the fast ones with."""

from collections.abc import Iterable, Sequence
from datetime import date, timedelta
from functools import cache
from itertools import groupby, product

from drills.level import PassRule
from engine.practice.passes import LevelProgress
from engine.practice.results import LostStreak, Result, Streaks
from engine.practice.retention import Retention
from engine.practice.streaks import REST_EVERY

DAY = timedelta(days=1)
ONCE = PassRule(1, 1)
"""Pass rule that one clean repetition meets."""


def passes(clean: Iterable[bool], rule: PassRule) -> bool:
    """Whether the rule was met at any point of a level's counted repetitions, oldest first."""
    latest: list[bool] = []
    for outcome in clean:
        latest = [*latest[-(rule.of - 1) :], outcome] if rule.of > 1 else [outcome]
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


def level_progress(results: Sequence[Result], level: str) -> LevelProgress:
    """Progress of a level."""
    counted = [result for result in results if result.level == level and result.counts]
    clean = [result.clean for result in counted]
    most = [sum(clean[: k + 1][-one.rule.of :]) for k, one in enumerate(counted)]
    top = max((one.score or 0.0 for one in counted), default=0.0)
    return LevelProgress(tuple(clean[-100:]), level in passed(results), max(most, default=0), top)


def is_retained(first: Sequence[bool]) -> bool:
    """Whether a level is retained: 4 clean of the first 5 of a day, else 8 of the first 10."""
    return sum(first[:5]) >= 4 or sum(first[:10]) >= 8


@cache
def is_decided(first: tuple[bool, ...]) -> bool:
    """Whether the outcome is the same whatever follows up to the tenth repetition."""
    ends = product((True, False), repeat=10 - len(first))
    return len({is_retained((*first, *end)) for end in ends}) == 1


def retention(results: Sequence[Result], level: str) -> Retention:
    """Retention of a level: due again after 1, 3, 7 and 21 days, or tomorrow after a miss."""
    counted = [result for result in results if result.level == level and result.counts]
    now = Retention()
    for number, one in enumerate(counted, start=1):
        if now.due is None:
            done = level in passed(counted[:number])
            now = Retention(one.day + DAY) if done else now
        elif now.due <= one.day or (now.due - one.day).days > 22:
            asked_today = now.first if now.day == one.day else ()
            first = (*asked_today, one.clean)
            if not is_decided(first):
                now = Retention(now.due, now.outlasted, now.missed, one.day, first)
            elif is_retained(first):
                more = 0 if now.missed and now.outlasted else 1
                outlasted = now.outlasted + more
                wait = {0: 1, 1: 3, 2: 7}.get(outlasted, 21)
                now = Retention(one.day + wait * DAY, outlasted, False, one.day, first)
            else:
                now = Retention(one.day + DAY, now.outlasted, True, one.day, first)
    return now


def retentions(results: Sequence[Result]) -> dict[str, Retention]:
    """Retention of each level that was passed, by its id."""
    return {level: retention(results, level) for level in passed(results)}


def clean_streak(results: Sequence[Result]) -> int:
    """Clean repetitions since the last that was not; those that do not count are ignored."""
    streak = 0
    for result in reversed(results):
        if not result.counts:
            continue
        if not result.clean:
            break
        streak += 1
    return streak


def best_clean_streak(results: Sequence[Result]) -> int:
    """Most clean repetitions there ever were in a row."""
    runs = groupby(result.clean for result in results if result.counts)
    return max((len(list(run)) for clean, run in runs if clean), default=0)


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


def best_day_streak(days: Iterable[date]) -> int:
    """The longest day streak on any of the days practised."""
    practised = sorted(days)
    return max((day_streak(practised, day) for day in practised), default=0)


def has_rest_left(days: Iterable[date], today: date) -> bool:
    """Whether today's streak survives missing the next day that can be missed."""
    past = {day for day in days if day <= today}
    missed = today + DAY if today in past else today
    return 0 < day_streak(past, today) == day_streak(past, missed + DAY)


def lost_row(days: Iterable[date], today: date) -> LostStreak | None:
    """The last streak of two days or more that ended, until the new one is as long."""
    past = sorted(day for day in days if day <= today)
    for number in range(len(past), 0, -1):
        until, then = past[:number], [*past, today][number]
        row = day_streak(until, until[-1])
        if row >= 2 and day_streak(until, then) < row:
            lost = LostStreak(row, began=until[-row], ended=until[-1])
            return lost if day_streak(past, today) < row else None
    return None


def streaks(results: Sequence[Result], today: date) -> Streaks:
    """Streaks and counts on a day."""
    counted = [result for result in results if result.counts]
    days = sorted({result.day for result in results if result.is_practice})
    row = day_streak(days, today)
    of_today = [result for result in counted if result.day == today]
    return Streaks(
        today=len(of_today),
        clean_today=sum(result.clean for result in of_today),
        clean_streak=clean_streak(results),
        days_streak=row,
        best_clean_streak=best_clean_streak(results),
        best_days_streak=best_day_streak(days),
        began=[day for day in days if day <= today][-row] if row else None,
        rest_left=has_rest_left(days, today),
        lost=lost_row(days, today),
        practised=today in days,
    )
