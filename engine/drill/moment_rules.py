"""What a repetition, a set or a day achieved that is worth a moment, and which comes first."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum

from drills.level import Level
from engine.drill.moment_words import (
    best_words,
    clean_row_words,
    days_words,
    next_days_words,
    next_row_words,
    pass_words,
    passed_words,
    retained_words,
)
from engine.drill.set_words import next_check_words
from engine.practice.passes import LevelProgress
from engine.practice.record import Record
from engine.practice.results import Purpose
from engine.practice.retention import CheckOutcome, Retention

CLEAN_ROWS = (10, 25, 50)
"""Clean repetitions in a row that are a moment, as counts, before every whole hundred is one."""
HUNDRED = 100
"""Clean repetitions in a row of which every multiple is a moment, as a count."""
DAYS = (7, 30, 100, 365)
"""Days practised in a row that are a moment, as counts."""


class AchievementKind(StrEnum):
    """What a moment marks, the greatest first; the values name its sound too."""

    PASSED = "passed"
    RETAINED = "retained"
    BEST = "best"
    ROW = "row"


ORDER = tuple(AchievementKind)
"""What moments mark, the greatest first."""


@dataclass(frozen=True)
class Achievement:
    """One thing achieved: a level passed or retained, a best, or a row of a round length."""

    kind: AchievementKind
    """Whether it is a pass, a retention, a best or a row."""
    words: str
    """Sentence that says it, such as "Passed: First blip."."""
    note: str = ""
    """Quiet sentence on what comes of it, such as the next check-up; empty for none."""
    level: str = ""
    """Id of the level passed or retained; empty if it is of no one level."""
    rings: int = 0
    """Rings round the mark of the level now, as a count: 2 where it is well retained."""
    is_new_ring: bool = False
    """Whether the outer one of the rings was not there before."""


@dataclass(frozen=True)
class Standing:
    """How a player stands before or after a repetition of one level."""

    progress: LevelProgress = field(default_factory=LevelProgress)
    """Progress on the level."""
    retention: Retention = field(default_factory=Retention)
    """Retention of the level."""
    clean_row: int = 0
    """Clean repetitions in a row over all levels, as a count."""


def achieved(
    level: Level, before: Standing, after: Standing, record: Record
) -> tuple[Achievement, ...]:
    """What the repetition of this record achieved on a level, the greatest first.

    `before` may be older than the repetition before, as other levels may be played between.
    """
    found, day = list[Achievement](), record.at.date()
    if after.progress.passed and not before.progress.passed:
        found.append(Achievement(AchievementKind.PASSED, passed_words(level.title), level=level.id))
    retention = after.retention
    is_decided = retention != before.retention and retention.due is not None
    if is_decided and retention.outcome_on(day) is CheckOutcome.RETAINED:
        found.append(_retained(level, before.retention, retention, day))
    row = after.clean_row
    counts = record.feet and record.why is not Purpose.TRIAL
    if counts and record.verdict.clean and row == next_row(row - 1):
        note = next_row_words(next_row(row))
        found.append(Achievement(AchievementKind.ROW, clean_row_words(row), note))
    return tuple(found)


def next_row(row: int) -> int:
    """The shortest row of clean repetitions longer than `row` that is a moment, as a count."""
    hundreds = (row // HUNDRED + 1) * HUNDRED
    return next((length for length in CLEAN_ROWS if length > row), hundreds)


def best_of_set(
    level: Level, before: LevelProgress, after: LevelProgress
) -> tuple[Achievement, ...]:
    """The best on a level that a set of it beat; none where the set passed the level."""
    is_passed_now = after.passed and not before.passed
    if is_passed_now or not after.best > before.best > 0:
        return ()
    rule = level.rule
    note = "" if after.passed else pass_words(rule.clean, rule.of)
    return (Achievement(AchievementKind.BEST, best_words(after.best, rule.of), note),)


def days_row(before: int, now: int, *, is_longest: bool) -> tuple[Achievement, ...]:
    """A round number of days in a row, reached since there were `before`; or the longest row."""
    is_reached = any(before < days <= now for days in DAYS)
    if not (is_reached or is_longest):
        return ()
    kind = AchievementKind.BEST if is_longest else AchievementKind.ROW
    note = next((next_days_words(days) for days in DAYS if days > now), "")
    return (Achievement(kind, days_words(now, is_longest=is_longest), note),)


def greatest_first(achievements: Sequence[Achievement]) -> list[Achievement]:
    """Achievements in the order in which one moment says them; each sentence once."""
    ordered = sorted(achievements, key=lambda one: ORDER.index(one.kind))
    return list({one.words: one for one in ordered}.values())


def _retained(level: Level, before: Retention, now: Retention, day: date) -> Achievement:
    rings = _rings(now)
    return Achievement(
        AchievementKind.RETAINED,
        retained_words(level.title, well=now.is_well_retained),
        "" if now.due is None else next_check_words((now.due - day).days),
        level.id,
        rings,
        is_new_ring=rings > _rings(before),
    )


def _rings(retention: Retention) -> int:
    """Number of rings round the mark of a level with this retention."""
    return int(retention.is_retained) + int(retention.is_well_retained)
