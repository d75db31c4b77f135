"""Words that drill kinds share: the prompt, what the brake did and what the foot should change.

A sentence names one thing: the measure furthest over its limit. It gives the value of that
measure where that is in points, and no other number that the figures show.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from drills.digits import apart
from drills.measures.disturbance import LEAD_AFTER, RELEASED
from drills.score import Reason, Verdict
from drills.task import Task

Limits = Mapping[str, float]

SMALL = 2.0
"""Movement of the brake too small for the sentence after a repetition to mention, in points."""
LITTLE = 10.0
"""Largest dip of the brake that praise calls "a little", in points."""
EARLY_LEAD = 0.1
"""Longest time that the brake may leave before the throttle without an early roll, in s."""
LEAD_STEP = 0.05
"""Step in which the time that the brake left before the throttle is told, in s: pedals that can be
judged report at least every 0.040 s."""

NOT_COUNTED = {
    Reason.NO_TARGET: "The pedals never came to rest where this begins, so nothing was measured.",
    Reason.GAP: "The pedals could not be read for a moment, so this cannot be judged.",
    Reason.UNPLUGGED: "The pedals were unplugged.",
    Reason.FOCUS_LOST: "The window lost the focus.",
    Reason.LEFT: "You left before the cue.",
    Reason.SELDOM: "The pedals report too seldom to judge this: try another USB port.",
    Reason.AT_END: "The brake is at the end of its scale: set up the pedals anew.",
    Reason.NOT_MOVED: "The brake stayed on one value, stiller than any foot: check its cable.",
    Reason.STALLED: (
        "The {pedal} stopped reporting for a moment: give the pedals a USB port of their own."
    ),
    Reason.JUMPED: "The {pedal} jumped to and fro faster than any foot: check its cable.",
}
"""Sentence shown after a void repetition, by its outcome; `pedal` is the one that made it so."""


@dataclass(frozen=True)
class Prompt:
    """Words on the screen before the dark: what the repetition asks."""

    asked: str
    """What to do with the pedal, in a word or two, such as "Brake to"."""
    value: str
    """The value to bring the pedal to, in large type: "60 %"."""
    then: str
    """One line on what comes once the screen is dark."""
    find: str = "Find it, then keep it there"
    """A few words while the pedals are not yet where the repetition begins."""
    keep: str = "Keep it there"
    """A few words while the pedals are where the repetition begins."""


def brake_to(task: Task, then: str) -> Prompt:
    """Prompt of a repetition in which the brake is held; `then` says what comes in the dark."""
    return Prompt("brake", f"{task.target:.0f}", then)


def not_counted(verdict: Verdict, pedal: str = "throttle") -> str:
    """Sentence shown after a void repetition; `pedal` is the one that answers its cue."""
    if verdict.reason is not Reason.ANTICIPATION:
        return NOT_COUNTED[verdict.reason].format(pedal=verdict.pedal or "pedal")
    reaction = verdict.measures.get("reaction")
    if reaction is None:
        return f"The {pedal} came before the cue could be answered: wait for it."
    if reaction >= 0:
        return f"The {pedal} came with the cue, too soon to be an answer to it: wait for it."
    if round(-reaction, 1) == 0.0:
        return f"The {pedal} came just before the cue: wait for it."
    return f"The {pedal} came {-reaction:.1f} s before the cue: wait for it."


def disturbance(verdict: Verdict, limits: Limits) -> str:
    """Sentence on what a blip or a run did to the brake: praise where the brake stayed clean."""
    if not verdict.over:
        return _praise(verdict)
    name, early = verdict.worst, lead_words(verdict)
    if name in _EARLY and early:
        return f"The brake left {early} before the throttle and {_EARLY[name]}: {AT_ONCE}."
    fixed = _FIXED.get(name)
    return _WITH_VALUE[name](verdict, limits[name]) if fixed is None else fixed


def lead_words(verdict: Verdict) -> str:
    """How long before the throttle the brake left, such as "0.25 s"; empty for no early roll.

    Empty too where the deepest dip has nothing to do with it: that of a later blip of a run, or
    one that came only after the blip.
    """
    lead, dip = verdict.amount("lead"), verdict.amount("dip")
    pulse = verdict.amount("end") - verdict.amount("onset")
    led = verdict.measures.get("dip_1", dip) == dip
    led = led and verdict.amount("dip_at") < pulse + LEAD_AFTER / 1000
    told = LEAD_STEP * round(lead / LEAD_STEP)
    return f"{told:.2f} s" if led and lead > EARLY_LEAD else ""


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
    name = verdict.worst
    if name in _SIGNED:
        return math.copysign(1.0, verdict.amount(name))
    if name in _HEAVY:
        return 1.0
    if name in _OF_THROTTLE:
        return 0.0
    return -1.0 if name in _LIGHT else None


_SIGNED = ("offset", "base_error", "coupling")
_LIGHT = ("dip", "mean_dip", "shortfall", "extra_distance")
_HEAVY = ("surge", "rebound", "excess")
_OF_THROTTLE = ("reaction", "width", "rise", "fall")


def _praise(verdict: Verdict) -> str:
    dip, surge, early = verdict.amount("dip"), verdict.amount("surge"), lead_words(verdict)
    if dip < SMALL and surge < SMALL:
        return "Still: the brake stayed where it was through the blip."
    if early:
        return f"Clean: the brake left {early} before the throttle, within what this level allows."
    back = abs(verdict.amount("offset")) < SMALL
    if dip >= SMALL and verdict.amount("rebound") < SMALL and back:
        gave = "gave a little" if dip <= LITTLE else "gave no more than it may"
        return f"Clean: the brake {gave} and came straight back."
    if back:
        return "Clean: the brake came back to where it was held."
    return "Clean: the brake stayed within what this level allows."


def _dip(verdict: Verdict, limit: float) -> str:
    dip, base = verdict.amount("dip"), verdict.amount("base")
    when, early = _when(verdict), lead_words(verdict)
    if base - dip < RELEASED and early:
        return (
            f"The foot left the brake {early} before the throttle and came off altogether: "
            "keep the ball of the foot down while its edge rolls."
        )
    if base - dip < RELEASED:
        return (
            f"The foot came off the brake altogether {when}: "
            "keep the ball of the foot down while its edge rolls."
        )
    if early:
        fell = _written(dip, limit)
        return f"The brake left {early} before the throttle and fell {fell} points: {AT_ONCE}."
    if verdict.amount("dip_at") < 0:
        return (
            f"The brake fell {_written(dip, limit)} points {when}: "
            "roll about the ball of the foot, do not lift to turn."
        )
    change = _COME_BACK if when == _AFTER else _ROLL
    return f"The brake fell {_written(dip, limit)} points {when}: {change}."


def _when(verdict: Verdict) -> str:
    """When the brake was lowest, in words, relative to the movement of the throttle."""
    at = verdict.amount("dip_at")
    if at < 0:
        return "before the throttle moved"
    pulse = verdict.amount("end") - verdict.amount("onset")
    return "as the throttle went in" if at <= pulse else _AFTER


def _surge(verdict: Verdict, limit: float) -> str:
    surge = _written(verdict.amount("surge"), limit)
    if verdict.amount("dip") < SMALL:
        return f"The brake rose {surge} points with the throttle, the whole foot pushed: {_STAY}."
    if verdict.amount("surge_at") < verdict.amount("dip_at"):
        return (
            f"The brake rose {surge} points before it fell: "
            "do not brace for the blip, let the foot roll from where it rests."
        )
    return _over(surge)


def _rebound(verdict: Verdict, limit: float) -> str:
    rebound = _written(verdict.amount("rebound"), limit)
    if verdict.amount("dip") < SMALL:
        return f"The brake rose {rebound} points with the blip: {_STAY}."
    return _over(rebound)


def _over(points: str) -> str:
    return (
        f"The brake came back {points} points over where it was held: "
        "give back only what the roll took."
    )


def _offset(verdict: Verdict, limit: float) -> str:
    offset = verdict.amount("offset")
    points = _written(abs(offset), limit)
    if offset < 0:
        return (
            f"The brake ended {points} points lighter than it was held: "
            "press back to the same weight as the throttle closes."
        )
    return (
        f"The brake ended {points} points heavier than it was held: "
        "let the roll come out without pressing on."
    )


def _settle(verdict: Verdict, _: float) -> str:
    if verdict.measures.get("settle") is None:
        return (
            "The brake did not come to rest where it was held: "
            "let the foot come back once, and stay."
        )
    return "The brake was slow to come to rest again: let the foot come back once, and stay."


def _base_error(verdict: Verdict, limit: float) -> str:
    error = verdict.amount("base_error")
    side = "heavier" if error > 0 else "lighter"
    return (
        f"The brake was held {_written(abs(error), limit)} points {side} than the target: "
        "feel for it before the dark, then keep that weight."
    )


def _swing(verdict: Verdict, limit: float) -> str:
    swing = _written(verdict.amount("swing"), limit)
    return f"The brake swung {swing} points from least to most: {_ROLL}."


def _mean_dip(verdict: Verdict, limit: float) -> str:
    dip = _written(verdict.amount("mean_dip"), limit)
    return f"The brake fell {dip} points a blip: {_ROLL}."


def _coupling(verdict: Verdict, _: float) -> str:
    if verdict.amount("coupling") < 0:
        return f"The brake fell and came back with the throttle: {_ROLL}."
    return f"The brake rose and came back with the throttle: {_STAY}."


AT_ONCE = "roll and stab in one movement"
"""What to change after an early roll."""
_EARLY = {
    "shortfall": "was light for too long",
    "extra_distance": "cost too much road",
}
_AFTER = "after the blip"
_ROLL = "roll on the ball, keep it pushing"
_COME_BACK = "roll back over the ball, do not lift it"
_STAY = "let the ball stay and only the edge roll"
_WITH_VALUE = {
    "dip": _dip,
    "mean_dip": _mean_dip,
    "surge": _surge,
    "rebound": _rebound,
    "swing": _swing,
    "offset": _offset,
    "settle": _settle,
    "base_error": _base_error,
    "coupling": _coupling,
}
_FIXED = {
    "shortfall": f"The brake was light for too long through the blip: {_ROLL}.",
    "excess": "The brake was heavy for too long through the blip: give back what you pressed on.",
    "extra_distance": f"The blip would have cost too much road: {_ROLL}.",
    "reaction": "The blip was slow to follow the cue: have the foot ready to roll.",
    "width": "The throttle stayed on too long: one short stab, in and out.",
    "rise": "The throttle went in slowly: stab it.",
    "fall": "The throttle came out slowly: let it go at once.",
}


def _written(value: float, limit: float) -> str:
    """A value over its limit as text, with as many digits as show that it is over."""
    return apart(value, limit)[0]
