"""Words of the end of a warm-up: whether today's foot is the usual foot, and how far off it is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import fmean

from engine.five.usual_foot import BLIPS, NEWEST, FootToday, FootVerdict, foot_today

HEADINGS = {
    FootVerdict.NOT_ENOUGH: "Warmed up: not enough days yet",
    FootVerdict.USUAL: "Warmed up: the usual foot",
    FootVerdict.STEADIER: "Warmed up: steadier than usual",
    FootVerdict.LESS_STEADY: "Warmed up: not as steady as usual",
}
"""Heading of the end of a warm-up, by its verdict."""


@dataclass(frozen=True)
class WarmUpWords:
    """Words and numbers that the end of a warm-up shows of today's foot."""

    heading: str
    """A few words, such as "The usual foot"."""
    lines: tuple[str, ...] = ()
    """Lines under the heading."""
    usual: tuple[float, float] | None = None
    """Interval of a usual day in points; None where there are not enough days yet."""
    today: float | None = None
    """Mean deviation of today's blips in points; None where there is none."""
    earlier: tuple[float, ...] = ()
    """Mean deviations of earlier days in points, oldest first."""


def measured_words(
    today: float, deviations: Sequence[float], earlier: Sequence[float]
) -> WarmUpWords:
    """Words of a warm-up with all its blips; all arguments are in points.

    `today` is the mean of its first blips, `deviations` those of each of its blips in order, and
    `earlier` the means of earlier days, oldest first.
    """
    foot = foot_today(today, earlier)
    return WarmUpWords(
        HEADINGS[foot.word],
        (*_lines(foot), *_outlier_line(foot, deviations, earlier)),
        None if foot.usual is None else (foot.usual.low, foot.usual.high),
        today,
        tuple(earlier[-NEWEST:]),
    )


def unmeasured_words(can_blip: bool) -> WarmUpWords:
    """Words of a warm-up that was left, took too long, or has other drills than blips."""
    if can_blip:
        return WarmUpWords("Warmed up", (f"It takes all {BLIPS} blips to tell how the foot is.",))
    return WarmUpWords(
        "Warmed up", ("Once a level of blips is passed, it says whether the foot is as usual.",)
    )


def _outlier_line(
    foot: FootToday, deviations: Sequence[float], earlier: Sequence[float]
) -> tuple[str, ...]:
    """A line about the worst blip, where it alone makes the day look unsteady."""
    if foot.word is not FootVerdict.LESS_STEADY:
        return ()
    eight = sorted(deviations[:BLIPS])
    if foot_today(fmean(eight[:-1]), earlier).word is not FootVerdict.USUAL:
        return ()
    return (f"It was one blip, of {eight[-1]:.0f} points: the other seven were as usual.",)


def _lines(foot: FootToday) -> tuple[str, ...]:
    """The lines of each verdict: advice, and how small a difference a warm-up can show."""
    if foot.usual is None:
        days = "1 more day" if foot.missing == 1 else f"{foot.missing} more days"
        return (f"After {days} with a warm-up it says whether the foot is the usual one.",)
    sensitivity = f"A difference of {foot.usual.sees:.1f} points or more is seen in one warm-up."
    match foot.word:
        case FootVerdict.STEADIER:
            return ("Brake as you trust it: the foot is quieter than on other days.", sensitivity)
        case FootVerdict.LESS_STEADY:
            return ("A few minutes more, or a little less brake: both are fine today.", sensitivity)
        case _:
            return ("Nothing tells it from your other days.", sensitivity)
