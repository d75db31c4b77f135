"""What is said of one squeeze of the brake: where it went, how it settled, what to attend to."""

from __future__ import annotations

from collections.abc import Mapping

from drills.coach import Said
from drills.kinds.clean_words import THE_SAME, clean
from drills.level import Level
from drills.remark import Remark
from drills.score import Reason, Verdict

ONCE = (
    "Squeeze once, then let the pedal be quiet.",
    "Feel the weight arrive, and stay with it.",
)
"""Cues for a brake that did not come to rest."""
FIRMLY = (
    "One firm squeeze, no searching.",
    "Go straight to the weight.",
)
"""Cues for a brake that went on slowly."""
AT_THE_CUE = (
    "Let the cue press the pedal.",
    "Rest on the pedal, and expect the cue.",
)
"""Cues for a squeeze that began late."""

NOT_PRESSED: Said = (
    ("The brake was not pressed.", "The cue went by without a squeeze."),
    AT_THE_CUE,
)
"""A brake that was not pressed at all."""
FAULTS: Mapping[str, Said] = {
    "overshoot": (
        (
            "The brake went past its target.",
            "The squeeze overshot.",
            "The brake went on beyond the weight.",
        ),
        (
            "Aim for the weight, and stop as it comes.",
            "Slow down as the weight arrives.",
            "Feel the target coming, then stay.",
        ),
    ),
    "ended light": (
        (
            "The brake ended lighter than its target.",
            "It came to rest too light.",
            "At the end some weight was missing.",
        ),
        ("Feel for the full weight, then stay.", "Press on until the weight is right."),
    ),
    "ended heavy": (
        (
            "The brake ended heavier than its target.",
            "It came to rest too heavy.",
            "At the end there was too much weight.",
        ),
        ("Stop at the weight, and add nothing.", "Feel how light the target is."),
    ),
    "late": (
        ("The squeeze was slow to follow the cue.", "The cue waited too long for the squeeze."),
        AT_THE_CUE,
    ),
    "short": (
        ("The brake stayed well short of its target.", "The weight was never reached."),
        ("Press on until the weight is there.", "Squeeze firmly, all the way."),
    ),
    "slow": (
        ("The brake went on slowly.", "The weight was slow to build."),
        FIRMLY,
    ),
    "settled late": (
        (
            "The brake was slow to settle.",
            "It took too long to settle at its weight.",
            "The brake came to rest late.",
        ),
        ONCE,
    ),
    "settled never": (
        ("The brake never settled.", "The brake found no rest at its weight."),
        ONCE,
    ),
    "settled light": (
        ("The brake never settled: it ended too light.", "Not settled, and too light at the end."),
        ("Feel for the full weight, then stay.", "Press on until the weight is right."),
    ),
    "settled heavy": (
        ("The brake never settled: it ended too heavy.", "Not settled, and too heavy at the end."),
        ("Stop at the weight, and add nothing.", "Feel how light the target is."),
    ),
    "late to settle": (
        (
            "It settled late, as the squeeze began late.",
            "A late start made it late to settle.",
        ),
        AT_THE_CUE,
    ),
    "slow to settle": (
        (
            "It settled late, as the weight built slowly.",
            "A slow squeeze made it late to settle.",
        ),
        FIRMLY,
    ),
}
"""Faults of a squeeze."""
CLEAN: Mapping[str, Said] = {
    "not over": (
        ("The brake went no further than its target.", "The squeeze never went past."),
        THE_SAME,
    ),
    "over": (
        ("The brake went over its target, not too far.", "Some overshoot, inside its limit."),
        ("Slow down as the weight arrives.", "Stop as the weight comes."),
    ),
    "ended on it": (
        ("The brake ended right on its target.", "It came to rest where it should."),
        THE_SAME,
    ),
    "ended light": (
        ("The brake ended a shade light, near enough.", "At rest it was light, but near enough."),
        ("Feel for the full weight, then stay.", "Press on until the weight is right."),
    ),
    "ended heavy": (
        ("The brake ended a shade heavy, near enough.", "At rest it was heavy, but near enough."),
        ("Stop at the weight, and add nothing.", "Feel how light the target is."),
    ),
    "settle": (
        ("The brake settled in time.", "It came to rest soon enough."),
        ("Go there in one move, and stay.", "Let the pedal go quiet even sooner."),
    ),
    "reaction": (
        ("The squeeze followed its cue in time.", "The brake answered the cue in time."),
        ("Let the cue press the pedal.", "Stay as ready for the next."),
    ),
    "rise": (
        ("The weight came on quickly enough.", "The brake went on fast enough."),
        ("One firm squeeze, no searching.", "Go straight to the weight."),
    ),
}
"""Clean squeezes, by the measure nearest its limit."""
ON_IT = 0.5
"""Distance from the target that the figure shows as none, in points."""


def comment(level: Level, verdict: Verdict) -> Remark:
    """Remark on a squeeze that counts."""
    if verdict.reason is Reason.NOT_PRESSED:
        return Remark(verdict.reason.value, *NOT_PRESSED)
    if verdict.clean:
        return clean(verdict.worst, CLEAN[_clean(verdict)])
    return Remark(verdict.worst, *FAULTS[_fault(level, verdict)])


def _clean(verdict: Verdict) -> str:
    name = verdict.worst
    value = verdict.amount(name)
    if name == "overshoot":
        return "over" if value >= ON_IT else "not over"
    if name != "offset":
        return name
    if abs(value) < ON_IT:
        return "ended on it"
    return "ended light" if value < 0 else "ended heavy"


def _fault(level: Level, verdict: Verdict) -> str:
    match verdict.worst:
        case "overshoot":
            return "overshoot"
        case "offset":
            return "ended light" if verdict.amount("offset") < 0 else "ended heavy"
        case "reaction":
            return "late"
        case "rise":
            return "short" if verdict.measures.get("rise") is None else "slow"
    return _settle(level, verdict)


def _settle(level: Level, verdict: Verdict) -> str:
    """Fault of a brake that was not settled in time; being late to the target is named first."""
    at_rest, limit = verdict.amount("offset"), level.limits["settle"]
    settle, reaction = verdict.measures.get("settle"), verdict.amount("reaction")
    rise = verdict.measures.get("rise")
    if settle is None:
        if abs(at_rest) > level.band:
            return "settled heavy" if at_rest > 0 else "settled light"
        return "settled never"
    if rise is not None and reaction + rise >= limit:
        return "late to settle" if reaction > rise else "slow to settle"
    return "settled late"


def lean(level: Level, verdict: Verdict) -> float | None:
    """Bubble after a squeeze: heavy where the brake passed its target or ended above it, light
    where it ended below."""
    if verdict.reason is Reason.NOT_PRESSED:
        return -1.0
    if verdict.clean:
        return 0.0
    if verdict.void or not verdict.measures:
        return None
    return LEANS[_fault(level, verdict)]


LEANS: Mapping[str, float | None] = {
    "overshoot": 1.0,
    "ended light": -1.0,
    "ended heavy": 1.0,
    "late": 0.0,
    "short": -1.0,
    "slow": 0.0,
    "settled late": None,
    "settled never": None,
    "settled light": -1.0,
    "settled heavy": 1.0,
    "late to settle": None,
    "slow to settle": None,
}
"""Bubble after each fault of a squeeze."""
