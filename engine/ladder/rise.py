"""`Climb` and `Rise`: where a player stands on the climb, and what moved since it was shown."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from drills.level import Level
from engine.ladder.ladder import DONE, LadderStage, stage_of


@dataclass(frozen=True)
class Climb:
    """Where a player stands on the ladder."""

    stages: Sequence[LadderStage]
    """Stages of the ladder with the states of their levels."""
    following: Level
    """Level to practise next: the shoe stands on its stage."""

    @property
    def stage_name(self) -> str:
        """Name of the stage with the shoe."""
        return self.stages[stage_of(self.stages, self.following)].name


@dataclass(frozen=True)
class Rise:
    """What moved on the climb, and how far it has come."""

    stood: str
    """Name of the stage on which the shoe stood."""
    marks: frozenset[str]
    """Ids of the levels whose marks fill: they were passed or retained meanwhile."""
    share: float = 1.0
    """Share of the way that all of it has come, 0 to 1."""


def rise_between(before: Climb, after: Climb) -> Rise | None:
    """What moved between two climbs; None if nothing did.

    Levels that are no longer done move nothing.
    """
    states = {rung.level.id: rung.state for stage in before.stages for rung in stage.rungs}
    marks = frozenset(
        rung.level.id
        for stage in after.stages
        for rung in stage.rungs
        if rung.state in DONE and states.get(rung.level.id, rung.state) is not rung.state
    )
    stood = before.stage_name
    return Rise(stood, marks) if marks or stood != after.stage_name else None
