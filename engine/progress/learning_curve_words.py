"""Sentences about a learning curve, with numbers rounded as a person would round them."""

from __future__ import annotations

from math import floor, log10

from drills.measures.catalogue import Measure
from engine.practice.changes import Change, Changed
from engine.progress.learning_curve import FLAT_DAYS, FLAT_UP_TO, Interval, LearningCurve, Trend

ROUND = (10, 12, 15, 20, 25, 30, 40, 50, 60, 80, 100)
"""Round numbers from 10 to 100; times powers of ten they give the larger ones."""
WEEK, MONTH = 7, 30.4
"""Days in a week, and in a month on average."""
MONTHS_FROM = 61
"""Number of days from which a duration is written in months, not weeks."""
NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight")
"""Words for the numbers from 0 to 8."""


def curve_words(
    learning: LearningCurve, measure: Measure, change: Change | None = None, good: float = 0.0
) -> str:
    """How a kind of drill is learned, in a sentence or two; `change` is where its curve begins.

    `good` is the value, in the unit of the measure, up to which nothing needs to change: the limit
    of the hardest level of the kind. Only above it is a flat foot advised to change something.
    """
    sentence = _sentence(learning, measure, good)
    if change is None:
        return sentence
    if change.what is Changed.SCALE:
        on = f"On the brake's scale since {change.at.day} {change.at:%B}"
        return f"{on}: {sentence[0].lower()}{sentence[1:]}"
    began = f"Since the change of {change.what.value} on {change.at.day} {change.at:%B}"
    if learning.trend in (Trend.TOO_EARLY, Trend.WORSE):
        return f"{began}, worse at first is expected. {sentence}"
    return f"{began}: {sentence[0].lower()}{sentence[1:]}"


def _sentence(learning: LearningCurve, measure: Measure, good: float) -> str:
    if learning.trend is Trend.LEARNING:
        return _left(learning.half)
    if learning.trend is Trend.WORSE:
        return "It has got worse in the newest weeks."
    if learning.trend is Trend.FLAT and learning.now is not None:
        _, value, high = learning.now
        at, lasted = measure.written(value), lasting(learning.flat_days)
        if high <= good:
            return f"Steady at {at} for {lasted}: good as it is."
        return f"Flat at {at} for {lasted}: change something."
    if not learning.days:
        return "Nothing to go by yet."
    if learning.days < FLAT_DAYS:
        days = f"{learning.days} {'day' if learning.days == 1 else 'days'}"
        return f"Too early to say: {days} of it so far."
    return "It cannot be told just now whether it still gets better."


def _left(half: Interval | None) -> str:
    if half is None:
        return "Getting better; how much is left cannot be told yet."
    low, value, high = half
    about = f"about {rounded(value)} more to halve what is left"
    return f"Getting better: {about} ({rounded_down(low)} to {rounded_up(high)})."


def rounded(count: float) -> int:
    """Round number nearest to a count, as a person would say it."""
    return min(_round(count), key=lambda number: abs(number - count))


def rounded_down(count: float) -> int:
    """Largest round number that is not above a count; 1 for a count below 1."""
    return max((number for number in _round(count) if number <= count), default=1)


def rounded_up(count: float) -> int:
    """Smallest round number that is not below a count."""
    return min(number for number in _round(count) if number >= count)


def lasting(days: int) -> str:
    """Duration in whole weeks or months, rounded down, in words such as "three weeks"."""
    if days >= FLAT_UP_TO:
        return "half a year"
    number, unit = (days / MONTH, "month") if days >= MONTHS_FROM else (days / WEEK, "week")
    whole = floor(number)
    return f"{NUMBERS[whole]} {unit}{'' if whole == 1 else 's'}"


def _round(count: float) -> list[int]:
    """Round numbers around a count, some below and some above it, in order."""
    if count < ROUND[0]:
        return list(range(1, ROUND[0] + 1))
    power = 10 ** (floor(log10(count)) - 1)
    return [number * power for number in ROUND]
