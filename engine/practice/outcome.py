"""What a trial of two set-ups ends with: differences, how sure they are, and what that means."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from engine.practice.trial import Arm


class Told(Enum):
    """What a trial tells."""

    STEADIER = "steadier"
    """One arm is steadier than the other."""
    NO_DIFFERENCE = "no difference you would notice"
    CANNOT_TELL = "cannot tell"


@dataclass(frozen=True)
class Difference:
    """One measure in both arms: medians, and the difference B less A with how sure it is."""

    measure: str
    """Name of the measure."""
    a: float | None
    """Median of arm A, in the unit of the measure; None where it has none."""
    b: float | None
    """Median of arm B, in the unit of the measure; None where it has none."""
    value: float | None
    """B less A, in the unit of the measure; None where there are too few pairs."""
    low: float | None = None
    """Low end of the interval of 95 %; None where there are too few pairs."""
    high: float | None = None
    """High end of it; None where there are too few pairs."""
    p: float | None = None
    """Two-sided p of the sign-flip test over pairs; None where there are too few pairs."""
    pairs: int = 0
    """count of pairs it rests on."""


@dataclass(frozen=True)
class ArmCount:
    """What became of the repetitions of one arm."""

    counted: int
    """count of those that counted, those that were left among them."""
    void: int
    """count of those that did not count."""
    left: int
    """count of those that were left after the cue."""


@dataclass(frozen=True)
class Outcome:
    """What a whole trial ends with."""

    told: Told
    """What it tells, by the dip alone."""
    steadier: Arm | None
    """The arm that is steadier; None unless one is."""
    dip: Difference
    """points, how far the brake fell."""
    rebound: Difference
    """points, how far it came back over."""
    settle: Difference
    """s, until it was steady again."""
    counts: tuple[ArmCount, ArmCount]
    """Of A and of B."""
    recalibrated: bool
    """Whether the pedals were set up anew between blocks: then the arms may read differently."""
