"""What is said of a braking zone: its worst part, what to attend to, and the figure."""

from __future__ import annotations

import math

from drills.coach import Said
from drills.fault import Fault
from drills.kinds import asked_words, blip_words, cause, early, trail_faults, zone_clean
from drills.kinds.run_words import ORDINAL, by_place
from drills.kinds.zone_faults import EARLY, FAULTS, GO_ON, NO_PUSH, SHORTCOMINGS
from drills.level import Level
from drills.measures.catalogue import PLACES
from drills.measures.early import EARLY_LEAST
from drills.number_words import number_words
from drills.remark import Remark
from drills.score import WEIGHED, Reason, Verdict

PACE = 0.2
"""Least time off the brake before or after turn-in that the whole way down is named by, in s."""
TIMED = ("brake_on", "lateness", "off_at", "shift_at")
"""Names of the measures that time a zone, with a sign: they say nothing of the brake's weight."""


def comment(level: Level, verdict: Verdict) -> Remark:
    """Remark on a braking zone that counts: what its worst part did, and what to attend to."""
    reason = verdict.reason
    if reason in SHORTCOMINGS:
        return Remark(reason.value, *SHORTCOMINGS[reason])
    if reason not in WEIGHED:
        return asked_words.not_as_asked(verdict)
    if verdict.clean:
        return zone_clean.praise(level, verdict, is_early=is_early(verdict))
    return _fault(verdict)


def _fault(verdict: Verdict) -> Remark:
    name = verdict.worst
    match name:
        case "dip" if is_early(verdict):
            return Remark(early.TOPIC, *_early(verdict))
        case "dip" if cause.of_easing(verdict, is_early=False) is Fault.BRACING:
            return Remark(cause.BRACED, *_braced(verdict))
        case "dip":
            return Remark(name, *_dip(verdict))
        case "lateness":
            return Remark(name, *_lateness(verdict))
        case "coupling":
            return Remark(name, blip_words.fault(verdict).sentences, GO_ON)
    words = _named(verdict)
    return Remark(name, *FAULTS[words]) if words in FAULTS else blip_words.fault(verdict)


def _named(verdict: Verdict) -> str:
    """Name of the words on a fault that is told without the place of a blip."""
    name = verdict.worst
    value = verdict.measures.get(name)
    match name:
        case "brake_on":
            return "braked late" if (value or 0.0) > 0 else "braked soon"
        case "rise" if value is None:
            return "never at the peak"
        case "rise":
            return "slow to the peak"
        case "peak_error":
            return "past the peak" if (value or 0.0) > 0 else "short of the peak"
        case "line_error" | "line_worst" | "reversals" if value is None:
            return f"{name} unjudged"
        case "line_error":
            return _line(verdict, "strayed over", "strayed under")
        case "line_worst":
            return _line(verdict, "over the line", "under the line")
        case "off_at" if value is None:
            return "never off"
        case "off_at":
            return "off late" if (value or 0.0) > 0 else "off early"
    return name


def _line(verdict: Verdict, over: str, under: str) -> str:
    """Name of the words on a brake off its line: `over` it or `under` it, by its worst place.

    Where the brake was off late or too soon as well, that is said of the whole way down, and where
    it never was off that is said.
    """
    is_over, off = verdict.amount("line_worst") > 0, verdict.measures.get("off_at", 0.0)
    if is_over and off is None:
        return "never off"
    if is_over:
        return "down late" if (off or 0.0) > PACE else over
    return "down too soon" if off is not None and off < -PACE else under


def deepest(verdict: Verdict) -> str:
    """Which blip took the most brake: "third"; empty for one blip."""
    dips = by_place(verdict, "dip")
    return ORDINAL[dips.index(max(dips))] if len(dips) > 1 else ""


def _the_blip(verdict: Verdict) -> str:
    """The blip that took the most brake, such as "the third blip"."""
    return " ".join(filter(None, ("the", deepest(verdict), "blip")))


def _dip(verdict: Verdict) -> Said:
    place, blip = deepest(verdict), _the_blip(verdict)
    if not place:
        return ("The brake fell at the blip.", "The blip took too much brake."), GO_ON
    return (
        (f"{blip.capitalize()} took the most brake.", f"The brake fell most at {blip}."),
        GO_ON,
    )


def _early(verdict: Verdict) -> Said:
    return early_at(_the_blip(verdict)) if deepest(verdict) else (trail_faults.EARLY[0], EARLY)


def early_at(blip: str) -> Said:
    """Words on a brake that left before a blip, such as "the third blip"."""
    return (
        (
            f"The brake left before {blip}.",
            f"At {blip} the brake left before the throttle came.",
        ),
        EARLY,
    )


def _braced(verdict: Verdict) -> Said:
    return braced_at(_the_blip(verdict)) if deepest(verdict) else (trail_faults.BRACED[0], NO_PUSH)


def braced_at(blip: str) -> Said:
    """Words on a dip that began with a push, at a blip such as "the third blip"."""
    return (
        (f"At {blip} a push, then the brake fell.", f"The brake fell at {blip}, pushed first."),
        NO_PUSH,
    )


def _lateness(verdict: Verdict) -> Said:
    late = by_place(verdict, "lateness") or [verdict.amount("lateness")]
    worst = max(range(len(late)), key=lambda place: abs(late[place]))
    blip = f"the {ORDINAL[worst]} blip" if len(late) > 1 else "the blip"
    if late[worst] > 0:
        return (
            (f"{blip.capitalize()} came late.", f"{blip.capitalize()} came late after its click."),
            ("Blip with the click, not after it.", "Expect each click."),
        )
    return (
        (f"{blip.capitalize()} came too soon.", f"{blip.capitalize()} was too soon for its click."),
        ("Wait for the click, then blip.", "Let the click set off the throttle."),
    )


def asked(level: Level) -> int:
    """Number of blips that a zone asks for."""
    return len(level.listed.get("gears", ())) or round(level.own["shifts"])


def missed(level: Level, verdict: Verdict) -> tuple[str, str, str] | None:
    """Figure for what a zone asked and was not done, as in `Kind.missed`."""
    count = asked(level)
    were = "one blip was asked" if count == 1 else f"{number_words(count)} blips were asked"
    late = verdict.amount("lateness")
    side = "after" if late > 0 else "before"
    came = sum(f"dip_{place}" in verdict.measures for place in PLACES)
    few = f"{'blip' if came == 1 else 'blips'}, {number_words(count)} were asked"
    many = ("Blips", f"{came}", few) if came > count else ("Blips", "too many", were)
    return {
        Reason.NOT_PRESSED: ("Brake", "not pressed", "the peak was asked"),
        Reason.LET_GO: ("Brake", "let go", "on until turn-in was asked"),
        Reason.NO_BLIP: ("Blips", "none", were),
        Reason.FEW_BLIPS: ("Blips", f"{came}", few) if came else ("Blips", "too few", were),
        Reason.EXTRA_BLIP: many,
        Reason.OFF_BEAT: ("Blip", f"{abs(late):.2f} s", f"{side} its click, one at each was asked"),
        Reason.CUT_SHORT: ("Brake", "off too soon", "on beyond the blip was asked"),
        Reason.NOT_SCORED: ("Blip", "not measured", "a short one to each click was asked"),
        Reason.NO_CLUTCH: ("Clutch", "not down", "down before the blip was asked"),
        Reason.BLIP_FIRST: ("Clutch", "after the blip", "down before the blip was asked"),
        Reason.CLUTCH_FIRST: ("Clutch", "up too soon", "up after the blip was asked"),
        Reason.CLUTCH_STAYED: ("Clutch", "not up", "up after the blip was asked"),
        **asked_words.misshapen(level, verdict),
    }.get(verdict.reason) or asked_words.missed(level, verdict)


def lean(verdict: Verdict) -> float | None:
    """Bubble after a braking zone: light or heavy where the part that decided was so."""
    if verdict.reason is Reason.NOT_PRESSED:
        return -1.0
    if verdict.reason is not Reason.OVER_LIMIT:
        return blip_words.lean_of(verdict)
    name = verdict.worst
    value = verdict.measures.get(name)
    if value is None:
        return {"rise": -1.0, "off_at": 1.0}.get(name)
    if name in ("peak_error", "line_worst"):
        return math.copysign(1.0, value)
    if name == "line_error":
        return 1.0 if verdict.amount("line_worst") > 0 else -1.0
    return 0.0 if name in TIMED else blip_words.lean_of(verdict)


def is_early(verdict: Verdict) -> bool:
    """Whether the brake left before the throttle of the deepest dip."""
    return verdict.amount("early") > EARLY_LEAST
