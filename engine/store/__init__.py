"""The history of a player: one SQLite file, written when a repetition ends."""

from __future__ import annotations

from engine.store.history import History, open_history
from engine.store.records import Record, StoreError

__all__ = ["History", "Record", "StoreError", "open_history"]
