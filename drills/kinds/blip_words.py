"""Choice of the words on a blip of a held brake that was not clean."""

from __future__ import annotations

import math

from drills.coach import SMALL, Said
from drills.fault import Fault
from drills.kinds import cause, early
from drills.kinds.blip_faults import (
    AFTER,
    BASES,
    BEFORE,
    BRACED,
    COUPLINGS,
    DIPS,
    DURING,
    EARLY,
    EARLY_AREAS,
    EARLY_OFF,
    FIXED,
    OFF,
    OFFSETS,
    REBOUNDS,
    SETTLES,
    SURGES,
)
from drills.measures.disturbance import RELEASED
from drills.remark import Remark
from drills.score import Reason, Verdict

LINGERS = 0.05
"""How long after its throttle pulse the lowest brake still belongs to the blip, in s: a foot is no
quicker to turn back."""


def fault(verdict: Verdict) -> Remark:
    """Remark on a blip or a run by the measure that is furthest over its limit."""
    name = verdict.worst
    if name == "dip":
        return _dip(verdict)
    return Remark(name, *_words(name, verdict))


def _words(name: str, verdict: Verdict) -> Said:
    match name:
        case "surge":
            return SURGES[_top(verdict)]
        case "rebound":
            return REBOUNDS["after the dip" if verdict.amount("dip") >= SMALL else "alone"]
        case "offset":
            return OFFSETS[side(verdict, name)]
        case "settle":
            return SETTLES["never" if verdict.measures.get(name) is None else "late"]
        case "base_error":
            return BASES[side(verdict, name)]
        case "coupling":
            return COUPLINGS["" if verdict.measures.get(name) is None else side(verdict, name)]
    sentences, cues = FIXED[name]
    if name in EARLY_AREAS and early.is_early(verdict):
        return EARLY_AREAS[name], EARLY[1]
    return sentences, cues


def side(verdict: Verdict, name: str) -> str:
    """Side of a measure with a sign: "light" or "heavy"."""
    return "light" if verdict.amount(name) < 0 else "heavy"


def when(at: float, verdict: Verdict) -> str:
    """When something was, `at` s from the throttle onset: before, during or after the blip."""
    if at < 0:
        return BEFORE
    ends = verdict.amount("end") - verdict.amount("onset")
    return DURING if at <= ends + LINGERS else AFTER


def is_off(verdict: Verdict) -> bool:
    """Whether the deepest dip took the brake down to nothing."""
    return verdict.amount("base") - verdict.amount("dip") < RELEASED


def is_braced(verdict: Verdict) -> bool:
    """Whether a push before the throttle is the fault of a blip or a run."""
    return cause.of_blip(verdict) is Fault.BRACING


def _dip(verdict: Verdict) -> Remark:
    if early.is_early(verdict):
        return Remark(early.TOPIC, *(EARLY_OFF if is_off(verdict) else EARLY))
    if is_braced(verdict) and not is_off(verdict):
        return Remark(cause.BRACED, *BRACED)
    at = when(verdict.amount("dip_at"), verdict)
    return Remark("dip", *(OFF if is_off(verdict) else DIPS)[at])


def _top(verdict: Verdict) -> str:
    at = verdict.amount("surge_at")
    if verdict.amount("dip") < SMALL:
        return f"alone {when(at, verdict)}"
    return "before the dip" if at < verdict.amount("dip_at") else "after the dip"


def lean_of(verdict: Verdict) -> float | None:
    """Position of the bubble on the reveal of a blip: -1 brake too light, 0 no fault, 1 too heavy.

    None where nothing was measured, or where the fault has no direction.
    """
    if verdict.reason is Reason.LET_GO:
        return -1.0
    if not verdict.measures or verdict.void:
        return None
    if verdict.reason is Reason.OFF_TARGET:
        return math.copysign(1.0, verdict.amount("base_error"))
    if not verdict.over:
        return 0.0
    if verdict.reason is not Reason.OVER_LIMIT:
        return None
    return _lean_by(verdict.worst, verdict)


def _lean_by(name: str, verdict: Verdict) -> float | None:
    if name in _SIGNED:
        value = verdict.measures.get(name)
        return None if value is None else math.copysign(1.0, value)
    if name in _HEAVY:
        return 1.0
    if name in _OF_THROTTLE:
        return 0.0
    return -1.0 if name in _LIGHT else None


_SIGNED = ("offset", "base_error", "coupling")
_LIGHT = ("dip", "mean_dip", "shortfall", "extra_distance")
_HEAVY = ("surge", "rebound", "excess")
_OF_THROTTLE = ("reaction", "width", "rise", "fall")
