"""Rules for passing a level, for opening the next one, and for when a reveal is shown."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from drills.level import Feedback, Level, PassRule
from drills.trace import Pedal

LATEST = 100
"""Newest repetitions that the progress of a level holds, as a count: the longest pass rule."""


@dataclass(frozen=True)
class LevelProgress:
    """Progress of a player on one level; void repetitions count for nothing."""

    latest: tuple[bool, ...] = ()
    """Whether each of the level's newest repetitions was clean, newest last, at most LATEST."""
    passed: bool = False
    """Whether the level's pass rule was ever met; a passed level stays passed."""
    best: int = 0
    """Most clean repetitions there ever were among as many as the pass rule counts."""
    top: float = 0.0
    """Highest score of any repetition of the level, 0 to 100; 0 if there is none."""

    def after(self, clean: bool, rule: PassRule, score: float | None = None) -> LevelProgress:
        """Progress on the level after one more counted repetition, under this pass rule."""
        latest = (*self.latest, clean)[-LATEST:]
        clean_now = sum(latest[-rule.of :])
        passed = self.passed or clean_now >= rule.clean
        top = max(self.top, score or 0.0)
        return LevelProgress(latest, passed, max(self.best, clean_now), top)

    def clean_to_pass(self, rule: PassRule) -> int:
        """Fewest clean repetitions in a row, from now on, that pass the level; 0 if it is passed.

        As they come, the oldest of those that the pass rule counts drop out.
        """
        if self.passed:
            return 0
        for more in range(1, rule.clean):
            still_counted = rule.of - more
            if sum(self.latest[-still_counted:]) + more >= rule.clean:
                return more
        return rule.clean


SOUND = "sound"
"""What levels need beside pedals where their cues can only be heard."""
ALL_PEDALS: frozenset[str] = frozenset(Pedal) | {SOUND}
"""All that a level may need of a rig: every pedal, and sound."""


def required(level: Level) -> frozenset[str]:
    """Pedals that a level needs and, where its cues can only be heard, SOUND."""
    return frozenset([*level.pedals, *([SOUND] if level.kind.needs_sound else [])])


def is_open(level: Level, done: frozenset[str], pedals: frozenset[str] = ALL_PEDALS) -> bool:
    """Whether a level can be played: the levels it needs are done, and what it requires is there.

    `pedals` are those of the rig, with SOUND where sound is heard.
    """
    return done.issuperset(level.needs) and pedals.issuperset(required(level))


def lacking_words(level: Level, pedals: frozenset[str]) -> str:
    """What a level needs that is not there: "a clutch", "sound"; empty where all is."""
    missing = [f"a {pedal}" for pedal in level.pedals if pedal not in pedals]
    missing += required(level) - frozenset(level.pedals) - pedals
    return " and ".join(missing)


def next_level(
    levels: Sequence[Level], done: frozenset[str], pedals: frozenset[str] = ALL_PEDALS
) -> Level:
    """The first open level that is not done yet, or the last open one if all are done.

    Raises ValueError where there are no levels, or none is open.
    """
    opened = [level for level in levels if is_open(level, done, pedals)]
    if not opened:
        raise ValueError("expected at least one level without needs, found none")
    return next((level for level in opened if level.id not in done), opened[-1])


def reveals(level: Level, clean: bool) -> bool:
    """Whether a repetition that counts is followed by a reveal of its brake curve."""
    return level.feedback is Feedback.EVERY or (level.feedback is Feedback.OUTSIDE and not clean)


def reveals_each(level: Level) -> bool:
    """Whether every repetition has a reveal, so that its mark may be shown from then on."""
    return level.feedback is Feedback.EVERY


def sounds(level: Level) -> bool:
    """Whether a verdict is told by a sound at once: not if its reveal waits."""
    return level.feedback in (Feedback.EVERY, Feedback.OUTSIDE)


def sums_up(level: Level, number: int) -> bool:
    """Whether repetition `number` (from 1) of a set is followed by a summary of the last few."""
    return level.feedback is Feedback.SUMMARY and number % level.summary == 0


def needed(level: Level, levels: Sequence[Level]) -> list[Level]:
    """All of `levels` to be passed before `level` opens, directly or not, in the order given."""
    by_id = {other.id: other for other in levels}
    needs: set[str] = set()
    waiting = list(level.needs)
    while waiting:
        name = waiting.pop()
        if name in by_id and name not in needs:
            needs.add(name)
            waiting += by_id[name].needs
    return [other for other in levels if other.id in needs]
