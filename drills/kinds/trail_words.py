"""Words on easing off: the sentence, the figure for what was not done, and the bubble."""

from __future__ import annotations

from drills.coach import AT_ONCE, LITTLE, SMALL, disturbance, lean_of
from drills.digits import apart
from drills.kinds import blipping
from drills.level import Level
from drills.measures.early import EARLY_LEAST
from drills.measures.easing import EASED, EASED_LEAST, LET_GO
from drills.score import Reason, Verdict

STRAIGHT = 6.0
"""Largest distance from the ramp that praise calls straight, in points: no level asks for less."""
BY_PACE = 0.8
"""Least share of the largest distance from the ramp that a wrong pace must explain to be named."""


def comment(level: Level, verdict: Verdict) -> str:
    """Sentence on an easing off that counts: what the foot did, and what to change."""
    if verdict.reason is Reason.EXTRA_BLIP and not level.own["blips"]:
        return "A blip came where none was asked: leave the throttle alone on the way down."
    if verdict.reason is Reason.LET_GO and verdict.measures:
        blip = "a blip" if level.own["blips"] > 1 else "the blip"
        return (
            f"The foot came off the brake altogether at {blip}: "
            "keep the ball of the foot down while its edge rolls."
        )
    if verdict.reason in _SENTENCES:
        return _SENTENCES[verdict.reason]
    if verdict.reason not in (Reason.CLEAN, Reason.OVER_LIMIT):
        return blipping.not_as_asked(verdict)
    return _praise(verdict) if verdict.clean else _over(level, verdict)


_SENTENCES = {
    Reason.NOT_EASED: "The brake was not eased off: follow the tone as it falls.",
    Reason.NO_BLIP: "No blip came: at the click, one short stab while the brake comes down.",
    Reason.FEW_BLIPS: "There were too few blips: to each click one stab, in and out.",
    Reason.EXTRA_BLIP: "There were too many blips: one to each click, no more.",
    Reason.CUT_SHORT: (
        "The brake was off too soon for the blip: stab at the click, while the brake comes down."
    ),
    Reason.NOT_SCORED: (
        "A blip could not be measured: one short stab to each click, and time between them."
    ),
    Reason.LET_GO: "The brake was let go in the dark: keep the weight on until the tone falls.",
    Reason.LIGHT: "A blip was too light: stab deeper, and as short.",
    Reason.HEAVY: "A blip was too big: stab less deep, and as short.",
    Reason.LONG: "The throttle stayed on too long: one short stab, in and out.",
}


def _praise(verdict: Verdict) -> str:
    blips = "the blips" if "dip_2" in verdict.measures else "the blip"
    dip, surge = verdict.amount("dip"), verdict.amount("surge")
    most, gave = max(dip, surge), "gave" if dip >= surge else "rose"
    if "dip" in verdict.measures and most >= SMALL:
        amount = "a little" if most <= LITTLE else "no more than it may"
        return f"Clean: the brake {gave} {amount} at {blips}, and went on down."
    worst = verdict.measures.get("ramp_worst")
    if worst is None or worst > STRAIGHT:
        return "Clean: the way down stayed within what this level allows."
    if "dip" in verdict.measures:
        left = "leave" if "dip_2" in verdict.measures else "leaves"
        return f"Clean: straight down, and {blips} {left} no mark."
    if verdict.measures.get("release_time") is None:
        return "Clean: straight down, though not quite to nothing."
    return "Clean: straight down, from the weight that was held to nothing."


def _over(level: Level, verdict: Verdict) -> str:
    name, limit = verdict.worst, level.limits[verdict.worst]
    value = verdict.measures.get(name)
    points = apart(abs(value), limit)[0] if value is not None else ""
    match name:
        case "dip" | "mean_dip" | "shortfall" | "extra_distance":
            fell = f"{points} points" if name in ("dip", "mean_dip") else "too much"
            early = name == "dip" and verdict.amount("early") > EARLY_LEAST
            left = "left before the throttle and " if early else ""
            advice = AT_ONCE if early else "ease with the leg, and let only the edge roll"
            at = _at(name, verdict)
            return f"The brake {left}fell {fell} under its way down {at}: {advice}."
        case "surge" | "excess":
            rose = f"{points} points" if name == "surge" else "too much"
            blips = _blips(verdict)
            return (
                f"The brake stood {rose} over its way down at {blips}: "
                "do not push with the roll, go on easing."
            )
        case "ramp_worst" | "ramp_error" | "reversals" if value is None:
            return _unjudged(level)
        case "reversals":
            return "The brake turned upward on the way down: let it only ever come off."
        case "lateness" if (value or 0.0) > 0:
            return "A blip came behind its click: have the foot ready to roll."
        case "lateness":
            return "A blip came ahead of its click: wait for it, the tone is only for the brake."
        case "release_start":
            return "The foot began late: ease off as soon as the tone starts to fall."
        case "release_time" if value is None:
            return "The brake was never let go: follow the tone all the way down."
        case "release_time":
            return "The brake came off too slowly: come down as fast as the tone."
        case "ramp_worst" | "ramp_error":
            return _way(level, verdict, points)
    return disturbance(verdict, level.limits)


def _at(name: str, verdict: Verdict) -> str:
    if "dip_2" not in verdict.measures:
        return "at the blip"
    if name == "mean_dip":
        return "a blip"
    if name != "dip":
        return "at the blips"
    first, second = verdict.amount("dip_1"), verdict.amount("dip_2")
    return f"at the {'second' if second > first else 'first'} blip"


def _blips(verdict: Verdict) -> str:
    return "a blip" if "dip_2" in verdict.measures else "the blip"


def _unjudged(level: Level) -> str:
    """Sentence on a way down of which too little is left to compare with its ramp."""
    if level.own["blips"]:
        return "The blips left too little of the way down to judge: make them shorter."
    return "Too little of the way down was left to judge: ease off as the tone falls."


def _way(level: Level, verdict: Verdict, points: str) -> str:
    """Sentence on a brake that left the ramp: its pace where that explains most, or its shape.

    A pace is off by what the ramp still had to go when the brake was off, or by how far it was
    past its end. A brake that was lower where the ramp began, after a blip, is not told its pace.
    """
    ease, base = level.own["ease"], verdict.amount("base")
    asked = base - verdict.amount("base_error")
    begins = base - max(EASED_LEAST, EASED * asked)
    worst, taken = verdict.amount("ramp_worst"), verdict.measures.get("release_time")
    off = f"{points} points" if verdict.worst == "ramp_worst" else f"about {points} points"
    if taken is None:
        return (
            f"The brake was on to the end, {off} off a straight way down: "
            "come down to nothing with the tone."
        )
    early = begins - LET_GO - asked * taken / ease
    if BY_PACE * worst <= early <= worst:
        return (
            f"The brake was off too early, {off} off a straight way down: "
            "come down as slowly as the tone."
        )
    if -early >= BY_PACE * worst:
        return (
            f"The brake was on too long, {off} off a straight way down: "
            "come down as fast as the tone."
        )
    return f"The brake was {off} off a straight way down: as much in each moment as in the last."


def missed(level: Level, verdict: Verdict) -> tuple[str, str, str] | None:
    """Figure for what an easing off asked and was not done, as in `Kind.missed`."""
    blips = "one to each click was asked" if level.own["blips"] else "none was asked"
    return {
        Reason.NOT_EASED: ("Brake", "not eased off", "down to nothing was asked"),
        Reason.NO_BLIP: ("Blips", "none", blips),
        Reason.FEW_BLIPS: ("Blips", "too few", blips),
        Reason.EXTRA_BLIP: ("Blips", "too many", blips),
        Reason.CUT_SHORT: ("Brake", "off too soon", "on beyond the blip was asked"),
        Reason.NOT_SCORED: ("Blip", "not measured", "a short one to each click was asked"),
        Reason.LIGHT: ("Throttle", "too light", f"{level.own['blip.least']:g} % at least"),
        Reason.HEAVY: ("Throttle", "too big", f"{level.own['blip.most']:g} % at most"),
        Reason.LONG: ("Throttle", "on too long", f"{level.own['blip.longest']:g} s at most"),
    }.get(verdict.reason) or blipping.missed(level, verdict)


def lean(verdict: Verdict) -> float | None:
    """Bubble after an easing off: light where a blip dipped, heavy where the brake stayed on."""
    if verdict.reason is Reason.NOT_EASED:
        return 1.0
    if verdict.reason is Reason.OVER_LIMIT and verdict.worst == "release_time":
        return 1.0
    return lean_of(verdict)
