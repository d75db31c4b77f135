"""Rules of passing a level, of opening the next one, and of when a reveal follows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from drills.level import Feedback, Level, PassRule
from drills.trace import Pedal

LATEST = 100
"""Newest repetitions of a level that its progress stores, as a count: the longest pass rule."""


@dataclass(frozen=True)
class LevelProgress:
    """How far a player is with a level; void repetitions count for nothing."""

    latest: tuple[bool, ...] = ()
    """Whether each of the newest repetitions was clean, the newest last, at most LATEST."""
    passed: bool = False
    """Whether its pass rule was ever met; a passed level stays passed."""
    best: int = 0
    """Most clean repetitions there ever were among those its rule looks at, as a count."""
    top: float = 0.0
    """Highest score of one repetition, 0 to 100; 0 where there is none."""

    def after(self, clean: bool, rule: PassRule, score: float | None = None) -> LevelProgress:
        """Progress after one more counted repetition, under the rule in force."""
        latest = (*self.latest, clean)[-LATEST:]
        clean_now = sum(latest[-rule.of :])
        passed = self.passed or clean_now >= rule.clean
        top = max(self.top, score or 0.0)
        return LevelProgress(latest, passed, max(self.best, clean_now), top)


ALL_PEDALS = frozenset(Pedal)
"""The pedals of a rig that lacks none."""


def is_open(level: Level, done: frozenset[str], pedals: frozenset[Pedal] = ALL_PEDALS) -> bool:
    """Whether every level that a level needs is done, and every pedal it needs is there."""
    return done.issuperset(level.needs) and pedals.issuperset(level.pedals)


def next_level(
    levels: Sequence[Level], done: frozenset[str], pedals: frozenset[Pedal] = ALL_PEDALS
) -> Level:
    """The first open level that is not done, or the last open one where all are done.

    Raises ValueError where there are no levels, or none is open.
    """
    opened = [level for level in levels if is_open(level, done, pedals)]
    if not opened:
        raise ValueError("expected at least one level without needs, found none")
    return next((level for level in opened if level.id not in done), opened[-1])


def reveals(level: Level, clean: bool) -> bool:
    """Whether a repetition that counts is followed by its reveal."""
    return level.feedback is Feedback.EVERY or (level.feedback is Feedback.OUTSIDE and not clean)


def sounds(level: Level) -> bool:
    """Whether a clean repetition is heard at once: where its reveal waits, so does its sound."""
    return level.feedback in (Feedback.EVERY, Feedback.OUTSIDE)


def sums_up(level: Level, number: int) -> bool:
    """Whether repetition `number` (from 1) of a set is followed by a summary of the last few."""
    return level.feedback is Feedback.SUMMARY and number % level.summary == 0


def needed(level: Level, levels: Sequence[Level]) -> list[Level]:
    """All of `levels` that must be passed before `level` opens, directly or not, in their order."""
    by_id = {other.id: other for other in levels}
    needs: set[str] = set()
    waiting = list(level.needs)
    while waiting:
        name = waiting.pop()
        if name in by_id and name not in needs:
            needs.add(name)
            waiting += by_id[name].needs
    return [other for other in levels if other.id in needs]
