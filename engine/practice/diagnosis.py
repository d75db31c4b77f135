"""Diagnosis: the fault that stands out among a player's newest blips of all levels."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from math import comb

from drills.fault import Fault

NEWEST = 40
"""Newest blips of all levels that a diagnosis is made from, as a count."""
LEAST = 20
"""Fewest blips that a diagnosis is made from, as a count."""
USUAL = 0.15
"""Share of its blips that a foot without a fault may have one fault in, from 0 to 1."""
STANDS_OUT = 0.002
"""Chance, at most, of so many blips with one fault from a foot of the usual share, 0 to 1."""
LEADS = 0.1
"""Chance, at most, of such a lead over the next fault where both are as frequent, from 0 to 1."""


@dataclass(frozen=True)
class FaultShare:
    """How many of a player's newest blips have one fault."""

    fault: Fault
    """The fault that is counted."""
    times: int
    """Blips that have the fault, as a count."""
    of: int
    """Blips that were looked at, as a count."""

    @property
    def share(self) -> float:
        """Share of the blips that have the fault, from 0 to 1."""
        return self.times / self.of if self.of else 0.0


def share_of(fault: Fault, faults: Sequence[Fault | None]) -> FaultShare:
    """How many of the newest blips have a fault; `faults` has one entry a blip, oldest first."""
    newest = faults[-NEWEST:]
    return FaultShare(fault, sum(one is fault for one in newest), len(newest))


def diagnose(faults: Sequence[Fault | None]) -> FaultShare | None:
    """The fault that stands out among the newest blips; None where none does, or they are too few.

    `faults` has one entry a blip, oldest first. The fault must be more frequent than any is of a
    foot without a fault, and clearly more so than the next: both by the binomial distribution, one
    side. A player looks every day, so the bounds are narrower than those of a single look;
    `tests/bench/diagnosis.py` prints how often it is right and wrong.
    """
    newest = faults[-NEWEST:]
    if len(newest) < LEAST:
        return None
    counts = Counter(one for one in newest if one is not None).most_common(2)
    if not counts:
        return None
    (fault, times), *others = counts
    next_times = others[0][1] if others else 0
    if at_least(times, len(newest), USUAL) > STANDS_OUT:
        return None
    if at_least(times, times + next_times, 0.5) > LEADS:
        return None
    return FaultShare(fault, times, len(newest))


def at_least(times: int, of: int, share: float) -> float:
    """Chance of `times` or more in `of`, each with a chance of `share`, from 0 to 1."""
    return sum(comb(of, n) * share**n * (1 - share) ** (of - n) for n in range(times, of + 1))
