"""PlayerState: everything the planner needs to know of a player, read from the history."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date

from drills.level import Level
from drills.trace import Pedal
from engine.five.pace import PlayerPace
from engine.practice.passes import ALL_PEDALS
from engine.practice.results import Result
from engine.practice.retention import CheckOutcome, Retention

NOT_PASSED = Retention()
"""Retention of a level that was not passed by playing."""


@dataclass(frozen=True)
class PlayerState:
    """A player on one local day, as the rules of a session see them."""

    day: date
    """The local day."""
    levels: Sequence[Level]
    """All levels of the ladder, each after those it needs."""
    done: frozenset[str] = frozenset()
    """Ids of the levels passed, by playing or by placing."""
    retention: Mapping[str, Retention] = field(default_factory=dict)
    """Retention of each level passed by playing, by its id."""
    recent: Sequence[Result] = ()
    """The newest repetitions in the history, oldest first."""
    pace: PlayerPace = field(default_factory=PlayerPace)
    """Seconds a repetition takes the player."""
    band: Level | None = None
    """The drill of the steadiness staircase; None where there is none."""
    pedals: frozenset[Pedal] = ALL_PEDALS
    """Pedals the rig has."""

    @property
    def playable(self) -> list[Level]:
        """The levels done that the pedals allow, easiest first."""
        return [level for level in self.levels if level.id in self.done and self._allows(level)]

    @property
    def due(self) -> list[Level]:
        """The levels due for a retention check: one under way first, then the longest due.

        Of those due since the same day the hardest comes first.
        """
        due = [
            level
            for level in reversed(self.levels)
            if level.id in self.retention and self._allows(level) and self.is_due(level)
        ]
        return sorted(due, key=lambda level: (not self.is_under_check(level), self._due(level)))

    def is_due(self, level: Level) -> bool:
        """Whether a level is due for a retention check."""
        return self._retention(level).is_due(self.day)

    def is_under_check(self, level: Level) -> bool:
        """Whether a level's retention check was begun today and is not decided yet."""
        return self._retention(level).outcome_on(self.day) is CheckOutcome.OPEN

    @property
    def can_blip(self) -> bool:
        """Whether the steadiness drill can be played: a level of its kind is done, pedals fit."""
        band = self.band
        return (
            band is not None
            and self._allows(band)
            and any(
                level.id in self.done and level.kind.name == band.kind.name for level in self.levels
            )
        )

    def after(self, result: Result) -> PlayerState:
        """The player after one more repetition, as far as it decides what comes next today."""
        recent = [*self.recent, result]
        if not result.counts:
            return replace(self, recent=recent)
        retention, done = self.retention, self.done
        if result.level in retention:
            now = retention[result.level].after(self.day, result.clean)
            retention = {**retention, result.level: now}
        elif _passes(result, recent):
            retention = {**retention, result.level: Retention.passed(self.day)}
            done = done | {result.level}
        return replace(self, recent=recent, retention=retention, done=done)

    def _retention(self, level: Level) -> Retention:
        """Retention of a level, passed or not."""
        return self.retention.get(level.id, NOT_PASSED)

    def _due(self, level: Level) -> date:
        """Day a level is due since; today where it has none."""
        return self._retention(level).due or self.day

    def _allows(self, level: Level) -> bool:
        """Whether the rig has every pedal a level needs."""
        return self.pedals.issuperset(level.pedals)


def _passes(result: Result, recent: Sequence[Result]) -> bool:
    """Whether the newest repetitions of a level, with this result last, meet its pass rule."""
    latest = [
        earlier.clean for earlier in recent if earlier.counts and earlier.level == result.level
    ]
    return sum(latest[-result.rule.of :]) >= result.rule.clean
