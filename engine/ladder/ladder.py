"""The ladder: every level with its state, stage by stage, and where the player stands on it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import groupby

from drills.level import Level
from drills.trace import Pedal
from engine.practice.passes import ALL_PEDALS, is_open
from engine.practice.retention import Retention

YOUR_OWN = "your own"
"""What the stage of a player's own levels is called."""


class State(StrEnum):
    """How a level stands."""

    PASSED = "passed"
    RETAINED = "kept"
    """Shown again on a later day."""
    WELL_RETAINED = "kept well"
    """Shown again after a week and more."""
    PLACED = "placed"
    """Not played to its end: a placing set showed more than it asks."""
    OPEN = "open"
    CLOSED = "closed"
    """Levels it needs are not passed."""
    LACKING = "no pedal"
    """A pedal it needs is not there."""


@dataclass(frozen=True)
class LadderLevel:
    """One level with its state."""

    level: Level
    """The level."""
    state: State
    """How it stands."""


@dataclass(frozen=True)
class LadderStage:
    """The levels of one stage, the easiest first."""

    name: str
    """What the foot learns in it."""
    rungs: tuple[LadderLevel, ...]
    """Its levels, at least one."""

    @property
    def done(self) -> int:
        """count of its levels passed, by playing or by placing."""
        return sum(rung.state in DONE for rung in self.rungs)

    @property
    def is_done(self) -> bool:
        """Whether all of it is."""
        return self.done == len(self.rungs)

    @property
    def is_open(self) -> bool:
        """Whether any of it can be played."""
        return any(rung.state in (*DONE, State.OPEN) for rung in self.rungs)


DONE = (State.PASSED, State.RETAINED, State.WELL_RETAINED, State.PLACED)
"""States that open what needs the level."""


def ladder_stages(
    levels: Sequence[Level],
    passed: frozenset[str],
    placed: frozenset[str] = frozenset(),
    pedals: frozenset[Pedal] = ALL_PEDALS,
    *,
    retention: Mapping[str, Retention] | None = None,
    is_tryout: bool = False,
) -> tuple[LadderStage, ...]:
    """The stages in the order of the levels, each with its levels and their states.

    `passed` are ids of levels passed by playing, `placed` of those a placing set went past.
    `keeping` says how well each level that was passed is kept. In a try-out nothing needs passing
    first.
    """
    opening = frozenset(level.id for level in levels) if is_tryout else passed | placed
    well = retention or {}
    order = list(dict.fromkeys(level.stage for level in levels))
    sorted_levels = sorted(levels, key=lambda level: order.index(level.stage))
    return tuple(
        LadderStage(
            stage or YOUR_OWN,
            tuple(
                LadderLevel(level, _state(level, passed, placed, opening, pedals, well))
                for level in together
            ),
        )
        for stage, together in groupby(sorted_levels, key=lambda level: level.stage)
    )


def _state(
    level: Level,
    passed: frozenset[str],
    placed: frozenset[str],
    opening: frozenset[str],
    pedals: frozenset[Pedal],
    retention: Mapping[str, Retention],
) -> State:
    kept = retention.get(level.id, Retention())
    if kept.is_well_retained:
        return State.WELL_RETAINED
    if kept.is_retained:
        return State.RETAINED
    if level.id in passed:
        return State.PASSED
    if level.id in placed:
        return State.PLACED
    if not pedals.issuperset(level.pedals):
        return State.LACKING
    return State.OPEN if is_open(level, opening, pedals) else State.CLOSED
