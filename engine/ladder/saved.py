"""Levels done and stages of the ladder, read from the player's history."""

from __future__ import annotations

from engine.drill.attempt import Setting
from engine.ladder.ladder import LadderStage, ladder_stages
from engine.store import History, ledger
from engine.store.retention import all_retention


def done(history: History) -> frozenset[str]:
    """Ids of the levels passed by playing or in a placing set. Raises StoreError."""
    return ledger.passed(history) | ledger.placed(history)


def stages_of(setting: Setting, history: History) -> tuple[LadderStage, ...]:
    """Stages of the ladder with the player's state on each level. Raises StoreError."""
    return ladder_stages(
        setting.levels,
        ledger.passed(history),
        ledger.placed(history),
        setting.there,
        retention=all_retention(history),
        is_tryout=setting.history is None,
    )
