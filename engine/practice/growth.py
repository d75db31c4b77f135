"""How a foot learns one kind of drill: `A + B exp(-a N)` over its repetitions, and what is left."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


class Going(Enum):
    """What the course of a measure says."""

    TOO_EARLY = "too early to say"
    LEARNING = "learning"
    FLAT = "flat"
    """Nothing changes any more, or not for weeks."""


@dataclass(frozen=True)
class Curve:
    """A fitted curve; N is the count of repetitions since it began."""

    floor: float
    """A: what is reached in the end, in the unit of the measure."""
    gain: float
    """B: what was left above it at N = 0, in the unit of the measure."""
    rate: float
    """a: per repetition."""


@dataclass(frozen=True)
class Growth:
    """How one kind of drill is learned, since the last change that was marked."""

    going: Going
    """What can be said."""
    repetitions: int
    """count of repetitions that the curve rests on."""
    days: int
    """days that they were on."""
    curve: Curve | None = None
    """The curve; None where it is too early."""
    now: tuple[float, float, float] | None = None
    """Low end, value and high end of where the curve is now, 95 %, in the unit of the measure."""
    end: tuple[float, float, float] | None = None
    """Low end, value and high end of what is reached in the end, 95 %."""
    half: tuple[float, float, float] | None = None
    """count of repetitions, low end, value and high end, to halve what is left; None unless it is
    still learned."""
    flat_days: int = 0
    """days back from the newest over which nothing changed; 0 unless it is flat."""
    changed: bool = False
    """Whether it begins at a change that was marked, and not at the first repetition."""
