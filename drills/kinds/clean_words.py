"""What is said of a clean blip on a held brake: the measure nearest its limit, and one nudge.

Every sentence is true of its measure from nothing up to the limit.
"""

from __future__ import annotations

from collections.abc import Mapping

from drills.coach import SMALL, Said
from drills.kinds import early
from drills.kinds.blip_faults import DURING
from drills.kinds.blip_words import side, when
from drills.remark import Remark
from drills.score import Verdict

THE_SAME = ("The same again.", "Keep just this feel.", "Do exactly that once more.")
"""Nudges where there is next to nothing left to change."""
AS_HEAVY = ("Stay as heavy all through the next.", "Aim for no dip at all.")
"""Nudges after a small dip."""

LITTLE, JUST = 1 / 3, 0.8
"""Shares of its limit: a dip up to the first is small, one from the second on only just clean."""

HARDLY: Mapping[str, tuple[str, ...]] = {
    "dip": (
        "The brake hardly dipped.",
        "The throttle cost next to no brake.",
        "Next to no brake was lost.",
    ),
    "mean_dip": ("On average the brake hardly dipped.", "The average dip was next to nothing."),
    "surge": (
        "The brake hardly rose.",
        "Next to nothing was added to the brake.",
        "The blip added next to no brake.",
    ),
    "rebound": (
        "The brake hardly went over what was held.",
        "The way back stopped at its weight.",
    ),
    "offset": (
        "The brake ended very near where it was held.",
        "It came to rest at nearly its old weight.",
        "The brake finished almost where it began.",
    ),
    "swing": ("The brake hardly moved at all.", "From least to most was next to nothing."),
    "base_error": ("In the dark you kept the target.", "The weight in the dark was right."),
}
"""Clean sentences on measures in points that stayed too small to speak of."""
DIPS: Mapping[str, Said] = {
    "before": (
        (
            "What dip there was came before the throttle.",
            "The brake was lightest ahead of the throttle.",
        ),
        ("Stay as heavy until the throttle moves.", "Start the blip at full weight."),
    ),
    "during": (
        (
            "Some brake went with the throttle, not too much.",
            "The dip came with the throttle, inside its limit.",
            "The throttle took some brake, within its limit.",
        ),
        AS_HEAVY,
    ),
    "little": (
        (
            "A little brake went with the throttle.",
            "The throttle took only a little brake.",
            "The dip was small, and came with the throttle.",
        ),
        ("Aim for no dip at all.", "The same, a shade heavier through the blip."),
    ),
    "just": (
        (
            "Some brake went with the throttle, only just inside.",
            "Only just inside: the throttle took brake.",
        ),
        ("Stay heavier as the throttle moves.", "Hold the brake, and add the throttle to it."),
    ),
    "after": (
        (
            "What dip there was came after the blip.",
            "Some brake went once the throttle was closed.",
        ),
        ("Stay as heavy as the throttle closes.", "Keep the weight once the blip is over."),
    ),
    "early": (
        (
            "Some brake left before the throttle came.",
            "The brake began to go before the throttle.",
        ),
        ("Keep it heavy until the throttle moves.", "Take the full weight into the blip."),
    ),
}
"""A clean dip, by when the brake was lowest, by its size with the throttle, or an early roll."""
OFFSETS: Mapping[str, Said] = {
    "light": (
        (
            "The brake ended on the light side, near enough.",
            "It came back a little short of its weight.",
        ),
        ("Come back to the full weight.", "Let the end feel like the beginning."),
    ),
    "heavy": (
        (
            "The brake ended on the heavy side, near enough.",
            "It came back to more than its old weight.",
        ),
        ("Come back to the same weight, no more.", "Let the end feel like the beginning."),
    ),
}
"""A brake that ended within its limit of where it was held, by its side."""
BASES: Mapping[str, Said] = {
    "light": (
        ("In the dark it was light, but near enough.", "The target was held on its light side."),
        ("Keep the full weight in the dark.", "Feel for the target before the dark."),
    ),
    "heavy": (
        ("In the dark it was heavy, but near enough.", "The target was held on its heavy side."),
        ("Add nothing in the dark.", "Feel for the target before the dark."),
    ),
}
"""A brake held within its limit of the target, by its side."""
QUIET_IN_TIME: Said = (
    (
        "In time, and the brake hardly moved.",
        "In time, and next to no brake was lost.",
        "The cue was answered, the brake left alone.",
    ),
    THE_SAME,
)
"""A blip in time with next to no movement of the brake."""
SETTLED: Said = (
    ("The brake stayed settled through the blip.", "From the throttle on, the brake stayed put."),
    THE_SAME,
)
"""A brake that never left its band after the throttle moved."""
FIXED: Mapping[str, Said] = {
    "mean_dip": (
        ("On average the dip stayed inside its limit.", "Blip for blip, not too much was lost."),
        AS_HEAVY,
    ),
    "surge": (
        (
            "The brake rose, but not too far.",
            "Some weight was added, inside its limit.",
        ),
        ("Let the throttle go in, the brake unmoved.", "Aim to add nothing to the brake."),
    ),
    "rebound": (
        (
            "The brake went over what was held, not too far.",
            "On its way back it went over, inside the limit.",
        ),
        ("Come back to the same weight, and stop.", "Let the pedal return by itself."),
    ),
    "settle": (
        ("The brake settled in time.", "It came to rest soon enough."),
        ("Come back once, and stay.", "Let the pedal go quiet even sooner."),
    ),
    "shortfall": (
        ("The brake was not light for too long.", "Little enough brake went missing."),
        AS_HEAVY,
    ),
    "excess": (
        ("The brake was not heavy for too long.", "Little enough brake was added."),
        ("Aim to add nothing to the brake.", "Keep the pedal only as heavy as before."),
    ),
    "extra_distance": (
        ("It would have cost little enough road.", "The stop stayed short enough."),
        AS_HEAVY,
    ),
    "swing": (
        ("The brake moved, but not too widely.", "From least to most it stayed inside."),
        ("Keep the pedal even quieter.", "Feel one weight all through."),
    ),
    "coupling": (
        ("Brake and throttle kept apart well enough.", "The brake followed the throttle little."),
        AS_HEAVY,
    ),
    "reaction": (
        (
            "The brake stayed inside, the blip came in time.",
            "The throttle answered the cue in time.",
            "In time, with the brake inside its limits.",
            "The blip followed its cue in time.",
        ),
        ("Keep the brake as quiet.", "Let the cue set off the throttle.", "The same again."),
    ),
    "width": (
        ("The blip was short enough.", "In and out, and in time."),
        ("Make it shorter still.", "One quick touch, then nothing."),
    ),
    "rise": (
        ("The throttle went in quickly enough.", "The start of the blip was sharp enough."),
        ("Make its start sharper still.", "Let the throttle jump."),
    ),
    "fall": (
        ("The throttle came out quickly enough.", "The end of the blip was sharp enough."),
        ("Make its end sharper still.", "Let the throttle drop."),
    ),
}
"""Clean sentences that are the same whatever else the brake did, by the measure."""


def topic(name: str) -> str:
    """Topic of a clean remark on a measure: not that of a fault, which counts its own cues."""
    return f"{name}, clean"


def clean(name: str, said: Said) -> Remark:
    """Remark on a clean repetition, about a measure; its nudge changes every time."""
    return Remark(topic(name), *said, stays=1)


def praise(verdict: Verdict, limits: Mapping[str, float]) -> Remark:
    """Remark on a clean blip or run by the measure that it is told by."""
    return clean(verdict.worst, _words(verdict.worst, verdict, limits))


def _dip(verdict: Verdict, limit: float) -> Said:
    """Words on a clean dip that was no early roll."""
    at, share = when(verdict.amount("dip_at"), verdict), verdict.amount("dip") / limit
    if at != DURING:
        return DIPS[at]
    return DIPS["little" if share <= LITTLE else "just" if share >= JUST else at]


def _words(name: str, verdict: Verdict, limits: Mapping[str, float]) -> Said:
    if name in HARDLY and abs(verdict.amount(name)) < SMALL:
        return HARDLY[name], THE_SAME
    match name:
        case "dip" if early.is_early(verdict):
            return DIPS["early"]
        case "dip":
            return _dip(verdict, limits[name])
        case "offset":
            return OFFSETS[side(verdict, name)]
        case "base_error":
            return BASES[side(verdict, name)]
        case "reaction" if max(verdict.amount("dip"), verdict.amount("surge")) < SMALL:
            return QUIET_IN_TIME
        case "settle" if not verdict.amount(name):
            return SETTLED
    return FIXED[name]
