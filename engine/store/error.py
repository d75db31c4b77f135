"""Error raised by everything that reads or writes the history."""

from __future__ import annotations

from drills.refusal import Refusal


class StoreError(Refusal):
    """The history or a file beside it cannot be used. The message is one line for the player."""


class DamagedError(StoreError):
    """The history file is damaged: SQLite, or the reader of a row, cannot make sense of it."""


class InUseError(StoreError):
    """Another program uses the history, or the lock beside it, in a way that bars this one."""
