"""Errors of modules that are slow to import, so that they can be caught without importing those."""

from __future__ import annotations

from drills.refusal import Refusal


class DisplayError(Refusal):
    """No window of the game can be opened. The message is one line for the user."""
