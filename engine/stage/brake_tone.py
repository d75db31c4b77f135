"""Tone that guides the brake to its target by ear: too light, on target, or too heavy."""

from __future__ import annotations

from enum import Enum

PRESSED = 5.0
"""Brake at which the brake tone starts, in %: a foot that merely rests on the pedal hears
nothing."""
LET_GO = 4.0
"""Brake under which the brake tone stops, in %: lower than PRESSED by more than a pedal's noise."""
ON_TARGET = 0.85
"""Share of the tolerance band within which the tone for a brake on target starts.

It stops only at the edge of the band, so that a brake that hovers there does not make the tone
flicker, and a brake that sounds on target always counts as on target."""


class BrakeTone(Enum):
    """Tone for the current brake: none, too light, on target, or too heavy."""

    SILENT = "silent"
    LIGHT = "light"
    ON = "on"
    HEAVY = "heavy"


def next_tone(before: BrakeTone, brake: float, lean: float) -> BrakeTone:
    """Tone for a brake in %, given the tone `before`, so that noise does not make it flicker.

    `lean` is the signed distance from the target as a share of the tolerance band: -1 and 1 are
    the edges of the band.
    """
    if brake < (PRESSED if before is BrakeTone.SILENT else LET_GO):
        return BrakeTone.SILENT
    if abs(lean) <= (1.0 if before is BrakeTone.ON else ON_TARGET):
        return BrakeTone.ON
    return BrakeTone.LIGHT if lean < 0 else BrakeTone.HEAVY
