"""What there is to know of a player on a day: what the rules of a sitting decide by."""

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
"""How well a level is kept that was not passed by playing."""


@dataclass(frozen=True)
class PlayerState:
    """What there is to know of a player on a day."""

    day: date
    """Local day."""
    levels: Sequence[Level]
    """All there are, each after those it needs."""
    done: frozenset[str] = frozenset()
    """Ids of the levels passed, by playing or by placing."""
    retention: Mapping[str, Retention] = field(default_factory=dict)
    """How well each passed level is kept, by its id."""
    recent: Sequence[Result] = ()
    """The newest repetitions, oldest first."""
    pace: PlayerPace = field(default_factory=PlayerPace)
    """How long they take."""
    band: Level | None = None
    """The drill of the steadiness band."""
    pedals: frozenset[Pedal] = ALL_PEDALS
    """Those that are there."""

    @property
    def playable(self) -> list[Level]:
        """The levels passed that the pedals allow, easiest first."""
        return [one for one in self.levels if one.id in self.done and self._allows(one)]

    @property
    def due(self) -> list[Level]:
        """The levels to be shown again: one under way, then the longest due, the hardest first."""
        due = [
            one
            for one in reversed(self.levels)
            if one.id in self.retention and self._allows(one) and self.is_due(one)
        ]
        return sorted(due, key=lambda one: (not self.is_being_shown(one), self._due(one)))

    def is_due(self, level: Level) -> bool:
        """Whether it is to be shown again."""
        return self._keeping(level).is_due(self.day)

    def is_being_shown(self, level: Level) -> bool:
        """Whether it was begun today to show a level again, and more of it will tell."""
        return self._keeping(level).outcome_on(self.day) is CheckOutcome.OPEN

    @property
    def can_blip(self) -> bool:
        """Whether there are blips to be steady in: a level of them is passed, the pedals there."""
        band = self.band
        return (
            band is not None
            and self._allows(band)
            and any(one.id in self.done and one.kind.name == band.kind.name for one in self.levels)
        )

    def after(self, result: Result) -> PlayerState:
        """One repetition later, as far as that decides what comes next today."""
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

    def _keeping(self, level: Level) -> Retention:
        return self.retention.get(level.id, NOT_PASSED)

    def _due(self, level: Level) -> date:
        return self._keeping(level).due or self.day

    def _allows(self, level: Level) -> bool:
        return self.pedals.issuperset(level.pedals)


def _passes(result: Result, recent: Sequence[Result]) -> bool:
    latest = [one.clean for one in recent if one.counts and one.level == result.level]
    return sum(latest[-result.rule.of :]) >= result.rule.clean
