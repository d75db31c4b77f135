"""PlayerState: everything the planner needs to know about a player, read from the history."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date

from drills.level import Level
from engine.five.pace import PlayerPace
from engine.practice.focus import Focus
from engine.practice.passes import ALL_PEDALS, required
from engine.practice.personal_limit import PersonalLimit
from engine.practice.results import Result
from engine.practice.retention import CheckOutcome, Retention

NOT_PASSED = Retention()
"""Retention of a level that was never passed by playing: never due, never retained."""


@dataclass(frozen=True)
class PlayerState:
    """Everything the planner knows about a player on one local day."""

    day: date
    """Local day for which the session is planned."""
    levels: Sequence[Level]
    """All levels of the ladder, ordered so that each comes after those it needs."""
    done: frozenset[str] = frozenset()
    """Ids of the levels passed, by playing or in a placing set."""
    retention: Mapping[str, Retention] = field(default_factory=dict)
    """Retention of each level that was passed by playing, by the id of the level."""
    recent: Sequence[Result] = ()
    """The newest repetitions of the player in the history, oldest first."""
    pace: PlayerPace = field(default_factory=PlayerPace)
    """Seconds that a repetition takes this player."""
    band: Level | None = None
    """The steadiness drill; None if there is none to play."""
    pedals: frozenset[str] = ALL_PEDALS
    """Pedals that the player's rig has, with SOUND where sound is heard."""

    personal: Mapping[str, PersonalLimit] = field(default_factory=dict)
    """Personal limit of each level that was played, by the id of the level."""
    focus: Focus | None = None
    """Fault that the player works on; None if there is none."""

    @property
    def rested(self) -> int:
        """Whole days without practice before today, as the newest repetitions tell; 0 if none."""
        before = [result.day for result in self.recent if result.day < self.day]
        return max((self.day - max(before)).days - 1, 0) if before else 0

    @property
    def playable(self) -> list[Level]:
        """Levels passed or placed whose pedals the rig has, easiest first."""
        return [level for level in self.levels if level.id in self.done and self._allows(level)]

    @property
    def due(self) -> list[Level]:
        """Levels due for a retention check: those under way first, then the longest due.

        Of those due since the same day the hardest comes first.
        """
        due = [
            level
            for level in reversed(self.levels)
            if level.id in self.retention and self._allows(level) and self.is_due(level)
        ]
        return sorted(due, key=lambda level: (not self.is_under_check(level), self._due(level)))

    def is_due(self, level: Level) -> bool:
        """Whether this level is due for a retention check."""
        return self._retention(level).is_due(self.day)

    def waited(self, level: Level) -> int:
        """Whole days for which this level has been due for a retention check; 0 if it is not."""
        return max((self.day - self._due(level)).days, 0)

    def is_retained(self, level: Level) -> bool:
        """Whether this level was retained in a check on a later day."""
        return self._retention(level).is_retained

    def is_under_check(self, level: Level) -> bool:
        """Whether a retention check of this level was begun today and is still undecided."""
        return self._retention(level).outcome_on(self.day) is CheckOutcome.OPEN

    @property
    def can_blip(self) -> bool:
        """Whether the steadiness drill can be played: its kind is learned, its pedals are there."""
        band = self.band
        return (
            band is not None
            and self._allows(band)
            and any(
                level.id in self.done and level.kind.name == band.kind.name for level in self.levels
            )
        )

    def after(self, result: Result) -> PlayerState:
        """Expected state of the player after one more repetition today, for the plan."""
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
        """Retention of this level, whether it was passed or not."""
        return self.retention.get(level.id, NOT_PASSED)

    def _due(self, level: Level) -> date:
        """Day since which this level is due for a retention check; today if it never was passed."""
        return self._retention(level).due or self.day

    def _allows(self, level: Level) -> bool:
        """Whether the rig has every pedal this level needs, and sound where it needs that."""
        return self.pedals.issuperset(required(level))


def _passes(result: Result, recent: Sequence[Result]) -> bool:
    """Whether a level's newest repetitions, with this result as the last, meet its pass rule."""
    latest = [
        earlier.clean for earlier in recent if earlier.counts and earlier.level == result.level
    ]
    return sum(latest[-result.rule.of :]) >= result.rule.clean
