"""Words for a steadiness that cannot be told yet, the same on every screen."""

from __future__ import annotations

from engine.practice.steadiness import WINDOW

INSIDE = "three blips in four stay inside"
"""What steadiness is, as part of a sentence."""


def waiting_words(blips: int) -> str:
    """How many blips there are of those that the first steadiness needs: "12 of 36 blips"."""
    return f"{blips} of {WINDOW} blips"
