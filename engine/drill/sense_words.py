"""Words on what a player presses when a weight is asked."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from engine.practice.sense import ErrorAt


def pressure_words(fault: ErrorAt) -> str:
    """Sentence on an error that is sure, such as "At 75 you press 5 too little."."""
    return f"At {fault.weight:.0f} you press {error_words(fault)}."


def error_words(fault: ErrorAt) -> str:
    """An error in points and its side, such as "5 too little"."""
    error = fault.error.value
    return f"{abs(error):.0f} {'too much' if error > 0 else 'too little'}"
