"""What is said of a brake held in the dark: where it sat, how it moved, and what to attend to."""

from __future__ import annotations

import math
from collections.abc import Mapping

from drills.coach import SMALL, Said
from drills.digits import beside
from drills.kinds.asked_words import LET_GO
from drills.kinds.clean_words import THE_SAME, clean
from drills.level import Level
from drills.remark import Remark
from drills.score import Reason, Verdict

DRIFT_SHARE = 0.75
"""Least share of the brake's variance that a drift must account for to be mentioned."""
REMEMBER = (
    "Remember its weight from before the dark.",
    "Feel for the weight, not for the place.",
    "Keep the weight you had in the light.",
)
"""Cues for a brake that sat beside its target."""
REST_ON_IT = (
    "Let the weight rest on the pedal.",
    "Feel one steady pressure, start to end.",
    "Let the pedal carry you, and be quiet.",
)
"""Cues for a brake that moved about."""

SAT: Mapping[str, tuple[str, ...]] = {
    "light": (
        "The brake sat too light.",
        "Most of the time the brake was too light.",
        "The weight stayed under its target.",
    ),
    "heavy": (
        "The brake sat too heavy.",
        "Most of the time the brake was too heavy.",
        "The weight stayed over its target.",
    ),
}
"""Sentences on a brake whose average was beside the target, by its side."""
BIASED: Mapping[str, tuple[str, ...]] = {
    "light": ("Its average was too light.", "All in all it was lighter than the target."),
    "heavy": ("Its average was too heavy.", "All in all it was heavier than the target."),
}
"""Sentences on a brake whose bias decided, by its side."""
APART = 0.9
"""Largest bias that is told in points, as a share of the large figure: one nearer to it would read
as the same number in two forms."""
DRIFTED: Mapping[str, Said] = {
    "light": (
        (
            "The brake kept getting lighter.",
            "Bit by bit the brake eased off.",
            "Weight leaked from the brake all through.",
        ),
        ("Make the end as heavy as the start.", "Breathe out, and keep the weight."),
    ),
    "heavy": (
        (
            "The brake kept getting heavier.",
            "Bit by bit the brake was pressed harder.",
            "Weight crept into the brake all through.",
        ),
        ("Make the end as heavy as the start.", "Breathe out, and keep the weight."),
    ),
}
"""A brake that drifted, by its side."""
DRIFT: Mapping[str, tuple[str, ...]] = {
    "light": ("The brake grew lighter by the second.", "From second to second it eased off."),
    "heavy": ("The brake grew heavier by the second.", "From second to second it was pressed."),
}
"""Sentences on a brake whose drift decided, by its side."""
MOVED: Mapping[str, Said] = {
    "total_error": (
        ("The brake wandered about its target.", "To and fro, the brake left its target."),
        REST_ON_IT,
    ),
    "variable_error": (
        ("The brake wandered.", "The weight on the brake kept changing."),
        REST_ON_IT,
    ),
    "cv": (
        ("For its weight, the brake wandered.", "The weight wandered too much for its size."),
        REST_ON_IT,
    ),
    "swing": (
        ("The brake moved too far from least to most.", "Its least and most were too far apart."),
        REST_ON_IT,
    ),
    "tremor": (
        ("The brake trembled.", "A fast tremor ran through the brake."),
        ("Let the pedal rest, and let it be.", "Breathe out, and feel the weight."),
    ),
}
"""A brake that moved too much, by the measure."""

NEAR: Mapping[str, tuple[str, ...]] = {
    "total_error": ("Still, and right on the target.", "The brake hardly left its target."),
    "constant_error": ("On average, right on the target.", "The average sat on the target."),
    "variable_error": ("The brake hardly moved.", "One weight from start to end."),
    "swing": ("From least to most was next to nothing.", "Hardly a move, from least to most."),
    "tremor": ("Hardly a tremor in the brake.", "The brake was quiet."),
}
"""Clean sentences on measures of a hold that stayed too small to speak of."""
CLEAN: Mapping[str, Said] = {
    "variable_error": (
        ("The brake wandered, inside its limit.", "Some wander, but not too much."),
        ("Make the weight even quieter.", "Feel one steady pressure, start to end."),
    ),
    "cv": (
        ("For its weight, the brake wandered little enough.", "Some wander, small for its weight."),
        ("Make the weight even quieter.", "Feel one steady pressure, start to end."),
    ),
    "swing": (
        ("From least to most it stayed inside.", "The brake moved, but not too far."),
        ("Make the weight even quieter.", "Feel one steady pressure, start to end."),
    ),
    "tremor": (
        ("There was some tremor, not too much.", "The brake trembled inside its limit."),
        ("Let the pedal rest, and let it be.", "Breathe out, and feel the weight."),
    ),
}
"""Clean sentences on how a held brake moved, by the measure."""
CLEAN_SIDE: Mapping[str, Said] = {
    "light": (
        ("Near enough, and on the light side.", "A light hold, inside its limit."),
        ("Keep the full weight to the end.", "Sit a shade heavier on it."),
    ),
    "heavy": (
        ("Near enough, and on the heavy side.", "A heavy hold, inside its limit."),
        ("Add nothing once it is dark.", "Sit a shade lighter on it."),
    ),
}
"""Clean holds whose average was beside the target, by its side."""
CLEAN_BIAS: Mapping[str, tuple[str, ...]] = {
    "light": ("Its average was light, but near enough.", "Light on average, inside its limit."),
    "heavy": ("Its average was heavy, but near enough.", "Heavy on average, inside its limit."),
}
"""Clean sentences where the bias came nearest its limit, by its side."""
CLEAN_ABOUT: Said = (
    ("The brake moved about its target, near enough.", "To and fro, but near the target."),
    ("Make the weight even quieter.", "Feel one steady pressure, start to end."),
)
"""Clean holds that moved to both sides of their target."""
CLEAN_DRIFT: Mapping[str, Said] = {
    "light": (
        ("It grew lighter, but slowly enough.", "Some weight leaked away, not too much."),
        ("Finish at the weight you began with.", "Keep the full weight to the end."),
    ),
    "heavy": (
        ("It grew heavier, but slowly enough.", "Some weight crept in, not too much."),
        ("Finish at the weight you began with.", "Add nothing once it is dark."),
    ),
}
"""Clean holds whose drift came nearest its limit, by its side."""
NEAR_DRIFT = 0.05
"""Drift too small to speak of, in points/s: what a figure shows as 0.0."""


def comment(level: Level, verdict: Verdict) -> Remark:
    """Remark on a hold that counts."""
    if verdict.reason is Reason.LET_GO:
        return Remark(verdict.reason.value, *LET_GO["before"])
    if verdict.clean:
        return clean(verdict.worst, _praise(verdict))
    return Remark(verdict.worst, *_fault(level, verdict))


def _fault(level: Level, verdict: Verdict) -> Said:
    name, moved = verdict.worst, _told_drift(level, verdict)
    if name == "drift":
        side = _side(verdict, name)
        return DRIFT[side], DRIFTED[side][1]
    if moved:
        return DRIFTED["heavy" if moved > 0 else "light"]
    if not is_off_centre(verdict):
        return MOVED[name]
    return _sat(level, verdict), REMEMBER


def _sat(level: Level, verdict: Verdict) -> tuple[str, ...]:
    """Sentences on a brake beside its target: its bias, where the large figure is another."""
    name, side = verdict.worst, _side(verdict, "constant_error")
    limit, bias = level.limits[name], abs(verdict.amount("constant_error"))
    figure, _ = beside(abs(verdict.amount(name)), limit, 1)
    points = f"{bias:.{len(figure.partition('.')[2])}f} points"
    if name == "constant_error":
        return BIASED[side]
    if bias < SMALL or bias > APART * float(figure):
        return SAT[side]
    return (
        f"{points} {side}, and the rest is wander.",
        f"It sat {points} {side}, and wandered.",
        f"The brake was {points} {side}, and not still.",
    )


def _praise(verdict: Verdict) -> Said:
    name = verdict.worst
    value = abs(verdict.amount(name))
    if name == "drift":
        if value < NEAR_DRIFT:
            return ("The weight did not drift.", "The end was as heavy as the start."), THE_SAME
        return CLEAN_DRIFT[_side(verdict, name)]
    if name in NEAR and value < SMALL / 2:
        return NEAR[name], THE_SAME
    if name in CLEAN:
        return CLEAN[name]
    bias, spread = abs(verdict.amount("constant_error")), verdict.amount("variable_error")
    side = _side(verdict, "constant_error")
    if name == "constant_error":
        return CLEAN_BIAS[side], CLEAN_SIDE[side][1]
    if bias >= spread:
        return CLEAN_SIDE[side]
    return CLEAN_ABOUT


def lean(level: Level, verdict: Verdict) -> float | None:
    """Bubble after a hold: the side of the drift or of the average that the remark names.

    None where it moved to both sides, or nothing was measured.
    """
    if verdict.reason is Reason.LET_GO:
        return -1.0
    if verdict.clean or not verdict.measures or verdict.void:
        return 0.0 if verdict.clean else None
    name, moved = verdict.worst, _told_drift(level, verdict)
    if name == "drift":
        return math.copysign(1.0, verdict.amount("drift"))
    if moved:
        return math.copysign(1.0, moved)
    if not is_off_centre(verdict):
        return None
    return math.copysign(1.0, verdict.amount("constant_error"))


def _told_drift(level: Level, verdict: Verdict) -> float:
    """Drift of a failed hold that is told, in points; 0 where something else says more.

    A brake that sat on one side and drifted to the other is told where it sat.
    """
    moved, bias = drift(verdict, level.own["duration"]), verdict.amount("constant_error")
    if verdict.worst not in ("total_error", "variable_error", "cv"):
        return 0.0
    return 0.0 if is_off_centre(verdict) and moved * bias < 0 else moved


def drift(verdict: Verdict, seconds: float) -> float:
    """Drift of the brake over a hold, in points; 0 where most of its movement was something else.

    A line of slope d over T s has the variance d² T² / 12.
    """
    moved = verdict.amount("drift") * seconds
    variance = verdict.amount("variable_error") ** 2
    real = abs(moved) > SMALL and moved**2 / 12 >= DRIFT_SHARE * variance
    return moved if real else 0.0


def is_off_centre(verdict: Verdict) -> bool:
    """Whether a failed hold failed by where the brake stayed, not by how it moved."""
    bias, spread = verdict.amount("constant_error"), verdict.amount("variable_error")
    worst = verdict.worst
    return worst == "constant_error" or (worst == "total_error" and abs(bias) >= spread)


def _side(verdict: Verdict, name: str) -> str:
    return "light" if verdict.amount(name) < 0 else "heavy"
