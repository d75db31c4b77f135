"""What the coach has to tell now: a fault once, when it stands out, and once that it has halved."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from drills.fault import Fault
from drills.measures.definition import DEFINITION
from engine.practice.diagnosis import LEAST, FaultShare, share_of
from engine.practice.focus import Focus
from engine.store import History
from engine.store.changes import scale_start

TOLD = "coach"
"""Key of the setting with the fault that the player was told last."""
HALF = 0.5
"""Share of what it was at most, from 0 to 1, at which a fault has halved."""


@dataclass(frozen=True)
class Told:
    """The fault that the player was told last."""

    was: FaultShare
    """Its share then."""
    since: date
    """Local day on which it was found."""
    terms: tuple[int, int, int] = (0, 0, DEFINITION)
    """Rig (0: not a saved one), repetition after which its brake's scale began, and definition of
    the measures: shares on other terms are not compared."""


@dataclass(frozen=True)
class News:
    """What the coach tells now."""

    tell: Focus | None = None
    """Fault to be told for the first time; None for none."""
    halved: tuple[FaultShare, FaultShare] | None = None
    """Share of a fault when it was told, and now that it is half of that; None for none."""
    told: Told | None = None
    """What the player has been told once this is told; None: nothing."""


def news_of(
    told: Told | None,
    focus: Focus | None,
    faults: Sequence[Fault | None],
    terms: tuple[int, int, int],
) -> News:
    """What is to be told after what was told before; `faults` are of the newest blips."""
    known = told if told is not None and told.terms == terms else None
    is_told = (
        known is not None
        and focus is not None
        and (known.was.fault, known.since) == (focus.fault, focus.since)
    )
    if is_told:
        return News(told=known)
    halved = None if known is None else _halved(known.was, faults)
    if focus is not None:
        return News(focus, halved, Told(focus.was, focus.since, terms))
    return News(None, halved, None if halved is not None else told)


def _halved(
    was: FaultShare, faults: Sequence[Fault | None]
) -> tuple[FaultShare, FaultShare] | None:
    now = share_of(was.fault, faults)
    is_half = now.of >= LEAST and now.share <= HALF * was.share
    return (was, now) if is_half else None


def terms_of(history: History, rig: int | None) -> tuple[int, int, int]:
    """What shares of today may be compared with, on the rig with this number. Raises StoreError."""
    return rig or 0, scale_start(history), DEFINITION


def told_before(history: History) -> Told | None:
    """What the player was told last; None if nothing, or it cannot be read. Raises StoreError."""
    stored = history.setting(TOLD)
    if not isinstance(stored, Mapping):
        return None
    try:
        rig, scale, definition = (int(one) for one in stored["terms"])
        was = FaultShare(Fault(stored["fault"]), int(stored["times"]), int(stored["of"]))
        since = date.fromisoformat(stored["since"])
    except (KeyError, TypeError, ValueError, OverflowError):
        return None
    return Told(was, since, (rig, scale, definition))


def keep_told(history: History, told: Told | None) -> None:
    """Store what the player has been told. Raises StoreError."""
    stored = None
    if told is not None:
        was = told.was
        stored = {
            "fault": was.fault.value,
            "times": was.times,
            "of": was.of,
            "since": told.since.isoformat(),
            "terms": list(told.terms),
        }
    history.keep_setting(TOLD, stored)
