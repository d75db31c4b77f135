"""Rules of the placing set: a few repetitions of each stage, up to the first that is too hard.

Each stage is tested by its one level with `placing`: hard enough that who can do it gains little
from the stage, but not the hardest, so that one bad day sends no player to the bottom. Two clean
repetitions before two others pass a stage: a player who is clean 8 times in 10, as a pass asks,
passes it 9 times in 10; one who is clean 3 times in 10 passes it twice in 10.

The stages that put others together, from *everything* on, have no such level: two clean repetitions
would skip all that they stand on, and who can do them passes them soon.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from drills.level import Level
from engine.practice.passes import needed, required

MOST = 12
"""Most repetitions in a placing set, as a count."""
ENOUGH = 2
"""Number of clean repetitions that pass a stage in a placing set, and of others that end it."""


@dataclass(frozen=True)
class Placing:
    """Placing set under way: the levels it asks, and how the repetitions so far came out."""

    gates: tuple[Level, ...]
    """Level that tests each stage in a placing set, in the order of the stages."""
    outcomes: tuple[bool, ...] = ()
    """Whether each repetition of the placing set that counted was clean, in order."""

    @property
    def asked(self) -> Level | None:
        """Level of the next repetition in the placing set; None if the set is over."""
        place, _, missed = self._stand()
        over = missed >= ENOUGH or place == len(self.gates) or len(self.outcomes) >= MOST
        return None if over else self.gates[place]

    @property
    def taken(self) -> tuple[Level, ...]:
        """Test levels of the stages passed so far in the placing set."""
        return self.gates[: self._stand()[0]]

    def after(self, clean: bool) -> Placing:
        """The placing set after one more repetition that counted, `clean` or not."""
        return Placing(self.gates, (*self.outcomes, clean))

    def _stand(self) -> tuple[int, int, int]:
        """Stages passed so far; clean repetitions, and others, on the level asked now."""
        place = clean = missed = 0
        for outcome in self.outcomes:
            clean, missed = clean + outcome, missed + (not outcome)
            if clean >= ENOUGH:
                place, clean, missed = place + 1, 0, 0
        return place, clean, missed


def begin(levels: Sequence[Level], pedals: frozenset[str]) -> Placing:
    """A new placing set over the stages that have a test level playable with these pedals."""
    gates = {
        level.stage: level
        for level in levels
        if level.placing and level.stage and pedals.issuperset(required(level))
    }
    return Placing(tuple(gates.values()))


def placed(placing: Placing, levels: Sequence[Level]) -> frozenset[str]:
    """Ids of the levels a placing set skipped: those of the stages passed, and all they need."""
    stages = {level.stage for level in placing.taken}
    past = [level for level in levels if level.stage in stages]
    return frozenset(below.id for level in past for below in [level, *needed(level, levels)])
