"""Sentences about a learning curve, with numbers rounded as a person would round them."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from math import floor

from drills.capitals import capitalised
from drills.measures.catalogue import Measure
from drills.number_words import number_words
from engine.date_words import dated_words
from engine.practice.changes import EXCUSED, Change, Changed
from engine.practice.day_effects import FEWEST, SPAN
from engine.practice.level_days import FEWEST_DAYS, NEW_DAYS
from engine.practice.weighted_slope import OverDays
from engine.progress.learning_curve import FLAT_UP_TO, LearningCurve, Trend
from engine.progress.round_numbers import share_words, share_words_up

WEEK, MONTH = 7, 30.4
"""Days in a week, and in a month on average."""
MONTHS_FROM = 61
"""Number of days from which a duration is written in months, not weeks."""
SEEN = 0.75
"""Largest share that is told as what would have been found: more is no help to anyone."""
SLIGHT = 0.05
"""Share below which an end of an interval is written as nothing."""
LARGE = 0.95
"""Share above which an end of an interval is written as "or more"."""
UNSURE = "by how much is uncertain"
"""Words for an interval that holds nearly nothing and nearly all."""


@dataclass(frozen=True)
class CurveWords:
    """Sentences about how a kind of drill is learned."""

    trend: str
    """The sentence that matters first: better, worse, flat, or not known."""
    beside: str = ""
    """Sentence beside it: until when being worse is excused, or what is ahead; may be empty."""
    more: tuple[str, ...] = ()
    """Further sentences: how sure that is, and since when it is counted."""

    @property
    def sentences(self) -> tuple[str, ...]:
        """All sentences, the most telling first."""
        return tuple(filter(None, (self.trend, self.beside, *self.more)))


def curve_words(
    learning: LearningCurve,
    measure: Measure,
    today: date,
    change: Change | None = None,
    good: float = 0.0,
) -> CurveWords:
    """How a kind of drill is learned, in sentences; `change` is where its curve begins.

    `good` is the value, in the unit of the measure, up to which nothing needs to change: the limit
    of the hardest level of the kind. Only above it is a flat foot advised to change something.
    """
    is_excused = change is not None and change.excuses(today)
    found = learning.over_days
    trend = _trend(learning, measure, good, may_advise=not is_excused)
    more = () if found is None else tuple(filter(None, (_sureness(learning.trend, found),)))
    if change is None:
        return CurveWords(trend, _ahead(learning, measure), more)
    if is_excused and learning.trend is not Trend.LEARNING:
        until = change.at.date() + EXCUSED
        beside = f"Being worse is excused until {dated_words(until, today)}."
    else:
        beside = _ahead(learning, measure)
    return CurveWords(trend, beside, (*more, _since(change, today)))


def _since(change: Change, today: date) -> str:
    """Sentence on the change at which a curve begins."""
    on = f"on {dated_words(change.at.date(), today)}"
    if change.what is Changed.SCALE:
        return f"Counted since the brake's new scale {on}."
    of = "" if change.what is Changed.OTHER else f" of {change.what.value}"
    return f"Counted since the change{of} {on}."


def _trend(learning: LearningCurve, measure: Measure, good: float, *, may_advise: bool) -> str:
    found = learning.over_days
    if not learning.repetitions:
        return "Nothing to go by yet."
    if found is None:
        return f"Too early to say. No level has {number_words(NEW_DAYS + FEWEST_DAYS)} days yet."
    if learning.trend is Trend.TOO_EARLY:
        return f"Too early to say. {learning.days} of {FEWEST} days to compare."
    if learning.trend is Trend.LEARNING:
        return f"Getting better, {_change(found)}."
    if learning.trend is Trend.WORSE:
        return f"Getting worse, {_change(found)}."
    if learning.trend is Trend.FLAT and learning.now is not None:
        return _flat(learning, measure, good, may_advise=may_advise)
    return "No clear change."


def _sureness(trend: Trend, found: OverDays) -> str:
    """Sentence on how sure a trend is, or on what would have been found; empty for neither."""
    low, value, high = found.change
    if trend is Trend.NONE and found.smallest_found <= SEEN:
        return (
            f"{_begun(share_words_up(found.smallest_found))} less in {SPAN} days would likely show."
        )
    if trend is Trend.NONE:
        return "Too few days yet to see even a large change."
    if trend not in (Trend.LEARNING, Trend.WORSE) or -low > LARGE or value > LARGE:
        return ""
    way, ends = ("less", (-high, -low)) if value <= 0 else ("more", (low, high))
    share = _range(*ends)
    return (
        "By how much is uncertain." if share == UNSURE else f"In {SPAN} days likely {share} {way}."
    )


def _begun(words: str) -> str:
    return capitalised(words)


def _change(found: OverDays) -> str:
    """Change in 50 days, such as "a third less in 50 days"."""
    low, value, high = found.change
    if -high < SLIGHT and -low > LARGE:
        return UNSURE
    if -low > LARGE:
        return f"at least {share_words(-high)} less in {SPAN} days"
    if value <= 0:
        return f"{share_words(-value)} less in {SPAN} days"
    if value > LARGE:
        return f"more than twice in {SPAN} days" if value > 1 else f"twice as much in {SPAN} days"
    return f"{share_words(value)} more in {SPAN} days"


def _range(low: float, high: float) -> str:
    """Interval of a share, in words."""
    if low < SLIGHT and high > LARGE:
        return UNSURE
    if high > LARGE:
        return f"{share_words(low)} or more"
    if low < SLIGHT:
        return f"up to {share_words(high)}"
    ends = share_words(low), share_words(high)
    return f"about {ends[0]}" if ends[0] == ends[1] else f"{ends[0]} to {ends[1]}"


def _ahead(learning: LearningCurve, measure: Measure) -> str:
    """What the curve comes to, as a sentence; empty without a curve."""
    if learning.ahead is None or learning.now is None:
        return ""
    value, more = measure.written(learning.ahead.value[1]), learning.ahead.repetitions
    if value == measure.written(learning.now[1]):
        return f"Hardly less after {more} more repetitions."
    return f"About {value} after {more} more repetitions."


def _flat(learning: LearningCurve, measure: Measure, good: float, *, may_advise: bool) -> str:
    assert learning.now is not None
    _, value, high = learning.now
    at, lasted = measure.written(value), lasting(learning.flat_days)
    if high <= good:
        return f"Steady at {at} for {lasted}, good as it is."
    if learning.mix_moved:
        return f"Flat at {at} for {lasted}, while levels changed."
    return f"Flat at {at} for {lasted}.{' Change something.' if may_advise else ''}"


def lasting(days: int) -> str:
    """Duration in whole weeks or months, rounded down, in words such as "three weeks"."""
    if days >= FLAT_UP_TO:
        return "half a year"
    number, unit = (days / MONTH, "month") if days >= MONTHS_FROM else (days / WEEK, "week")
    whole = floor(number)
    return f"{number_words(whole)} {unit}{'' if whole == 1 else 's'}"
