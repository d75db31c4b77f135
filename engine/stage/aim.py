"""What is heard of a brake that is looked for by ear: too light, on target, or too heavy."""

from __future__ import annotations

from enum import Enum

PRESSED = 5.0
"""%, brake under which there is nothing to hear: a foot that only rests looks for no target."""
LET_GO = 4.0
"""%, where it falls silent again: further down than it began, by more than pedals tremble."""
FOUND = 0.85
"""1, share of the band the brake must be within to be on target. It is left at the whole band, so
a brake that hovers at the edge stays what it is, and what sounds on target always counts as it."""


class Aim(Enum):
    """How the brake sounds."""

    SILENT = "silent"
    LIGHT = "light"
    ON = "on"
    HEAVY = "heavy"


def aimed(before: Aim, brake: float, lean: float) -> Aim:
    """How a brake (%) sounds that sounded like `before` until now.

    `lean` is its distance from the target as a share of the band: at -1 and 1 it is on an edge.
    """
    if brake < (PRESSED if before is Aim.SILENT else LET_GO):
        return Aim.SILENT
    if abs(lean) <= (1.0 if before is Aim.ON else FOUND):
        return Aim.ON
    return Aim.LIGHT if lean < 0 else Aim.HEAVY
