"""`Focus`: the fault that the player works on, from its diagnosis until its share has halved."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from enum import StrEnum

from drills.fault import Fault
from engine.practice.diagnosis import LEAST, FaultShare, diagnose, share_of

HALF = 0.5
"""Share of what it was that a fault must have fallen to, to be worked on no longer."""
REST = 14
"""Days after a fault has halved in which it is not told again: the share of a foot between two
levels of skill goes up and down by chance, and would be told again and again."""


@dataclass(frozen=True)
class Focus:
    """Fault that the player works on, with its share now and when it was told."""

    was: FaultShare
    """Share of the newest blips that had the fault when it was told."""
    now: FaultShare
    """Share of the newest blips that have it now."""
    since: date
    """Local day on which the fault was told."""

    @property
    def fault(self) -> Fault:
        """The fault that is worked on."""
        return self.was.fault

    @property
    def has_halved(self) -> bool:
        """Whether the fault has fallen to half the share that it was told at."""
        return self.now.share <= HALF * self.was.share


class FocusChange(StrEnum):
    """What the newest blips changed about the fault that is worked on."""

    NONE = "none"
    """Nothing: the same fault is worked on, or none is."""
    TOLD = "told"
    """A fault stands out where none was worked on."""
    HALVED = "halved"
    """The fault that was worked on has fallen to half."""
    TAKEN_OVER = "taken over"
    """Another fault stands out clearly more than the one that was worked on."""


@dataclass(frozen=True)
class Halved:
    """Fault that has fallen to half, and when."""

    fault: Fault
    """The fault that was worked on."""
    on: date
    """Local day of the look that found it halved."""

    def rests(self, fault: Fault, day: date) -> bool:
        """Whether a fault is this one and not to be told again yet on a local day."""
        return fault is self.fault and abs((day - self.on).days) < REST


@dataclass(frozen=True)
class FocusStep:
    """The fault worked on after a look at the newest blips, and what that look changed."""

    change: FocusChange
    """What the look changed."""
    now: Focus | None
    """Fault that is worked on from then on; None if there is none."""
    over: Focus | None = None
    """Fault that was worked on until then, with its share then; None where none has ended."""
    halved: Halved | None = None
    """Fault that halved last, at this look or an earlier one; None where none has."""


def focus_step(
    before: Focus | None,
    faults: Sequence[Fault | None],
    day: date,
    halved: Halved | None = None,
) -> FocusStep:
    """A look on a local day at the newest blips, `faults` with one entry a blip, oldest first.

    Another fault takes over where it is the one that stands out, and so clearly more frequent.
    Too few blips, as on another scale of the brake, change nothing. A fault that has halved leaves
    room for another from the next look on, not at once: a screen tells one thing at a time. The
    fault that `halved` last is told again after two weeks at the soonest.
    """
    if len(faults) < LEAST:
        return FocusStep(FocusChange.NONE, before, halved=halved)
    found = diagnose(faults)
    if found is not None and halved is not None and halved.rests(found.fault, day):
        found = None
    told = None if found is None else Focus(found, found, day)
    if before is None:
        return FocusStep(
            FocusChange.NONE if told is None else FocusChange.TOLD, told, halved=halved
        )
    now = replace(before, now=share_of(before.fault, faults))
    if now.has_halved:
        return FocusStep(FocusChange.HALVED, None, now, Halved(now.fault, day))
    if told is not None and told.fault is not now.fault:
        return FocusStep(FocusChange.TAKEN_OVER, told, now, halved)
    return FocusStep(FocusChange.NONE, now, halved=halved)
