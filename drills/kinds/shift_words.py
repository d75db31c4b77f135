"""What is said of the shift, the hand's part in a downshift: late, too soon, out of order."""

from __future__ import annotations

from collections.abc import Mapping

from drills.coach import Said
from drills.kinds.clean_words import clean
from drills.kinds.run_words import ORDINAL
from drills.measures.catalogue import CATALOGUE
from drills.measures.shift import SHIFT, SHIFT_BY_PLACE
from drills.number_words import number_words
from drills.remark import Remark
from drills.score import WEIGHED, Reason, Verdict

ONE_EACH = ("One shift with each blip.", "Hand and foot: one move.")
"""Cues for a blip without its shift."""
SHIFTS: Mapping[str, Said] = {
    "late": (
        ("The shift was late.", "The hand was late for the blip."),
        ("Shift as the throttle peaks.", "Hand and foot: one move."),
    ),
    "soon": (
        ("The shift came too soon.", "The hand was ahead of the foot."),
        ("Shift as the throttle peaks.", "Let the foot begin, then the hand."),
    ),
    "none": (("No shift came.", "The hand did nothing."), ONE_EACH),
}
"""A shift that was over its limit, by what the hand did."""
IN_TIME: Said = (
    ("The shift came with the blip.", "Hand and foot moved together."),
    ("Keep hand and foot as close.", "The same again."),
)
"""A clean repetition whose shift came nearest its limit."""
OUT_OF_ORDER: Mapping[Reason, Said] = {
    Reason.SHIFT_FIRST: (
        ("The shift came before the blip.", "The hand was ahead of the throttle."),
        ("Blip first, then shift.", "Let the throttle set off the hand."),
    ),
    Reason.SHIFT_LAST: (
        ("The shift was late: the clutch was up.", "The shift came too late for the clutch."),
        ("Shift, then let the clutch up.", "Keep it down until the gear is in."),
    ),
}
"""Shifts that were out of order with blip and clutch, by the outcome."""


def comment(verdict: Verdict) -> Remark | None:
    """Remark on a repetition that its shift decided; None where something else did."""
    if verdict.reason in OUT_OF_ORDER:
        return Remark(verdict.reason.value, *OUT_OF_ORDER[verdict.reason])
    if verdict.reason not in WEIGHED or verdict.worst != SHIFT:
        return None
    return clean(SHIFT, IN_TIME) if verdict.clean else Remark(SHIFT, *_over(verdict))


def missed(verdict: Verdict) -> tuple[str, str, str] | None:
    """Figure for a shift that was out of order, as in `Kind.missed`; None where none was."""
    value = deciding(verdict)
    if verdict.reason not in OUT_OF_ORDER or value is None:
        return None
    first = verdict.reason is Reason.SHIFT_FIRST
    asked = "before the blip's peak, after its start was asked"
    asked = asked if first else "after the blip's peak, the clutch was up"
    return "Shift", CATALOGUE[SHIFT].written(abs(value)).lstrip("+"), asked


def note(verdict: Verdict) -> str:
    """Quiet line on when the shift came, or that one blip had none, where others had one.

    "Shift 0.12 s after the blip's peak." Empty where the hand did nothing, or where it decided.
    """
    value = verdict.measures.get(SHIFT)
    if verdict.void or _decided(verdict):
        return ""
    if value is None:
        return _too_few(verdict)
    written = CATALOGUE[SHIFT].written(abs(value)).lstrip("+")
    is_at_peak = float(written.split()[0]) == 0
    when = "at" if is_at_peak else f"{written} {'after' if value > 0 else 'before'}"
    if len(by_place(verdict)) > 1:
        return f"Farthest shift {when} its blip's peak."
    return f"Shift {when} the blip's peak."


def deciding(verdict: Verdict) -> float | None:
    """Time from its blip's peak to the shift that decided, in s; None where no shift did."""
    times = by_place(verdict) or [verdict.measures.get(SHIFT)]
    came = [time for time in times if time is not None]
    match verdict.reason:
        case Reason.SHIFT_FIRST:
            return min(came, default=None)
        case Reason.SHIFT_LAST:
            return max(came, default=None)
        case Reason.CLEAN | Reason.OVER_LIMIT if verdict.worst == SHIFT:
            return verdict.measures.get(SHIFT)
    return None


def _decided(verdict: Verdict) -> bool:
    """Whether a shift decided, or the lack of one."""
    is_weighed = verdict.reason in WEIGHED and verdict.worst == SHIFT
    return is_weighed or verdict.reason in OUT_OF_ORDER


def is_late(verdict: Verdict) -> bool:
    """Whether the sentence says that a shift came late."""
    return verdict.reason is Reason.SHIFT_LAST or verdict.amount(SHIFT) > 0


def by_place(verdict: Verdict) -> list[float | None]:
    """Times of the shifts of several blips, in s from the peak of each; empty where one is asked.

    None stands for a blip without a shift.
    """
    return [verdict.measures[name] for name in SHIFT_BY_PLACE if name in verdict.measures]


def _too_few(verdict: Verdict) -> str:
    """Sentence on how many blips had no shift; empty where all had one, or none had."""
    times = by_place(verdict)
    lacking = times.count(None)
    if not 0 < lacking < len(times):
        return ""
    blips = "One blip" if lacking == 1 else f"{number_words(lacking).capitalize()} blips"
    return f"{blips} had no shift."


def _over(verdict: Verdict) -> Said:
    value, times = verdict.measures.get(SHIFT), by_place(verdict)
    if value is None:
        few = _too_few(verdict)
        return ((few, "The hand did not come with each blip."), ONE_EACH) if few else SHIFTS["none"]
    side = "late" if value > 0 else "soon"
    if len(times) < 2 or value not in times:
        return SHIFTS[side]
    blip = ORDINAL[times.index(value)]
    if value > 0:
        sentences = (f"The {blip} shift was late.", f"At the {blip} blip the hand was late.")
    else:
        sentences = (f"The {blip} shift came too soon.", f"The hand led the {blip} blip.")
    return sentences, SHIFTS[side][1]
