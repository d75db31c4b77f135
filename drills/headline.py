"""The one large figure of a reveal: the measure that decided, in words, with its limit."""

from __future__ import annotations

from collections.abc import Mapping

from drills.digits import beside
from drills.measures.catalogue import CATALOGUE
from drills.remark import Headline
from drills.score import Verdict

WORDS: Mapping[str, str] = {
    "dip": "points dipped",
    "mean_dip": "points dipped on average",
    "surge": "points of overshoot",
    "rebound": "points of overshoot",
    "overshoot": "points of overshoot",
    "swing": "points from least to most",
    "settle": "to settle",
    "shortfall": "of brake missing",
    "excess": "of brake too many",
    "extra_distance": "longer to stop",
    "coupling": "of the throttle felt in the brake",
    "reaction": "to answer the cue",
    "width": "on the throttle",
    "rise": "for the throttle to go in",
    "fall": "for the throttle to come out",
    "spacing_error": "off the beat on average",
    "clutch_down": "until the clutch was down",
    "clutch_up": "until the clutch was up",
    "release_start": "until the brake eased",
    "release_time": "to come down",
    "ramp_error": "points off on average",
    "ramp_worst": "points off straight",
    "line_error": "points off the line on average",
    "line_lag": "behind the tone",
    "reversals": "turns upward",
    "variable_error": "points of wander",
    "total_error": "points of error",
    "cv": "of its weight wandered",
    "tremor": "points of tremor",
}
"""What the large figure counts, by its measure."""
SIGNED: Mapping[str, tuple[str, str, str]] = {
    "offset": (
        "points light at the end",
        "points off at the end",
        "points heavy at the end",
    ),
    "base_error": (
        "points light in the dark",
        "points off in the dark",
        "points heavy in the dark",
    ),
    "constant_error": (
        "points light on average",
        "points off on average",
        "points heavy on average",
    ),
    "drift": (
        "points lighter each second",
        "points of drift each second",
        "points heavier each second",
    ),
    "lateness": ("ahead of the click", "off the click", "behind the click"),
    "shift_at": ("before the blip's peak", "off the blip's peak", "after the blip's peak"),
    "brake_on": ("ahead of the braking point", "off the braking point", "past the braking point"),
    "peak_error": ("points short of the peak", "points off the peak", "points past the peak"),
    "line_worst": ("points under the line", "points off the line", "points over the line"),
    "off_at": ("off before turn-in", "off at turn-in", "on after turn-in"),
}
"""The same for measures with a sign: below 0, at 0 as written, and above 0."""
NEVER: Mapping[str, str] = {
    "settle": "settled",
    "release_time": "all the way down",
    "rise": "at the target",
    "off_at": "off the brake",
}
"""What never happened where a measure has no value, by its measure; others have no figure then."""


def of_worst(
    verdict: Verdict, limits: Mapping[str, float], words: Mapping[str, str] = WORDS
) -> Headline | None:
    """Large figure of a measured verdict: its worst measure with its limit; None without one.

    `words` says what each measure counts.
    """
    name = verdict.worst
    if not name or name not in limits:
        return None
    value, limit = verdict.measures.get(name), limits[name]
    if value is None:
        return _never(name, limit)
    measure = CATALOGUE[name]
    shown, allowed = beside(abs(value), limit, int(measure.form[-2]))
    return _figure(name, shown, allowed, _counted(name, shown, value, words))


def allowed(figure: Headline) -> str:
    """Limit of a large figure, as it stands in its words: "15 allowed"."""
    return figure.words.rpartition(", ")[2]


def _never(name: str, limit: float) -> Headline | None:
    if name not in NEVER:
        return None
    return Headline("never", f"{NEVER[name]}, {limit:g} s allowed")


def _counted(name: str, shown: str, value: float, words: Mapping[str, str]) -> str:
    if name not in SIGNED:
        counted = words[name]
    else:
        light, off, heavy = SIGNED[name]
        counted = off if float(shown) == 0 else heavy if value > 0 else light
    return counted.replace("points", "point", 1) if shown == "1" else counted


def _figure(name: str, shown: str, allowed: str, counted: str) -> Headline:
    unit = CATALOGUE[name].unit
    value = f"{shown} {unit}" if unit in ("s", "m", "points·s") else shown
    if name == "reversals" and shown == "1":
        counted = "turn upward"
    return Headline(value, f"{counted}, {allowed} allowed")
