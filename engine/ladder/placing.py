"""The placing set: up the stages, a few repetitions each, to the first that is not the player's.

Every stage is asked by the one of its levels that says so: hard enough that a foot which keeps it
gains little from the stage, and not the hardest, so that one bad day sends nobody to the bottom.
A stage is the player's with two clean repetitions before two that are not: of one who is clean in
8 of 10, as a passed level asks, it takes 9 of 10; of one who is clean in 3 of 10, it takes 2.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from drills.level import Level
from drills.trace import Pedal
from engine.practice.passes import needed

MOST = 12
"""count, repetitions of a placing set."""
ENOUGH = 2
"""count of clean ones that make a stage the player's, and of others that do not."""


@dataclass(frozen=True)
class Placing:
    """A placing set under way."""

    gates: tuple[Level, ...]
    """The level each stage is asked by, in the order of the stages."""
    outcomes: tuple[bool, ...] = ()
    """Whether each repetition that counted was clean, in order."""

    @property
    def asked(self) -> Level | None:
        """The level of the next repetition; None where the set is over."""
        place, _, missed = self._stand()
        over = missed >= ENOUGH or place == len(self.gates) or len(self.outcomes) >= MOST
        return None if over else self.gates[place]

    @property
    def taken(self) -> tuple[Level, ...]:
        """The gates of the stages that are the player's."""
        return self.gates[: self._stand()[0]]

    def after(self, clean: bool) -> Placing:
        """One repetition that counted later."""
        return Placing(self.gates, (*self.outcomes, clean))

    def _stand(self) -> tuple[int, int, int]:
        """How many stages are the player's; clean ones and others at the next."""
        place = clean = missed = 0
        for outcome in self.outcomes:
            clean, missed = clean + outcome, missed + (not outcome)
            if clean >= ENOUGH:
                place, clean, missed = place + 1, 0, 0
        return place, clean, missed


def begin(levels: Sequence[Level], pedals: frozenset[Pedal]) -> Placing:
    """A placing set over the stages that have a level for it, with the pedals there are."""
    gates = {
        level.stage: level
        for level in levels
        if level.placing and level.stage and pedals.issuperset(level.pedals)
    }
    return Placing(tuple(gates.values()))


def placed(placing: Placing, levels: Sequence[Level]) -> frozenset[str]:
    """Ids of the levels that the set went past: those of the stages taken, and what they need."""
    stages = {level.stage for level in placing.taken}
    past = [level for level in levels if level.stage in stages]
    return frozenset(one.id for level in past for one in [level, *needed(level, levels)])
