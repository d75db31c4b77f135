"""Cause of what went wrong with a blip, as a coach names it: at most one fault a blip.

A disturbance is a fault from a fixed size on, whatever the level allows. A limit would hide a fault
on an easy level and find one in every fourth blip of the steadiness drill. What was asked and not
done at all comes first, as the reveal says it; then what came first in time.
"""

from __future__ import annotations

from collections.abc import Mapping

from drills.coach import SMALL
from drills.fault import Fault
from drills.kinds import early
from drills.measures.disturbance import RELEASED
from drills.score import WEIGHED, Reason, Verdict

BRACED = "bracing"
"""Topic of a remark on a dip that began with a push."""
DEEP = 11.0
"""Least dip that is a fault, in points, at a blip of `USUAL` size."""
PUSHED = 6.0
"""Least push before a dip that is a fault, in points."""
OVER = 7.0
"""Least rebound after a dip that is a fault, in points."""
AT_REST = 5.0
"""Least distance of the brake at rest from what was held that is a fault, in points."""
AWAY = 6.0
"""Least distance of the brake from its target at the cue that is a fault, in points."""
DRIFTING = 4.0
"""The same of a brake that comes to rest still further on that side, in points."""
BEGAN = 0.6
"""Share of a run's deepest dip that its first must reach for its early roll to be the fault."""
FULL = 90.0
"""Least throttle peak that is a fault, in %."""
LASTS = 0.5
"""Least width of a blip that is a fault, in s."""
WAITS = 0.7
"""Least reaction to the cue that is a fault, in s."""
USUAL = 60.0
"""Throttle peak of a usual blip, in %: a dip grows with the blip that makes it."""
FELL = frozenset({"dip", "mean_dip", "shortfall", "extra_distance"})
"""Names of the measures that say that the brake fell."""
ROSE = frozenset({"surge", "rebound", "excess"})
"""Names of the measures that say that the brake rose."""
OF_REASON: Mapping[Reason, Fault] = {
    Reason.OFF_TARGET: Fault.LOST,
    Reason.HEAVY: Fault.BIG,
    Reason.LONG: Fault.SLOW,
    Reason.LATE: Fault.SLOW,
}
"""Fault behind a blip that was not as asked, by its outcome."""


def of_blip(verdict: Verdict) -> Fault | None:
    """Fault of a blip or a run on a held brake, with clutch or without; None: no fault."""
    if verdict.reason is Reason.LET_GO and verdict.amount("base") < RELEASED:
        return Fault.LOST
    if verdict.reason not in WEIGHED:
        return OF_REASON.get(verdict.reason)
    first = _first(verdict)
    if first is None and _is_away(verdict):
        return Fault.LOST
    return first or _at_rest(verdict) or _during(verdict) or _of_the_throttle(verdict)


def of_easing(verdict: Verdict, *, is_early: bool) -> Fault | None:
    """Fault of the blips on a way down; None: no fault, or no blip.

    `is_early` says whether the brake left before the deepest dip's throttle.
    """
    if verdict.reason not in WEIGHED:
        return OF_REASON.get(verdict.reason)
    if is_early and verdict.amount("dip") >= SMALL:
        return Fault.EARLY_ROLL
    if verdict.amount("early") <= -PUSHED:
        return Fault.BRACING
    if _is_deep(verdict, verdict.amount("dip")):
        return Fault.DIP
    return Fault.LOST if _is_away(verdict) else _of_the_throttle(verdict)


def _first(verdict: Verdict) -> Fault | None:
    """Fault that came before the throttle, or with it: a push, or a brake that left.

    Where both came it is the one that the reveal speaks of: the one over its limit, or the one that
    is as large as the other or larger.
    """
    surge, dip = verdict.amount("surge"), verdict.amount("dip")
    pushed = surge >= PUSHED and surge > verdict.amount("rebound")
    pushed = pushed and verdict.amount("surge_at") < verdict.amount("dip_at")
    left = early.is_early(verdict) or _began_early(verdict)
    if pushed and left:
        rose, fell = "surge" in verdict.over, bool(FELL.intersection(verdict.over))
        pushed = surge >= dip if rose == fell else rose
    return Fault.BRACING if pushed else Fault.EARLY_ROLL if left else None


def _began_early(verdict: Verdict) -> bool:
    """Whether a run began with an early roll about as deep as its deepest dip, of a later blip."""
    first = verdict.amount("dip_1")
    return first >= BEGAN * verdict.amount("dip") and verdict.amount("lead") > early.EARLY_LEAD


def _is_away(verdict: Verdict) -> bool:
    """Whether the brake had left its target before the cue, and went on drifting or not."""
    away, offset = verdict.amount("base_error"), verdict.amount("offset")
    drifting = abs(offset) >= AT_REST and away * offset > 0
    return abs(away) >= (DRIFTING if drifting else AWAY)


def _at_rest(verdict: Verdict) -> Fault | None:
    """Fault of where the brake came to rest, if what it was off beyond that was none."""
    offset = verdict.amount("offset")
    if -offset >= AT_REST and not _is_deep(verdict, verdict.amount("dip") + offset):
        return Fault.LIGHT
    if offset >= AT_REST and verdict.amount("rebound") - offset < OVER:
        return Fault.HEAVY
    return None


def _during(verdict: Verdict) -> Fault | None:
    """Fault of the brake under the blip: its dip or its way back over.

    Where both came it is the one that the reveal speaks of, as of a push and a brake that left.
    """
    rebound, dip = verdict.amount("rebound"), verdict.amount("dip")
    deep, over = _is_deep(verdict, dip), rebound >= OVER
    if deep and over:
        rose = bool(ROSE.intersection(verdict.over))
        fell = bool(FELL.intersection(verdict.over))
        over = rebound >= dip if rose == fell else rose
    if over:
        return Fault.OVERSHOOT
    return Fault.DIP if deep else None


def _is_deep(verdict: Verdict, dip: float) -> bool:
    """Whether a dip (points) is a fault: not if the blip was so big that a usual one had none."""
    return dip * USUAL >= DEEP * max(verdict.amount("peak"), USUAL)


def _of_the_throttle(verdict: Verdict) -> Fault | None:
    """Fault of the blip itself."""
    if verdict.amount("peak") >= FULL:
        return Fault.BIG
    if verdict.amount("width") >= LASTS or verdict.amount("reaction") >= WAITS:
        return Fault.SLOW
    return None
