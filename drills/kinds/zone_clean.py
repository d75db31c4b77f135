"""What is said of a clean braking zone: the part nearest its limit, and one nudge."""

from __future__ import annotations

from collections.abc import Mapping

from drills.coach import SMALL, Said
from drills.kinds import clean_words, trail_faults
from drills.kinds.clean_words import THE_SAME, clean
from drills.kinds.run_words import ALIKE, ORDINAL, by_place
from drills.kinds.zone_faults import AT_THE_KNOCK, COUNT, EARLY, GO_ON, NO_PUSH, WITH_THE_TONE
from drills.level import Level
from drills.remark import Remark
from drills.score import Verdict

ON_THE_LINE = 3.0
"""Largest distance from the line that praise calls on it, in points."""

CLEAN: Mapping[str, Said] = {
    "brake_on": (
        ("The braking point was met.", "The brake came on near enough to its point."),
        COUNT,
    ),
    "rise": (
        ("The squeeze was quick enough.", "The peak was reached in time."),
        ("Go straight to the peak.", "One firm squeeze, no searching."),
    ),
    "at the peak": (("The squeeze met its peak.", "Right to the peak, no further."), THE_SAME),
    "peak_error": (
        ("The squeeze came near enough to the peak.", "The peak was met, near enough."),
        ("Feel for the weight of the peak.", "One firm squeeze, then ease."),
    ),
    "line_error": (
        ("All in all, near enough to the line.", "On average the line was followed."),
        WITH_THE_TONE,
    ),
    "line_worst": (
        ("The brake followed its line, near enough.", "At its farthest it was near the line."),
        WITH_THE_TONE,
    ),
    "on the line": (("The brake came down on its line.", "All the way on the line."), THE_SAME),
    "on the line on average": (
        ("On average, right on the line.", "All in all, down on the line."),
        THE_SAME,
    ),
    "line_lag": (("The brake came down with the tone.", "Close behind the tone."), WITH_THE_TONE),
    **{name: trail_faults.CLEAN[name] for name in ("never up", "reversals")},
    "hardly dipped": (
        ("The blips left the line as it was.", "Hardly a dip on the line."),
        THE_SAME,
    ),
    "early": (
        ("Some brake left before the throttle came.", "The brake dropped a bit ahead of its blip."),
        EARLY,
    ),
    "dip": (
        ("The blips took some brake, inside the limit.", "The brake fell at a blip, not too far."),
        GO_ON,
    ),
    "one dip": (
        ("The blip took some brake, inside its limit.", "The brake fell at the blip, not too far."),
        GO_ON,
    ),
    "mean_dip": (
        ("On average the blips took little enough.", "Blip for blip, the line held."),
        GO_ON,
    ),
    "hardly rose": (
        ("Hardly a bulge on the line.", "The blips added next to no brake."),
        THE_SAME,
    ),
    "surge": (
        ("The brake rose with a blip, not too far.", "A blip added some brake, inside its limit."),
        NO_PUSH,
    ),
    "shortfall": (
        ("Little enough brake went missing.", "At the blips the line held well enough."),
        GO_ON,
    ),
    "excess": (
        ("Little enough brake was added.", "At the blips little was added."),
        NO_PUSH,
    ),
    "extra_distance": (
        ("It would have cost little enough road.", "The stop stayed short enough."),
        GO_ON,
    ),
    "lateness": (
        trail_faults.CLEAN["lateness"][0],
        ("Let the click set off the throttle.", "Expect each click."),
    ),
    "width": (
        ("All blips were short enough.", "In and out, each one in time."),
        ("Make them shorter still.", "Quick touches, and nothing between."),
    ),
    "off_at": (
        ("The brake was off near enough to turn-in.", "Turn-in came, and the brake was off."),
        AT_THE_KNOCK,
    ),
}
"""Clean zones, by the measure nearest its limit."""


def praise(level: Level, verdict: Verdict, *, is_early: bool) -> Remark:
    """Remark on a clean zone; `is_early` is whether the deepest dip began before its throttle."""
    name = verdict.worst
    size = abs(verdict.amount(name))
    match name:
        case "dip" | "surge" if size < SMALL:
            return clean(name, CLEAN["hardly dipped" if name == "dip" else "hardly rose"])
        case "dip" if is_early:
            return clean(name, CLEAN["early"])
        case "dip":
            return clean(name, _dip(verdict))
        case "peak_error" if size < SMALL:
            return clean(name, CLEAN["at the peak"])
        case "line_worst" if size <= ON_THE_LINE:
            return clean(name, CLEAN["on the line"])
        case "line_error" if abs(verdict.amount("line_worst")) <= ON_THE_LINE:
            return clean(name, CLEAN["on the line on average"])
        case "reversals" if not size:
            return clean(name, CLEAN["never up"])
    return clean(name, CLEAN[name]) if name in CLEAN else clean_words.praise(verdict, level.limits)


def _dip(verdict: Verdict) -> Said:
    """Words on a clean dip: which blip took the most, where it took more than every other."""
    dips = by_place(verdict, "dip")
    if len(dips) < 2:
        return CLEAN["one dip"]
    *_, next_most, most_of_all = sorted(dips)
    if most_of_all - next_most <= ALIKE:
        return CLEAN["dip"]
    most = ORDINAL[dips.index(most_of_all)]
    return (
        (f"The {most} blip took the most brake, inside its limit.", f"Most went with the {most}."),
        (f"Make the {most} one as quiet as the rest.", "Make all blips cost the same."),
    )
