"""The ladder: all levels of the game with the player's state on each, grouped into stages."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import groupby

from drills.level import Level
from engine.practice.passes import ALL_PEDALS, is_open, required
from engine.practice.retention import Retention

YOUR_OWN = "your own"
"""Name of the stage with the levels that the player wrote."""


class State(StrEnum):
    """State of a level for one player."""

    PASSED = "passed"
    RETAINED = "retained"
    """Passed, and retained in a check on a later day."""
    WELL_RETAINED = "well retained"
    """Passed, and retained after a week without a check."""
    PLACED = "placed"
    """Skipped: a placing set showed that the player can do more than it asks."""
    OPEN = "open"
    CLOSED = "closed"
    """Not open yet: levels that it needs are not done."""
    LACKING = "no pedal"
    """Not playable: the rig lacks a pedal that it needs."""
    UNHEARD = "no sound"
    """Not playable: its cues can only be heard, and no sound is."""


@dataclass(frozen=True)
class LadderLevel:
    """One level of the ladder, with its state for the player."""

    level: Level
    """The level itself."""
    state: State
    """State of the level for the player."""


@dataclass(frozen=True)
class LadderStage:
    """One stage of the ladder, with its levels, the easiest first."""

    name: str
    """Name of the stage, such as "hold still"."""
    rungs: tuple[LadderLevel, ...]
    """Levels of the stage with their states, at least one."""

    @property
    def done(self) -> int:
        """Number of levels of the stage passed, by playing or in a placing set."""
        return sum(rung.state in DONE for rung in self.rungs)

    @property
    def is_open(self) -> bool:
        """Whether any level of the stage can be played."""
        return any(rung.state in (*DONE, State.OPEN) for rung in self.rungs)


RETAINED = (State.RETAINED, State.WELL_RETAINED)
"""States of a level that was retained."""
DONE = (State.PASSED, State.RETAINED, State.WELL_RETAINED, State.PLACED)
"""States of a level in which it opens the levels that need it."""


def ladder_stages(
    levels: Sequence[Level],
    passed: frozenset[str],
    placed: frozenset[str] = frozenset(),
    pedals: frozenset[str] = ALL_PEDALS,
    *,
    retention: Mapping[str, Retention] | None = None,
    is_tryout: bool = False,
) -> tuple[LadderStage, ...]:
    """All stages in the order of the levels, each with its levels and their states.

    `passed` are ids of levels passed by playing, `placed` of those a placing set went past.
    `retention` is that of each level passed, by its id. In a try-out nothing needs passing first.
    """
    opening = frozenset(level.id for level in levels) if is_tryout else passed | placed
    by_level = retention or {}
    order = list(dict.fromkeys(level.stage for level in levels))
    sorted_levels = sorted(levels, key=lambda level: order.index(level.stage))
    return tuple(
        LadderStage(
            stage or YOUR_OWN,
            tuple(
                LadderLevel(level, _state(level, passed, placed, opening, pedals, by_level))
                for level in together
            ),
        )
        for stage, together in groupby(sorted_levels, key=lambda level: level.stage)
    )


def stage_of(stages: Sequence[LadderStage], level: Level) -> int:
    """Index of the stage that holds this level; 0 if none does."""
    numbers = (
        number
        for number, ladder_stage in enumerate(stages)
        if any(rung.level.id == level.id for rung in ladder_stage.rungs)
    )
    return next(numbers, 0)


def _state(
    level: Level,
    passed: frozenset[str],
    placed: frozenset[str],
    opening: frozenset[str],
    pedals: frozenset[str],
    retention: Mapping[str, Retention],
) -> State:
    """State of one level; `opening` are the ids of the levels that open those needing them."""
    of_level = retention.get(level.id, Retention())
    if of_level.is_well_retained:
        return State.WELL_RETAINED
    if of_level.is_retained:
        return State.RETAINED
    if level.id in passed:
        return State.PASSED
    if level.id in placed:
        return State.PLACED
    if not pedals.issuperset(level.pedals):
        return State.LACKING
    if not pedals.issuperset(required(level)):
        return State.UNHEARD
    return State.OPEN if is_open(level, opening, pedals) else State.CLOSED
