"""What is passed, what is open, what comes next, and when the reveal is shown."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from drills.level import Feedback, Level, PassRule
from drills.trace import Pedal
from engine.practice.results import Result


def passes(clean: Iterable[bool], rule: PassRule) -> bool:
    """Whether the rule was met at any point of a level's counted repetitions, oldest first."""
    latest: list[bool] = []
    for one in clean:
        latest = [*latest[-(rule.of - 1) :], one] if rule.of > 1 else [one]
        if sum(latest) >= rule.clean:
            return True
    return False


def passed(levels: Sequence[Level], results: Iterable[Result]) -> frozenset[str]:
    """Ids of the levels passed; what was passed stays passed."""
    clean: dict[str, list[bool]] = {}
    for result in results:
        if not result.void:
            clean.setdefault(result.level, []).append(result.clean)
    return frozenset(level.id for level in levels if passes(clean.get(level.id, ()), level.rule))


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


def reveals(level: Level, number: int, clean: bool) -> bool:
    """Whether repetition `number` (from 1) of a set is followed by its reveal."""
    shown: Mapping[Feedback, bool] = {
        Feedback.EVERY: True,
        Feedback.SUMMARY: number % level.summary == 0,
        Feedback.OUTSIDE: not clean,
        Feedback.NONE: False,
    }
    return shown[level.feedback]
