"""One plain sentence from the measures of a repetition: what the foot did, and what to change."""

from __future__ import annotations

from collections.abc import Mapping

from drills.score import Reason, Verdict

Measures = Mapping[str, float | None]

SMALL = 2.0
"""%, a movement of the brake too small to speak of."""

NOT_COUNTED = {
    Reason.ANTICIPATION: "The throttle came before the cue could be answered: wait for it.",
    Reason.NO_TARGET: "The brake never came to rest on the target, so nothing was measured.",
    Reason.GAP: "The pedals could not be read for a moment, so this cannot be judged.",
    Reason.UNPLUGGED: "The pedals were unplugged.",
    Reason.FOCUS_LOST: "The window lost the focus.",
    Reason.LEFT: "You left before the end.",
}
"""Why a repetition counts for nothing, for the person."""


def sentence(kind: str, verdict: Verdict) -> str:
    """What to tell the person about one repetition of a drill kind."""
    if verdict.reason in NOT_COUNTED:
        return NOT_COUNTED[verdict.reason]
    if verdict.reason is Reason.NO_BLIP:
        return "No blip came in time: one short stab of the throttle while the brake stays on."
    if verdict.reason is Reason.NOT_SCORED:
        return "There was too little held brake before the blip to measure it against."
    if kind == "hold":
        return _hold(verdict.measures)
    told = disturbance(verdict.measures)
    if verdict.reason is Reason.EXTRA_BLIP:
        return f"One blip was asked and more came. {told}"
    return told


def disturbance(measures: Measures) -> str:
    """What a blip, or a run of them, did to the brake."""
    dip, rebound = measures["dip"] or 0.0, measures["rebound"] or 0.0
    surge = measures["surge"] or 0.0
    if dip < SMALL and surge < SMALL:
        return "The brake stayed where it was through the blip."
    if dip >= SMALL:
        moved = f"The brake fell {dip:.0f} % as the throttle went in"
        if rebound >= SMALL:
            moved += f" and came back {rebound:.0f} % over"
    else:
        moved = f"The brake rose {surge:.0f} % with the throttle: the whole foot pushed"
    return f"{moved}; {_steady(measures['settle'])}."


def _steady(settle: float | None) -> str:
    if settle is None:
        return "it did not come back to rest"
    if settle == 0.0:
        return "it stayed close enough all the way"
    return f"it was steady again after {settle:.2f} s"


def _hold(measures: Measures) -> str:
    bias, spread = measures["constant_error"] or 0.0, measures["variable_error"] or 0.0
    drift = measures["drift"] or 0.0
    side = "heavy" if bias > 0 else "light"
    where = f"{abs(bias):.1f} % {side}" if abs(bias) >= SMALL / 2 else "on the target"
    moved = f"The brake sat {where} and wandered {spread:.1f} % about itself"
    if abs(drift) >= SMALL / 4:
        way = "pressing harder" if drift > 0 else "easing off"
        return f"{moved}; it kept {way}, {abs(drift):.1f} % a second."
    return f"{moved}."
