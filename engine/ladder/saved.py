"""What the history says of the ladder: the levels that are done, and the stages as they stand."""

from __future__ import annotations

from engine.drill.attempt import Setting
from engine.ladder.ladder import LadderStage, ladder_stages
from engine.store import History


def done(history: History) -> frozenset[str]:
    """Ids of the levels passed by playing or by placing. Raises StoreError."""
    return history.passed() | history.placed()


def stages_of(setting: Setting, history: History) -> tuple[LadderStage, ...]:
    """The stages with their levels, as they stand for a player. Raises StoreError."""
    return ladder_stages(
        setting.levels,
        history.passed(),
        history.placed(),
        setting.rig.there,
        retention=history.retentions(),
        is_tryout=setting.history is None,
    )
