"""`Rise`: what moved on the climb since it was last shown."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from drills.level import Level
from engine.ladder.ladder import DONE, LadderStage


@dataclass(frozen=True)
class Rise:
    """What moved on the climb, and how far it has come."""

    stood: str
    """Name of the stage on which the shoe stood."""
    marks: frozenset[str]
    """Ids of the levels whose marks fill: they were passed or retained meanwhile."""
    share: float = 1.0
    """Share of the way that all of it has come, 0 to 1."""


def rise_between(
    before: Sequence[LadderStage], stood: str, after: Sequence[LadderStage], stands: str
) -> Rise | None:
    """What moved between two climbs; None if nothing did.

    `stood` and `stands` are the names of the stages with the shoe. Levels that are no longer done
    move nothing.
    """
    states = {rung.level.id: rung.state for stage in before for rung in stage.rungs}
    marks = frozenset(
        rung.level.id
        for stage in after
        for rung in stage.rungs
        if rung.state in DONE and states.get(rung.level.id, rung.state) is not rung.state
    )
    return Rise(stood, marks) if marks or stood != stands else None


def stage_name(stages: Sequence[LadderStage], level: Level) -> str:
    """Name of the stage that holds a level; that of the first stage if none does."""
    names = (
        stage.name for stage in stages if any(rung.level.id == level.id for rung in stage.rungs)
    )
    return next(names, stages[0].name)
