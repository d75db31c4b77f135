"""What is passed, what is open, what comes next, and when the reveal is shown."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from drills.level import Feedback, Level, PassRule
from drills.trace import Pedal

LATEST = 100
"""count, newest repetitions of a level that are remembered: no pass rule looks at more."""


@dataclass(frozen=True)
class LevelProgress:
    """How a level stands; void repetitions count for nothing."""

    latest: tuple[bool, ...] = ()
    """Whether each of the newest repetitions was clean, the newest last, at most LATEST."""
    passed: bool = False
    """Whether its rule was ever met; what was passed stays passed."""
    best: int = 0
    """count, most clean ones there ever were among those that its rule looks at."""
    top: float = 0.0
    """0 to 100, the highest score of one repetition; 0 where there is none."""

    def after(self, clean: bool, rule: PassRule, score: float | None = None) -> LevelProgress:
        """One counted repetition later, under the rule in force."""
        latest = (*self.latest, clean)[-LATEST:]
        clean_now = sum(latest[-rule.of :])
        passed = self.passed or clean_now >= rule.clean
        top = max(self.top, score or 0.0)
        return LevelProgress(latest, passed, max(self.best, clean_now), top)


ALL_PEDALS = frozenset(Pedal)
"""A rig that lacks nothing."""


def is_open(level: Level, done: frozenset[str], pedals: frozenset[Pedal] = ALL_PEDALS) -> bool:
    """Whether the levels that a level needs are passed, and its pedals are there."""
    return done.issuperset(level.needs) and pedals.issuperset(level.pedals)


def next_level(
    levels: Sequence[Level], done: frozenset[str], pedals: frozenset[Pedal] = ALL_PEDALS
) -> Level:
    """The first open level not passed yet, or the last open one where all are passed.

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
    """Whether a clean repetition is heard at once: where its word waits, so does its sound."""
    return level.feedback in (Feedback.EVERY, Feedback.OUTSIDE)


def sums_up(level: Level, number: int) -> bool:
    """Whether repetition `number` (from 1) of a set is followed by a summary of the last few."""
    return level.feedback is Feedback.SUMMARY and number % level.summary == 0


def needed(level: Level, levels: Sequence[Level]) -> list[Level]:
    """Those of some levels that must be passed before one of them opens, in their order."""
    by_id = {one.id: one for one in levels}
    found: set[str] = set()
    waiting = list(level.needs)
    while waiting:
        name = waiting.pop()
        if name in by_id and name not in found:
            found.add(name)
            waiting += by_id[name].needs
    return [one for one in levels if one.id in found]
