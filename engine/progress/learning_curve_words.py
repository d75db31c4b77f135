"""What the learning curve says, in a sentence or two, as a person would round it."""

from __future__ import annotations

from math import floor, log10

from drills.measures.catalogue import Measure
from engine.practice.changes import Change
from engine.progress.learning_curve import FLAT_DAYS, FLAT_UP_TO, Interval, LearningCurve, Trend

ROUND = (10, 12, 15, 20, 25, 30, 40, 50, 60, 80, 100)
"""What a person rounds to from ten on, times a power of ten."""
WEEK, MONTH = 7, 30.4
"""days."""
MONTHS_FROM = 61
"""days, from which on months are said."""
NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight")
"""Counts as words."""


def curve_words(
    growth: LearningCurve, measure: Measure, change: Change | None = None, good: float = 0.0
) -> str:
    """How a kind is learned. `change` is the one that the growth began at, where it did.

    `good` is the value, in the unit of the measure, up to which nothing needs to be changed: the
    limit of the hardest level of the kind. A flat foot is told to change something above it alone.
    """
    told = _told(growth, measure, good)
    if change is None:
        return told
    began = f"Since the change of {change.what.value} on {change.at.day} {change.at:%B}"
    if growth.going in (Trend.TOO_EARLY, Trend.WORSE):
        return f"{began}, worse at first is expected. {told}"
    return f"{began}: {told[0].lower()}{told[1:]}"


def _told(growth: LearningCurve, measure: Measure, good: float) -> str:
    if growth.going is Trend.LEARNING:
        return _left(growth.half)
    if growth.going is Trend.WORSE:
        return "It has got worse in the newest weeks."
    if growth.going is Trend.FLAT and growth.now is not None:
        _, value, high = growth.now
        at, lasted = measure.written(value), lasting(growth.flat_days)
        if high <= good:
            return f"Steady at {at} for {lasted}: good as it is."
        return f"Flat at {at} for {lasted}: change something."
    if not growth.days:
        return "Nothing to go by yet."
    if growth.days < FLAT_DAYS:
        days = f"{growth.days} {'day' if growth.days == 1 else 'days'}"
        return f"Too early to say: {days} of it so far."
    return "It cannot be told just now whether it still gets better."


def _left(half: Interval | None) -> str:
    if half is None:
        return "Getting better; how much is left cannot be told yet."
    low, value, high = half
    about = f"about {rounded(value)} more to halve what is left"
    return f"Getting better: {about} ({rounded_down(low)} to {rounded_up(high)})."


def rounded(count: float) -> int:
    """A count as a person would say it: the nearest round one."""
    return min(_round(count), key=lambda one: abs(one - count))


def rounded_down(count: float) -> int:
    """The highest round count that is no higher; 1 of one under 1."""
    return max((one for one in _round(count) if one <= count), default=1)


def rounded_up(count: float) -> int:
    """The lowest round count that is no lower."""
    return min(one for one in _round(count) if one >= count)


def lasting(days: int) -> str:
    """How long that is at least, in weeks or months."""
    if days >= FLAT_UP_TO:
        return "half a year"
    number, unit = (days / MONTH, "month") if days >= MONTHS_FROM else (days / WEEK, "week")
    whole = floor(number)
    return f"{NUMBERS[whole]} {unit}{'' if whole == 1 else 's'}"


def _round(count: float) -> list[int]:
    """The round counts about one, in order."""
    if count < ROUND[0]:
        return list(range(1, ROUND[0] + 1))
    power = 10 ** (floor(log10(count)) - 1)
    return [one * power for one in ROUND]
