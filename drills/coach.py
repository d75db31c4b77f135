"""The words and bounds that kinds of drill share."""

from __future__ import annotations

from collections.abc import Mapping

from drills.score import Reason

Measures = Mapping[str, float | None]

SMALL = 2.0
"""%, a movement of the brake too small to speak of."""

NOT_COUNTED = {
    Reason.ANTICIPATION: "The throttle came before the cue could be answered: wait for it.",
    Reason.NO_TARGET: "The pedals never came to rest where this begins, so nothing was measured.",
    Reason.GAP: "The pedals could not be read for a moment, so this cannot be judged.",
    Reason.UNPLUGGED: "The pedals were unplugged.",
    Reason.FOCUS_LOST: "The window lost the focus.",
    Reason.LEFT: "You left before the end.",
}
"""Why a repetition counts for nothing, for the person."""


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
