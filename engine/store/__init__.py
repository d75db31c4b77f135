"""History of a player: one SQLite file, to which each repetition is written as it ends.

Begin with `opening.py`, which opens the file, and `schema.py`, which has its tables.
`migrate.py` brings an older file to them, and `remeasure.py` its measures to today's definitions.
`repetitions.py` and `traces.py` store what was done, `ledger.py` the passes and streaks that follow
from it. What only one room of the game stores is in that room's `saved.py`.
"""

from __future__ import annotations

from engine.practice.record import Record
from engine.store.error import DamagedError, StoreError
from engine.store.history import History
from engine.store.opening import open_history

__all__ = ["DamagedError", "History", "Record", "StoreError", "open_history"]
