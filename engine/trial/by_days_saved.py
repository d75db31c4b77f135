"""Reads from the history the blips of a trial by days."""

from __future__ import annotations

from drills.score import Reason
from engine.store import History
from engine.store.cells import Row
from engine.store.joins import joined_measures
from engine.trial.by_days import DayBlip
from engine.trial.trial import MOST_PAIRS

_MEASURES = ("dip", "surge", "peak")


def day_blips(history: History, trial: int) -> list[DayBlip]:
    """Steadiness blips of a trial by days, void ones included, oldest first. Raises StoreError."""
    with history.reading() as db:
        found = db.execute(
            "SELECT repetition.id, block, reason, dip.value, surge.value, peak.value"
            f" FROM repetition{joined_measures(_MEASURES)} WHERE trial = ? ORDER BY repetition.id",
            (trial,),
        ).fetchall()
        return [_blip(cells) for cells in found]


def _blip(cells: tuple[object, ...]) -> DayBlip:
    number, block, reason, *values = cells
    row = Row(f"repetition {number}")
    dip, surge, peak = (
        row.number(name, value) for name, value in zip(_MEASURES, values, strict=True)
    )
    return DayBlip(
        row.whole("block", block, 0, 2 * MOST_PAIRS - 1),
        row.word("reason", reason, Reason),
        None if dip is None or surge is None else max(dip, surge),
        peak,
    )
