"""Early roll: whether the brake left before the throttle, so that the dip is of that kind."""

from __future__ import annotations

from drills.measures.disturbance import LEAD_AFTER
from drills.score import Verdict

TOPIC = "early roll"
"""Topic of a remark on an early roll."""
EARLY_LEAD = 0.1
"""Longest time that the brake may leave before the throttle without an early roll, in s."""


def is_early(verdict: Verdict) -> bool:
    """Whether the deepest dip of a blip or run on a held brake began with an early roll.

    Not where that dip has nothing to do with how the brake left: that of a later blip of a run, or
    one that came only after the blip.
    """
    dip = verdict.amount("dip")
    pulse = verdict.amount("end") - verdict.amount("onset")
    led = verdict.measures.get("dip_1", dip) == dip
    led = led and verdict.amount("dip_at") < pulse + LEAD_AFTER / 1000
    return led and verdict.amount("lead") > EARLY_LEAD
