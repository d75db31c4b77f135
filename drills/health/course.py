"""The half minute that a player is led through: which pedal does what, from when to when."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from drills.trace import Pedal

LENGTH = 30.0
"""Length of the course, in s."""
OFF_FIRST = 2.0
"""Time with the feet off before the first press, in s: enough to read what to do."""
OFF_LAST = 4.0
"""Time with the feet off at the end, in s; the noise at rest is measured here, as SDL holds the
first value of an axis until it has moved (see `MOVED` in pedal.py)."""
SHARES = (5 / 12, 4 / 12, 3 / 12)
"""Shares of a pedal's time that the slow press, the hold and the stabs take."""


class Step(StrEnum):
    """What the feet do in one part of the course."""

    OFF = "off"
    PRESS = "press"
    HOLD = "hold"
    STABS = "stabs"


@dataclass(frozen=True)
class Part:
    """One part of the course."""

    step: Step
    """What the feet do."""
    pedal: Pedal | None
    """Pedal that does it; None where the feet are off all of them."""
    begins: float
    """Time at which it begins, in s from the beginning of the course."""
    ends: float
    """Time at which it ends, in s from the beginning of the course."""

    @property
    def lasts(self) -> float:
        """Length of the part, in s."""
        return self.ends - self.begins


def course_of(pedals: Sequence[Pedal]) -> tuple[Part, ...]:
    """Course for these pedals, one after another; it lasts LENGTH for any number of them."""
    each = (LENGTH - OFF_FIRST - OFF_LAST) / len(pedals)
    parts = [Part(Step.OFF, None, 0.0, OFF_FIRST)]
    for pedal in pedals:
        for step, share in zip((Step.PRESS, Step.HOLD, Step.STABS), SHARES, strict=True):
            begins = parts[-1].ends
            parts.append(Part(step, pedal, begins, begins + share * each))
    return (*parts, Part(Step.OFF, None, parts[-1].ends, LENGTH))


def part_at(parts: Sequence[Part], seconds: float) -> Part:
    """Part of a course at a time in s; after its end the last one."""
    return next((part for part in parts if seconds < part.ends), parts[-1])
