"""The history of a player: one SQLite file, written when a repetition ends.

`opening.py` opens it and `schema.py` has its tables; begin there. `repetitions.py` and `traces.py`
hold what was done, `ledger.py` what it comes to. What one room keeps is in its own `saved.py`.
"""

from __future__ import annotations

from engine.practice.record import Record
from engine.store.error import StoreError
from engine.store.history import History
from engine.store.opening import open_history

__all__ = ["History", "Record", "StoreError", "open_history"]
