"""Words for the summary of a drive, the same in the terminal and on the screen."""

from __future__ import annotations

from drills.number_words import counted
from engine.road.summary import Summary

NO_BLIPS = "No blips with the brake on were found."
"""Sentence on a drive without blips."""
SMALLEST = 0.05
"""Least change of the brake that is told, in points: less reads as 0.0."""
TOGETHER = 2
"""Number of places in the run whose dips the first sentence tells; the next tells the others."""
PLACES = ("first", "second", "third", "fourth", "fifth", "sixth")
"""Words for the position of a blip in its run: first, second and so on."""


def summary_words(summary: Summary, seconds: float) -> list[str]:
    """Sentences on a drive of so many s, the most telling first."""
    if not summary.blips:
        return [NO_BLIPS]
    return [
        found_words(summary, seconds),
        *typical_words(summary),
        *early_words(summary),
        *place_words(summary),
        *distance_words(summary),
    ]


def found_words(summary: Summary, seconds: float) -> str:
    """Sentences on how many blips a drive has, how many are scored, and why others are not."""
    left = [f"{count} not scored: {why}." for why, count in summary.reasons]
    return " ".join([scored_words(summary, seconds), *left])


def scored_words(summary: Summary, seconds: float) -> str:
    """Sentence on how many blips a drive of so many s has, and how many are scored."""
    return f"{counted(summary.blips, 'blip')} in {minutes(seconds)}, {summary.scored} scored."


def typical_words(summary: Summary) -> list[str]:
    """Sentences on the typical dip and on the typical blip that it belongs to."""
    dips = summary.typical
    if dips is None or summary.peak is None or summary.worst is None:
        return []
    low, high = written(dips.low, dips.high)
    return [
        f"{dips.dip:.1f} points typical dip, the middle half {low} to {high}. "
        f"{summary.worst:.1f} is the worst.",
        f"{summary.peak:.0f} % throttle is the typical blip.",
    ]


def early_words(summary: Summary) -> list[str]:
    """Sentences on the change of the brake that is taken as meant, and on early brakes."""
    lines = []
    if summary.carry is not None:
        lines.append(_changed(summary.carry))
    if not summary.early_known:
        return lines
    unknown = summary.scored - summary.early_known
    known = counted(summary.early_known, "blip")
    if summary.early_dip is None:
        early = [f"None of {known} rolled early."]
    else:
        early = [
            f"{summary.early} of {known} rolled early: the brake left before the throttle.",
            f"{summary.early_dip:.1f} points were typically gone by then, counted in the dip.",
        ]
    if unknown > 0:
        early.append(f"{unknown} more cannot be told: too close to another.")
    return [*lines, " ".join(early)]


def place_words(summary: Summary) -> list[str]:
    """Sentences on the typical dip by the place in the run; none with too few blips."""
    parts = [f"{place_name(at.place)} {at.dip:.1f} ({at.count})" for at in summary.places]
    if not parts:
        return []
    first, more = parts[:TOGETHER], parts[TOGETHER:]
    rest = f" {', '.join(more).capitalize()}." if more else ""
    return [f"Dip by place in the run: {', '.join(first)}.{rest}"]


def distance_words(summary: Summary) -> list[str]:
    """Sentence on the largest extra stopping distance of a blip; none if that is not known."""
    if summary.extra_distance is None:
        return []
    return [f"At most {summary.extra_distance:.1f} m longer to stop after one blip, estimated."]


def place_name(place: int) -> str:
    """Name of a place in a run of blips, such as "second"; places count from 1."""
    return PLACES[place - 1] if place <= len(PLACES) else f"number {place}"


def minutes(seconds: float) -> str:
    """A duration in words, such as "12 min 5 s"."""
    whole = round(seconds)
    return f"{whole // 60} min {whole % 60} s" if whole >= 60 else f"{whole} s"


def written(*values: float) -> tuple[str, ...]:
    """Values in points as text with one decimal."""
    return tuple(f"{value:.1f}" for value in values)


def _changed(carry: float) -> str:
    """Sentence on how the brake changed over a blip, as intended; `carry` is in points."""
    if abs(carry) < SMALLEST:
        return "The brake typically did not change over a blip."
    moved = "eased off" if carry < 0 else "pressed more"
    return f"{abs(carry):.1f} points typically {moved} over a blip, taken as intended."
