"""What is said of a blip that was not what a level asks: sentences, cues, and the figure."""

from __future__ import annotations

from collections.abc import Mapping

from drills.coach import Said
from drills.digits import beside
from drills.kinds.asked_size import peaks_asked
from drills.level import Level
from drills.measures.blip import NARROWEST
from drills.measures.disturbance import RELEASED
from drills.remark import Remark
from drills.score import Reason, Verdict

ANSWER = 1.0
"""Longest reaction in s with which a blip answers its cue: a later one is another downshift."""
PULSE = 1.0
"""Longest throttle pulse that counts as a blip, in s."""

OFF_TARGET: Mapping[str, Said] = {
    "light": (
        (
            "In the dark the brake grew too light.",
            "The brake was under its target in the dark.",
            "Until the cue the brake was too light.",
        ),
        ("Keep the weight you had in the light.", "Feel that weight until the cue."),
    ),
    "heavy": (
        (
            "In the dark the brake grew too heavy.",
            "The brake was over its target in the dark.",
            "Until the cue the brake was too heavy.",
        ),
        ("Keep the weight you had in the light.", "Add nothing once it is dark."),
    ),
}
"""Brake that left its target in the dark, by its side."""
LET_GO: Mapping[str, Said] = {
    "before": (
        ("The brake was let go in the dark.", "In the dark the brake went off."),
        ("Keep the weight on until the light returns.", "Feel the pedal until the light returns."),
    ),
    "after": (
        ("The brake was let go after the blip.", "With the blip over, the brake was let go."),
        ("Keep it on until the light returns.", "The blip ends, the braking does not."),
    ),
}
"""Brake that was let go, before the blip or after it."""
SHAPES: Mapping[Reason, Said] = {
    Reason.NO_BLIP: (
        ("No blip came.", "The cue went by without a blip."),
        ("At the cue, one short blip.", "Let the cue set off the throttle."),
    ),
    Reason.EXTRA_BLIP: (
        ("More than one blip came.", "There was a blip too many."),
        ("One blip, then leave the throttle shut.", "After the first, keep the throttle quiet."),
    ),
    Reason.LIGHT: (
        ("The blip was too light.", "There was too little throttle."),
        ("More throttle, and as short.", "Let the throttle go deeper."),
    ),
    Reason.HEAVY: (
        ("The blip was too big.", "There was too much throttle."),
        ("Less throttle, and as short.", "Let the throttle stay shallow."),
    ),
    Reason.LATE: (
        ("The blip came too late.", "The cue was long gone when the blip came."),
        ("Let the cue set off the throttle.", "Expect the cue at any moment."),
    ),
    Reason.LONG: (
        ("The throttle stayed on too long.", "The blip was too long."),
        ("Make it short: in and out.", "One quick touch, then nothing."),
    ),
    Reason.SHORT: (
        ("The throttle jumped faster than any foot.", "That throttle was no foot's doing."),
        ("If it does so again, check its cable.",),
    ),
    Reason.NOT_SCORED: (
        ("Too little brake was held before the blip.", "The blip came before the brake was held."),
        ("Hold the brake, then wait for the cue.",),
    ),
}
"""Blips that were not what was asked, by the outcome."""


def not_as_asked(verdict: Verdict) -> Remark:
    """Remark on a blip that was not as the level asks."""
    return Remark(verdict.reason.value, *_words(verdict))


def _words(verdict: Verdict) -> Said:
    match verdict.reason:
        case Reason.OFF_TARGET:
            return OFF_TARGET["light" if verdict.amount("base_error") < 0 else "heavy"]
        case Reason.LET_GO:
            held = verdict.measures.get("base")
            return LET_GO["before" if held is None or held < RELEASED else "after"]
    return SHAPES[verdict.reason]


def missed(level: Level, verdict: Verdict) -> tuple[str, str, str] | None:
    """Figure for what a repetition with one blip asked and was not done, as in `Kind.missed`."""
    least, most = peaks_asked(level)
    long = f"on the throttle, {level.own['blip.longest']:g} allowed"
    return {
        Reason.NO_BLIP: ("Blips", "none", "one blip was asked"),
        Reason.EXTRA_BLIP: ("Blips", "several", "one blip was asked"),
        Reason.LATE: (
            "Reaction",
            f"{beside(verdict.amount('reaction'), ANSWER, 2)[0]} s",
            f"to answer the cue, {ANSWER:g} allowed",
        ),
        Reason.LIGHT: ("Blip", _peak(verdict, least), f"blip, {least:g} at least"),
        Reason.HEAVY: ("Blip", _peak(verdict, most), f"blip, {most:g} at most"),
        Reason.SHORT: ("Blip width", f"under {NARROWEST / 1000:g} s", "a foot takes longer"),
        Reason.LONG: ("Blip width", _width(level, verdict), long),
        Reason.OFF_TARGET: off_target(level, verdict),
        Reason.LET_GO: ("Brake", "let go", "on all through was asked"),
    }.get(verdict.reason)


def misshapen(level: Level, verdict: Verdict) -> dict[Reason, tuple[str, str, str]]:
    """Figures for the shape of one of several blips, by the outcome, as in `Kind.missed`."""
    longest, width = level.own["blip.longest"], verdict.amount("width")
    least, most = level.own["blip.least"], level.own["blip.most"]
    peak = verdict.measures.get("peak")
    light = "too light" if peak is None or peak >= least else _peak(verdict, least)
    heavy = "too big" if peak is None or peak <= most else _peak(verdict, most)
    return {
        Reason.LIGHT: ("Blip", light, f"blip, {least:g} at least"),
        Reason.HEAVY: ("Blip", heavy, f"blip, {most:g} at most"),
        Reason.LONG: (
            "Blip width",
            f"{beside(width, longest, 2)[0]} s" if width > longest else "too long",
            f"on the throttle, {longest:g} allowed",
        ),
    }


def off_target(level: Level, verdict: Verdict) -> tuple[str, str, str]:
    """Figure for a brake that was off its target in the dark, as in `Kind.missed`."""
    error = verdict.amount("base_error")
    shown, allowed = beside(abs(error), level.approach_band)
    points = "point" if shown == "1" else "points"
    side = "light" if error < 0 else "heavy"
    return "Off target", shown, f"{points} {side} in the dark, {allowed} allowed"


def _peak(verdict: Verdict, asked: float) -> str:
    """Throttle peak in %, so written that it is on the side of what was asked where it is."""
    if "peak" not in verdict.measures:
        return "too little"
    peak = verdict.amount("peak")
    shown = 100 - float(beside(100 - peak, 100 - asked)[0]) if peak < asked else None
    return f"{beside(peak, asked)[0] if shown is None else f'{shown:g}'} %"


def _width(level: Level, verdict: Verdict) -> str:
    if "width" not in verdict.measures:
        return f"over {PULSE:g} s"
    return f"{beside(verdict.amount('width'), level.own['blip.longest'], 2)[0]} s"
