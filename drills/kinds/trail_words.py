"""Choice of the words on easing off, the figure for what was not done, and the bubble."""

from __future__ import annotations

from drills.coach import SMALL, Said
from drills.fault import Fault
from drills.kinds import asked_words, blip_words, cause, early
from drills.kinds.clean_words import clean, praise
from drills.kinds.trail_faults import (
    BRACED,
    CAME_OFF,
    CLEAN,
    EARLY,
    FAULTS,
    GO_ON,
    ON_AVERAGE,
    SHORTCOMINGS,
    UNASKED,
    UPWARD,
)
from drills.level import Level
from drills.measures.early import EARLY_LEAST
from drills.measures.easing import EASED, EASED_LEAST, LET_GO
from drills.remark import Remark
from drills.score import WEIGHED, Reason, Verdict

STRAIGHT = 3.0
"""Largest distance from the ramp that praise calls straight, in points."""
BY_PACE = 0.8
"""Least share of the largest distance from the ramp that a wrong pace must explain to be named."""
LATE_START = 1.1
"""Latest start of easing off with blips, in s from the cue, that still comes before a blip."""
ALIKE = 1.0
"""Difference between two dips up to which they count as alike, in points."""


def comment(level: Level, verdict: Verdict) -> Remark:
    """Remark on an easing off that counts: what the brake did, and what to attend to."""
    reason = verdict.reason
    if reason is Reason.EXTRA_BLIP and not level.own["blips"]:
        return Remark(reason.value, *UNASKED)
    if reason is Reason.LET_GO and verdict.measures:
        return Remark(reason.value, *CAME_OFF)
    if reason in SHORTCOMINGS:
        return Remark(reason.value, *SHORTCOMINGS[reason])
    if reason not in WEIGHED:
        return asked_words.not_as_asked(verdict)
    return _praise(level, verdict) if verdict.clean else _fault(level, verdict)


def _praise(level: Level, verdict: Verdict) -> Remark:
    name = verdict.worst
    value = verdict.amount(name)
    match name:
        case "dip" if value < SMALL:
            return clean(name, CLEAN["hardly dipped"])
        case "dip" if is_early(verdict):
            return clean(name, CLEAN["early"])
        case "dip":
            return clean(name, _clean_dip(verdict))
        case "surge" if value < SMALL:
            return clean(name, CLEAN["hardly rose"])
        case "ramp_worst" | "ramp_error" if verdict.amount("ramp_worst") <= STRAIGHT:
            words = "straight" if name == "ramp_worst" else "straight on average"
            return clean(name, CLEAN[words])
        case "reversals" if not value:
            return clean(name, CLEAN["never up"])
    return clean(name, CLEAN[name]) if name in CLEAN else praise(verdict, level.limits)


def _clean_dip(verdict: Verdict) -> Said:
    place = _deeper(verdict)
    if not place:
        return CLEAN["dipped"]
    other = "first" if place == "second" else "second"
    return (
        (
            f"The {place} blip took more than the {other}.",
            f"Most brake went with the {place} of the two blips.",
        ),
        (f"Ease as smoothly under the {place} one.", "Make both cost the same."),
    )


def _fault(level: Level, verdict: Verdict) -> Remark:
    name = verdict.worst
    if name == "dip":
        if is_early(verdict):
            return Remark(early.TOPIC, *EARLY)
        if cause.of_easing(verdict, is_early=False) is Fault.BRACING:
            return Remark(cause.BRACED, *BRACED)
        return Remark(name, *_dip(verdict))
    words = _named(level, verdict)
    if words not in FAULTS:
        return blip_words.fault(verdict)
    sentences, cues = FAULTS[words]
    own = {"ramp_error": ON_AVERAGE, "reversals": UPWARD}.get(name, {})
    return Remark(name, own.get(words, sentences), cues)


def _named(level: Level, verdict: Verdict) -> str:
    """Name of the words on a fault that is not a dip; the measure's own for one of a blip."""
    name = verdict.worst
    value = verdict.measures.get(name)
    match name:
        case "ramp_worst" | "ramp_error" | "reversals" if value is None:
            return "unjudged with blips" if level.own["blips"] else "unjudged"
        case "lateness":
            return "too late" if (value or 0.0) > 0 else "too soon"
        case "release_time" if value is None:
            return "never off"
        case "ramp_worst" | "ramp_error":
            return _way(level, verdict)
    return name


def _dip(verdict: Verdict) -> Said:
    place = _deeper(verdict)
    blip = f"the {place} blip" if place else "a blip"
    return (
        (
            f"The brake fell under its way down at {blip}.",
            f"{blip.capitalize()} took too much brake.",
            f"At {blip} the way down sagged.",
        ),
        GO_ON,
    )


def is_early(verdict: Verdict) -> bool:
    """Whether the brake left its way down before the throttle of the deepest dip."""
    return verdict.amount("early") > EARLY_LEAST


def _deeper(verdict: Verdict) -> str:
    """Which of two blips took more brake: "first" or "second"; empty for one, or both alike."""
    first, second = (verdict.measures.get(name) for name in ("dip_1", "dip_2"))
    if first is None or second is None or abs(first - second) <= ALIKE:
        return ""
    return "second" if second > first else "first"


def _way(level: Level, verdict: Verdict) -> str:
    """Name of the words on a brake that left the ramp: its pace where that explains most.

    A pace is off by what the ramp still had to go when the brake was off, or by how far it was
    past its end. A brake that was lower where the ramp began, after a blip, is not told its pace;
    one that fell between two reports is a little lower.
    """
    ease, base = level.own["ease"], verdict.amount("base")
    asked = base - verdict.amount("base_error")
    begins = base - max(EASED_LEAST, EASED * asked)
    worst, taken = verdict.amount("ramp_worst"), verdict.measures.get("release_time")
    if taken is None:
        return "on to the end"
    if level.own["blips"] and verdict.amount("release_start") > LATE_START:
        return "not straight"
    too_early = begins - LET_GO - asked * taken / ease
    if BY_PACE * worst <= too_early <= worst / BY_PACE:
        return "off too early"
    if -too_early >= BY_PACE * worst:
        return "on too long"
    return "not straight"


def missed(level: Level, verdict: Verdict) -> tuple[str, str, str] | None:
    """Figure for what an easing off asked and was not done, as in `Kind.missed`."""
    count = round(level.own["blips"])
    asked = {0: "no blip was asked", 1: "one blip was asked"}.get(
        count, "one to each click was asked"
    )
    return {
        Reason.NOT_EASED: ("Brake", "not eased off", "down to nothing was asked"),
        Reason.NO_BLIP: ("Blips", "none", asked),
        Reason.FEW_BLIPS: ("Blips", "too few", asked),
        Reason.EXTRA_BLIP: ("Blips", "too many", asked),
        Reason.CUT_SHORT: ("Brake", "off too soon", "on beyond the blip was asked"),
        Reason.NOT_SCORED: ("Blip", "not measured", "a short one to each click was asked"),
        **asked_words.misshapen(level, verdict),
    }.get(verdict.reason) or asked_words.missed(level, verdict)


def lean(verdict: Verdict) -> float | None:
    """Bubble after an easing off: light where a blip dipped, heavy where the brake stayed on."""
    if verdict.reason is Reason.NOT_EASED:
        return 1.0
    if verdict.reason is Reason.OVER_LIMIT and verdict.worst == "release_time":
        return 1.0
    return blip_words.lean_of(verdict)
