"""Words on a run of blips: the sentence, and the figure for what was asked and not done."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from statistics import fmean, pstdev

from drills.coach import AT_ONCE, SMALL, disturbance, lead_words
from drills.digits import apart
from drills.kinds import blipping
from drills.level import Level
from drills.measures.catalogue import CATALOGUE, PLACES
from drills.measures.disturbance import RELEASED
from drills.score import Reason, Verdict

GROWS = 5.0
"""Points by which the last dip of a run must pass the first for the sentence to speak of growth."""
ORDINAL = ("first", "second", "third", "fourth")
"""Words for the places of blips in a run, from the first."""


def comment(level: Level, verdict: Verdict) -> str:
    """Sentence on a run of blips that counts: what the brake did, and what to change."""
    if verdict.reason in _SENTENCES:
        return _SENTENCES[verdict.reason]
    if verdict.reason is Reason.LET_GO and verdict.amount("base") >= RELEASED:
        return "The brake was let go after the last blip: keep it on until the light comes back."
    if verdict.reason not in (Reason.CLEAN, Reason.OVER_LIMIT):
        return blipping.not_as_asked(verdict)
    if verdict.clean:
        return _praise(verdict)
    name, limit = verdict.worst, level.limits[verdict.worst]
    match name:
        case "dip":
            return _dip(verdict, limit)
        case "surge" | "rebound":
            return _over(verdict, limit)
        case "spacing_error":
            return _spacing(_by_place(verdict, "lateness"))
        case "lateness":
            return _lateness(verdict)
        case "width":
            return "A blip was too wide: each one a short stab, in and out."
    return _WHOLE.get(name) or disturbance(verdict, level.limits)


_SENTENCES = {
    Reason.FEW_BLIPS: "There were too few blips: to each cue one stab, in and out.",
    Reason.EXTRA_BLIP: "There were too many blips: one to each cue, none to the beats before.",
    Reason.OFF_BEAT: "A blip lay nearer to another beat than to its own: count, then roll.",
    Reason.NO_BLIP: "No blip came: after the beats, one to each cue.",
    Reason.LIGHT: "A blip was too light: stab deeper, and as short.",
    Reason.HEAVY: "A blip was too big: stab less deep, and as short.",
    Reason.LONG: "The throttle stayed on too long: each blip one short stab, in and out.",
}
_ROLL = "roll on the ball, keep it pushing"
_WHOLE = {
    "shortfall": f"The brake was light for too long through the run: {_ROLL}.",
    "excess": "The brake was heavy for too long through the run: give back what you pressed on.",
    "extra_distance": f"The run would have cost too much road: {_ROLL}.",
}


def _praise(verdict: Verdict) -> str:
    if max(verdict.amount("dip"), verdict.amount("surge")) < SMALL:
        return "Still: the brake stayed where it was through the whole run."
    return "Clean: blip after blip, the brake stayed within what this level allows."


def _dip(verdict: Verdict, limit: float) -> str:
    dips = _by_place(verdict, "dip")
    worst = max(range(len(dips)), key=lambda place: dips[place])
    points, place = apart(dips[worst], limit)[0], ORDINAL[worst]
    when, change = _when(verdict)
    early, off = lead_words(verdict), verdict.amount("base") - dips[worst] < RELEASED
    if off and early:
        return (
            f"The foot left the brake {early} before the first blip and came off altogether: "
            "keep the ball of the foot down while its edge rolls."
        )
    if off:
        return (
            f"The foot came off the brake altogether {when} the {place} blip: "
            "keep the ball of the foot down while its edge rolls."
        )
    if early:
        return (
            f"The brake left {early} before the first of {len(dips)} blips "
            f"and fell {points} points: {AT_ONCE}."
        )
    if _grows(dips):
        light = verdict.amount("offset") <= -SMALL
        change = "give back each time what the roll took" if light else _ROLL
        return f"The brake fell further with every blip, {points} points by the {place}: {change}."
    return f"The brake fell {points} points {when} the {place} of {len(dips)} blips: {change}."


def _when(verdict: Verdict) -> tuple[str, str]:
    """When the brake was lowest in the deepest dip, as a word, and what the foot should change."""
    at = verdict.amount("dip_at")
    if at < 0:
        return "before", "roll about the ball of the foot, do not lift to turn"
    if at > verdict.amount("end") - verdict.amount("onset"):
        return "after", "roll back over the ball, do not lift it"
    return "at", _ROLL


def _grows(dips: Sequence[float]) -> bool:
    return dips[-1] - dips[0] >= GROWS and all(one < other for one, other in pairwise(dips))


def _over(verdict: Verdict, limit: float) -> str:
    """Sentence on a brake above what was held: it "came back over" only if every blip dipped."""
    value = verdict.amount(verdict.worst)
    points = apart(value, limit)[0]
    came_back = min(_by_place(verdict, "dip")) >= SMALL and verdict.amount("rebound") >= value
    change = (
        "give back only what the roll took"
        if came_back
        else "let the ball stay and only the edge roll"
    )
    return f"The brake went {points} points over what was held: {change}."


def _spacing(late: Sequence[float]) -> str:
    off = [after - before for before, after in pairwise(late)]
    if len(off) == 1:
        return (
            "The second blip came too long after the first: keep counting, and roll on the count."
            if off[0] > 0
            else "The second blip came too soon after the first: let the beat come to the foot."
        )
    mean = fmean(off)
    if all(one * mean > 0 for one in off) and abs(mean) > pstdev(off):
        return (
            "The blips came too slowly one after the other: keep counting, and roll on the count."
            if mean > 0
            else "The blips came too quickly one after the other: let the beat come to the foot."
        )
    return "The blips came unevenly: count on through them, and let the foot keep time."


def _lateness(verdict: Verdict) -> str:
    late = _by_place(verdict, "lateness")
    worst = max(range(len(late)), key=lambda place: abs(late[place]))
    if late[worst] > 0:
        return f"The {ORDINAL[worst]} blip came behind its cue: roll on the beat, not after it."
    return f"The {ORDINAL[worst]} blip came ahead of its cue: wait for the beat."


def missed(level: Level, verdict: Verdict) -> tuple[str, str, str] | None:
    """Figure for what a run asked and was not done, as in `Kind.missed`."""
    came = len(_by_place(verdict, "dip"))
    return {
        Reason.NO_BLIP: ("Blips", "none", "one to each cue was asked"),
        Reason.FEW_BLIPS: ("Blips", f"{came}", "one to each cue was asked"),
        Reason.EXTRA_BLIP: ("Blips", "too many", "one to each cue was asked"),
        Reason.OFF_BEAT: (
            "From the cue",
            CATALOGUE["lateness"].written(verdict.measures.get("lateness")),
            f"within {level.own['tempo'] / 2:g} s was asked",
        ),
        Reason.LIGHT: ("Throttle", "too light", f"{level.own['blip.least']:g} % at least"),
        Reason.HEAVY: ("Throttle", "too big", f"{level.own['blip.most']:g} % at most"),
        Reason.LONG: ("Throttle", "on too long", f"{level.own['blip.longest']:g} s at most"),
        Reason.NOT_SCORED: ("Brake", "too little before", "held before the blips was asked"),
    }.get(verdict.reason) or blipping.missed(level, verdict)


def _by_place(verdict: Verdict, name: str) -> list[float]:
    found = [verdict.measures.get(f"{name}_{place}") for place in PLACES]
    return [one for one in found if one is not None]
