"""Tone that guides the brake to its target by ear: too light, on target, or too heavy."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from drills.trace import nanoseconds

PRESSED = 5.0
"""Brake at which the brake tone starts, in %: a foot that merely rests on the pedal hears
nothing."""
LET_GO = 4.0
"""Brake under which the brake tone stops, in %: lower than PRESSED by more than a pedal's noise."""
ON_TARGET = 0.75
"""Share of the tolerance band within which the brake is to stay for the tone on target to start.

It stops only at the edge of the band, so that a brake that hovers there does not make the tone
flicker, and a brake that sounds on target always counts as on target."""
SETTLED = nanoseconds(0.150)
"""Time that the brake is to stay there before the tone on target starts, in ns: one that only
passes through does not make it chirp."""


class BrakeTone(Enum):
    """Tone for the current brake: none, too light, on target, or too heavy."""

    SILENT = "silent"
    LIGHT = "light"
    ON = "on"
    HEAVY = "heavy"


@dataclass(frozen=True)
class Aim:
    """The brake tone now, and what decides when the one on target starts."""

    tone: BrakeTone = BrakeTone.SILENT
    """Tone that sounds now."""
    since: int | None = None
    """Time since which the brake is well inside the band, in ns; None while it is not."""


def next_tone(before: Aim, brake: float, lean: float, time: int) -> Aim:
    """Tone for a brake in % at a `time` in ns, after that of the sample `before`.

    `lean` is the signed distance from the target as a share of the tolerance band: -1 and 1 are
    the edges of the band.
    """
    if brake < (PRESSED if before.tone is BrakeTone.SILENT else LET_GO):
        return Aim()
    since = _since(before, lean, time)
    if before.tone is BrakeTone.ON and abs(lean) <= 1.0:
        return Aim(BrakeTone.ON, since)
    if since is None:
        return Aim(BrakeTone.LIGHT if lean < 0 else BrakeTone.HEAVY)
    return Aim(BrakeTone.ON if time - since >= SETTLED else before.tone, since)


def _since(before: Aim, lean: float, time: int) -> int | None:
    """Time since which the brake is well inside the band, in ns; None where it is not."""
    if abs(lean) > ON_TARGET:
        return None
    return time if before.since is None else before.since
