"""Earcons: short sounds that each say one thing (Blattner, Sumikawa & Greenberg 1989)."""

from __future__ import annotations

from enum import Enum


class Earcon(Enum):
    """What a short sound says, of one repetition or of a moment worth marking."""

    DIP = "dip"
    """Not clean, and the brake was too light: some was lost or missing."""
    SURGE = "surge"
    """Not clean, and the brake was too heavy: over what was held or asked."""
    LATE = "late"
    """Not clean, and something came late."""
    MISSED = "missed"
    """Not clean for another reason."""
    VOID = "void"
    """The repetition could not be judged."""
    PASSED = "passed"
    """A level is passed."""
    RETAINED = "retained"
    """A level is passed again on a later day."""
    BEST = "best"
    """There is a new best."""
    ROW = "row"
    """A row of clean repetitions, or of days, reached a round length."""
    DAY_DONE = "day done"
    """The five minutes are over."""
