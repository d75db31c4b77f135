"""Error of everything that reads or writes the history."""

from __future__ import annotations

from drills.refusal import Refusal


class StoreError(Refusal):
    """A history that cannot be used; the text is one line for the person."""
