"""Words of a coach on a fault: how often it came, and a cue for the next blip."""

from __future__ import annotations

from drills.fault import Fault
from drills.kinds import asked_words, blip_faults
from drills.score import Reason
from engine.practice.diagnosis import FaultShare

_SENTENCES = {
    Fault.EARLY_ROLL: "the brake leaves before the throttle.",
    Fault.BRACING: "the brake is pressed harder as the blip comes.",
    Fault.DIP: "the brake falls with the throttle.",
    Fault.OVERSHOOT: "the brake comes back too heavy.",
    Fault.LIGHT: "the brake ends lighter than it was held.",
    Fault.HEAVY: "the brake ends heavier than it was held.",
    Fault.BIG: "the throttle goes in too far.",
    Fault.SLOW: "the throttle stays on too long, or comes late.",
    Fault.LOST: "the brake leaves its target in the dark.",
}
_SAID = {
    Fault.EARLY_ROLL: blip_faults.EARLY,
    Fault.BRACING: blip_faults.SURGES["alone during"],
    Fault.DIP: blip_faults.DIPS[blip_faults.DURING],
    Fault.OVERSHOOT: blip_faults.REBOUNDS["after the dip"],
    Fault.LIGHT: blip_faults.OFFSETS["light"],
    Fault.HEAVY: blip_faults.OFFSETS["heavy"],
    Fault.BIG: asked_words.SHAPES[Reason.HEAVY],
    Fault.SLOW: asked_words.SHAPES[Reason.LONG],
    Fault.LOST: asked_words.OFF_TARGET["light"],
}
"""Words of the reveal on each fault: the coach gives one of its cues."""


def fault_sentence(share: FaultShare) -> str:
    """How often a fault came and what the foot did.

    "14 of your last 40: the brake leaves before the throttle."
    """
    return f"{share.times} of your last {share.of}: {_SENTENCES[share.fault]}"


def fault_cue(fault: Fault) -> str:
    """What to attend to in the next blip, in terms of what pedals and car do."""
    _, cues = _SAID[fault]
    return cues[0]
