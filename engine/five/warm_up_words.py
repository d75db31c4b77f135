"""Words at the end of a warm-up: whether today's foot is as usual, and by how much it differs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import fmean

from engine.five.usual_foot import BLIPS, NEWEST, FootToday, FootVerdict, foot_today
from engine.practice.remeasuring import Remeasuring

HEADINGS = {
    FootVerdict.NOT_ENOUGH: "Warmed up: not enough days yet",
    FootVerdict.USUAL: "Warmed up: the usual foot",
    FootVerdict.STEADIER: "Warmed up: steadier than usual",
    FootVerdict.LESS_STEADY: "Warmed up: not as steady as usual",
}
"""Heading of the screen at the end of a warm-up, by the verdict on today's foot."""


@dataclass(frozen=True)
class WarmUpWords:
    """Words and numbers about today's foot on the screen at the end of a warm-up."""

    heading: str
    """Heading of the screen, such as "Warmed up: the usual foot"."""
    lines: tuple[str, ...] = ()
    """Lines of text under the heading: advice, and what the warm-up would notice."""
    usual: tuple[float, float] | None = None
    """Mean deviations that are usual, lowest and highest, in points; None if days are missing."""
    today: float | None = None
    """Mean deviation of today's warm-up blips, in points; None if they were not all measured."""
    earlier: tuple[float, ...] = ()
    """Mean deviation of the warm-up on each earlier day, in points, oldest first."""


def measured_words(
    today: float, deviations: Sequence[float], earlier: Sequence[float]
) -> WarmUpWords:
    """Words for a warm-up in which all blips were measured; all arguments are in points.

    `today` is the mean of its first blips, `deviations` those of each of its blips in order, and
    `earlier` the means of earlier days, oldest first; all are scaled to one size of blip.
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
    """Words for a warm-up without all its blips measured: left early, too slow, or no blips."""
    if can_blip:
        return WarmUpWords("Warmed up", (f"It takes all {BLIPS} blips to tell how the foot is.",))
    return WarmUpWords("Warmed up", ("Pass a level of blips, then it compares your foot.",))


def waiting_words(waits: Remeasuring) -> WarmUpWords:
    """Words for a warm-up that cannot be compared yet, as earlier ones are being remeasured."""
    return WarmUpWords("Warmed up", (waits.words,))


def _outlier_line(
    foot: FootToday, deviations: Sequence[float], earlier: Sequence[float]
) -> tuple[str, ...]:
    """Line about the worst blip of a warm-up, if it alone makes the foot look less steady."""
    if foot.word is not FootVerdict.LESS_STEADY:
        return ()
    eight = sorted(deviations[:BLIPS])
    if foot_today(fmean(eight[:-1]), earlier).word is not FootVerdict.USUAL:
        return ()
    return (f"One blip of {eight[-1]:.0f} points: the other seven were as usual.",)


def noticed_words(chance: float) -> str:
    """Sentence that says how often a warm-up would notice a foot worse by half."""
    days = round(10 * chance)
    if not 0 < days < 10:
        return f"It would {'nearly always' if days else 'hardly ever'} notice a foot worse by half."
    return f"On {days} of 10 days it notices a foot worse by half."


def _lines(foot: FootToday) -> tuple[str, ...]:
    """Lines under the verdict: advice, and how often a warm-up would notice a worse foot."""
    if foot.usual is None:
        days = "1 more day" if foot.missing == 1 else f"{foot.missing} more days"
        return (f"{days} of warm-up, then it compares your foot.",)
    sensitivity = noticed_words(foot.usual.notices)
    match foot.word:
        case FootVerdict.STEADIER:
            return ("Your foot is quieter than on your other days.", sensitivity)
        case FootVerdict.LESS_STEADY:
            return ("Warm up a little longer, or brake a little less.", sensitivity)
        case _:
            return ("No different from your other days.", sensitivity)
