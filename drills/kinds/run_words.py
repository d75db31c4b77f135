"""What is said of a run of blips: which blip did what, what to attend to, and the figure."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise
from statistics import fmean, pstdev

from drills.coach import SMALL, Said
from drills.digits import beside
from drills.kinds import asked_words, blip_faults, blip_words, clean_words, early
from drills.level import Level
from drills.measures.catalogue import PLACES
from drills.measures.disturbance import RELEASED
from drills.remark import Remark
from drills.score import WEIGHED, Reason, Verdict

GROWS = 5.0
"""Points by which the last dip of a run must pass the first for the sentence to speak of growth."""
ALIKE = 1.0
"""Difference between dips up to which they count as alike, in points."""
ORDINAL = ("first", "second", "third", "fourth")
"""Words for the places of blips in a run, from the first."""
COUNT_ON = (
    "Keep counting through the blips.",
    "Let the beat carry the throttle.",
)
"""Cues for blips that came unevenly or late."""
LET_IT_COME = (
    "Let the beat come to you.",
    "Wait for the click, then blip.",
)
"""Cues for blips that came too soon."""

SHAPES: Mapping[Reason, Said] = {
    Reason.NO_BLIP: (
        ("No blip came.", "The clicks went by without a blip."),
        ("After the knocks, one blip to each click.", "Let each click set off the throttle."),
    ),
    Reason.FEW_BLIPS: (
        ("There were too few blips.", "A click went by without its blip."),
        ("One blip to each click.", "Let each click set off the throttle."),
    ),
    Reason.EXTRA_BLIP: (
        ("There were too many blips.", "A blip came without a click."),
        ("One blip to each click, none to the knocks.", "After the last, keep the throttle shut."),
    ),
    Reason.OFF_BEAT: (
        ("A blip was nearer to another beat than its own.", "A blip came a whole beat off."),
        ("Count first, then blip.", "Let each click set off the throttle."),
    ),
    Reason.LIGHT: (
        ("A blip was too light.", "One blip had too little throttle."),
        ("More throttle, and as short.", "Make all as deep as the deepest."),
    ),
    Reason.HEAVY: (
        ("A blip was too big.", "One blip had too much throttle."),
        ("Less throttle, and as short.", "Make all as shallow as the shallowest."),
    ),
    Reason.LONG: (
        ("The throttle stayed on too long.", "One blip was too long."),
        ("Make each one short: in and out.", "Quick touches, and nothing between."),
    ),
}
"""Runs that were not what was asked, by the outcome."""
LET_GO: Said = (
    ("The brake was let go after the last blip.", "With the last blip over, the brake was off."),
    ("Keep it on until the light returns.", "The blips end, the braking does not."),
)
"""Brake that was let go after the last blip."""
DIP_CUES: Mapping[str, tuple[str, ...]] = {at: cues for at, (_, cues) in blip_faults.DIPS.items()}
"""Cues for a dip of a run, by when the brake was lowest."""
GROWTH: Said = (
    ("The dip grew from blip to blip.", "Every blip took more brake than the last."),
    ("Make the last as heavy as the first.", "Come back to full weight between blips."),
)
"""Dips that grew from the first blip to the last."""
OVER: Mapping[str, Said] = {
    "surge": (
        ("The brake rose above what was held.", "The blips pushed the brake up."),
        blip_faults.NO_HARDER,
    ),
    "surge back": (
        ("After a blip the brake came back too heavy.", "It went over what was held."),
        blip_faults.COME_BACK,
    ),
}
"""Brake above what was held, by whether it came back from a dip at each blip."""
SPACING: Mapping[str, Said] = {
    "second late": (
        ("The second blip was late after the first.", "From first to second took too long."),
        COUNT_ON,
    ),
    "second soon": (
        ("The second blip came too soon after the first.", "First to second was too quick."),
        LET_IT_COME,
    ),
    "slow": (
        ("The blips were slower than the beat.", "From blip to blip took too long."),
        COUNT_ON,
    ),
    "quick": (
        ("The blips were quicker than the beat.", "From blip to blip was too quick."),
        LET_IT_COME,
    ),
    "uneven": (
        ("The blips came unevenly.", "The time between blips kept changing."),
        COUNT_ON,
    ),
}
"""Blips that did not keep the tempo."""
LATE_SPACING = frozenset({"second late", "slow"})
"""Those of them that say that blips came late."""
CLEAN: Mapping[str, Said] = {
    "dip": (
        ("All blips took about the same, inside the limit.", "Blip for blip, about the same dip."),
        ("Stay as heavy through all of them.", "Aim for no dip at all."),
    ),
    "spacing_error": (
        ("The blips kept the beat well enough.", "Even enough, from blip to blip."),
        ("Keep counting through the blips.", "Let the beat carry the throttle."),
    ),
    "lateness": (
        ("Every blip was near enough to its click.", "The blips met their clicks, near enough."),
        ("Let the beat carry the throttle.", "Blip with the click, not after it."),
    ),
    "width": (
        ("All blips were short enough.", "In and out, each one in time."),
        ("Make them shorter still.", "Quick touches, and nothing between."),
    ),
}
"""Clean runs, by the measure nearest its limit."""
WHOLE: Mapping[str, Said] = {
    "width": (
        ("A blip lasted too long.", "The throttle stayed on too long for a blip."),
        ("Make each one short: in and out.", "Quick touches, and nothing between."),
    ),
}
"""Words on a run that are not those on a single blip, by the measure."""


def comment(level: Level, verdict: Verdict) -> Remark:
    """Remark on a run of blips that counts."""
    reason = verdict.reason
    if reason in SHAPES:
        return Remark(reason.value, *SHAPES[reason])
    if reason is Reason.LET_GO and verdict.amount("base") >= RELEASED:
        return Remark(reason.value, *LET_GO)
    if reason not in WEIGHED:
        return asked_words.not_as_asked(verdict)
    return _praise(level, verdict) if verdict.clean else _fault(verdict)


def _praise(level: Level, verdict: Verdict) -> Remark:
    name = verdict.worst
    if name == "dip" and verdict.amount("dip") >= SMALL and not early.is_early(verdict):
        return clean_words.clean(name, _clean_dip(by_place(verdict, "dip")))
    if name != "dip" and name in CLEAN:
        return clean_words.clean(name, CLEAN[name])
    return clean_words.praise(verdict, level.limits)


def _clean_dip(dips: Sequence[float]) -> Said:
    """Words on the dip of a clean run: which blip took the most, and which to make as good."""
    if max(dips) - min(dips) <= ALIKE:
        return CLEAN["dip"]
    most, least = dips.index(max(dips)), dips.index(min(dips))
    if len(dips) == 2:
        return (
            (
                f"The {ORDINAL[most]} blip took more than the {ORDINAL[least]}.",
                f"Most brake went with the {ORDINAL[most]} of the two blips.",
            ),
            (f"Stay as heavy for the {ORDINAL[most]}.", "Make both cost the same."),
        )
    return (
        (
            f"The {ORDINAL[most]} blip took the most, the {ORDINAL[least]} the least.",
            f"Most brake went with the {ORDINAL[most]} blip.",
        ),
        (f"Stay as heavy for the {ORDINAL[most]}.", "Make all blips cost the same."),
    )


def _fault(verdict: Verdict) -> Remark:
    name = verdict.worst
    match name:
        case "dip":
            return _dip(verdict)
        case "surge":
            came_back = _all_dipped(verdict) and verdict.amount("rebound") >= verdict.amount(name)
            return Remark(name, *OVER["surge back" if came_back else "surge"])
        case "rebound":
            after = "after the dip" if _all_dipped(verdict) else "alone"
            return Remark(name, *blip_faults.REBOUNDS[after])
        case "spacing_error":
            return Remark(name, *SPACING[spacing(verdict)])
        case "lateness":
            return Remark(name, *_lateness(verdict))
        case "width":
            return Remark(name, *WHOLE[name])
    return blip_words.fault(verdict)


def _dip(verdict: Verdict) -> Remark:
    dips = by_place(verdict, "dip")
    worst = max(range(len(dips)), key=lambda place: dips[place])
    if early.is_early(verdict):
        return blip_words.fault(verdict)
    at = blip_words.when(verdict.amount("dip_at"), verdict)
    blip = f"the {ORDINAL[worst]} blip"
    if verdict.amount("base") - dips[worst] < RELEASED:
        sentences = (
            f"The brake came off altogether {at} {blip}.",
            f"{blip.capitalize()} took the brake away altogether.",
        )
        return Remark("dip", sentences, blip_faults.STAY_ON)
    if blip_words.is_braced(verdict):
        return blip_words.fault(verdict)
    if _grows(dips):
        return Remark("dip", *GROWTH)
    sentences = (
        f"The brake fell most {at} {blip}.",
        f"{blip.capitalize()} cost the most brake.",
    )
    return Remark("dip", sentences, DIP_CUES[at])


def _all_dipped(verdict: Verdict) -> bool:
    """Whether the brake dipped at every blip, so that whatever was over came back from a dip."""
    return min(by_place(verdict, "dip"), default=0.0) >= SMALL


def _grows(dips: Sequence[float]) -> bool:
    return dips[-1] - dips[0] >= GROWS and all(one < other for one, other in pairwise(dips))


def spacing(verdict: Verdict) -> str:
    """How the times between blips were off the tempo, as a key of SPACING.

    It is found by how late after its cue each blip came.
    """
    off = [after - before for before, after in pairwise(by_place(verdict, "lateness"))]
    if len(off) == 1:
        return "second late" if off[0] > 0 else "second soon"
    mean = fmean(off) if off else 0.0
    if off and all(one * mean > 0 for one in off) and abs(mean) > pstdev(off):
        return "slow" if mean > 0 else "quick"
    return "uneven"


def _lateness(verdict: Verdict) -> Said:
    late = by_place(verdict, "lateness")
    worst = max(range(len(late)), key=lambda place: abs(late[place]))
    blip = f"the {ORDINAL[worst]} blip"
    if late[worst] > 0:
        sentences = (f"{blip.capitalize()} came late.", f"The click was ahead of {blip}.")
        return sentences, ("Blip with the click, not after it.", "Keep counting.")
    sentences = (f"{blip.capitalize()} came too soon.", f"The click came after {blip}.")
    return sentences, LET_IT_COME


def missed(level: Level, verdict: Verdict) -> tuple[str, str, str] | None:
    """Figure for what a run asked and was not done, as in `Kind.missed`."""
    came = len(by_place(verdict, "dip"))
    return {
        Reason.NO_BLIP: ("Blips", "none", "one to each click was asked"),
        Reason.FEW_BLIPS: (
            "Blips",
            f"{came}",
            f"{'blip' if came == 1 else 'blips'}, one to each click was asked",
        ),
        Reason.EXTRA_BLIP: ("Blips", "too many", "one to each click was asked"),
        Reason.OFF_BEAT: (
            "From its click",
            f"{beside(abs(verdict.amount('lateness')), level.own['tempo'] / 2, 2)[0]} s",
            f"off its click, {level.own['tempo'] / 2:g} allowed",
        ),
        **asked_words.misshapen(level, verdict),
        Reason.NOT_SCORED: ("Brake", "too little before", "held before the blips was asked"),
    }.get(verdict.reason) or asked_words.missed(level, verdict)


def by_place(verdict: Verdict, name: str) -> list[float]:
    """Values of a measure that each blip of a run has, from the first blip on."""
    found = [verdict.measures.get(f"{name}_{place}") for place in PLACES]
    return [one for one in found if one is not None]
