"""What a trial ends with, in words and figures that agree."""

from __future__ import annotations

from engine.practice.outcome import Outcome, Told
from engine.practice.trial import Arm


def in_words(outcome: Outcome, a_name: str, b_name: str) -> tuple[str, ...]:
    """A heading, and at most two lines under it. The names are those of the two set-ups."""
    names = {Arm.A: f"A ({a_name})", Arm.B: f"B ({b_name})"}
    dip = outcome.dip
    if outcome.told is Told.STEADIER and outcome.steadier and dip.value is not None:
        return (f"{names[outcome.steadier]} is steadier by {abs(dip.value):.0f} points",)
    return (f"{outcome.told.value.capitalize()}.",)
