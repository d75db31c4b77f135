"""Words on what counting costs: whether a blip goes by itself while the player counts knocks."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from engine.date_words import range_words
from engine.practice.blip_size import BLIP
from engine.practice.counting_cost import LEAST, CostEstimate, CostOverTime, CountingCost

QUESTION = "Does it go by itself?"
"""Question that the cost of counting answers: heading of its page and of its session."""
SCALED = f"Dips count as at a blip of {BLIP:g} %."
"""Sentence on the size of blip that dips are scaled to."""
POINTS, SECONDS = 1, 2
"""Decimals of a cost in points, and of one in seconds, as a count."""


def lead_words(cost: CostOverTime) -> str:
    """The answer, such as "Counting costs you 6.1 points, likely 2.3 to 9.9."; empty for none."""
    if cost.now is None:
        return f"Too early to say: {cost.pairs} of {LEAST} pairs." if cost.pairs else ""
    dip = cost.now.dip
    if not dip.is_told:
        return f"Counting costs nothing that {cost.now.pairs} pairs could find."
    size, likely = size_words(dip), likely_words(dip)
    if dip.value > 0:
        return f"Counting costs you {size} points, {likely}."
    return f"Counting makes dips {size} points smaller, {likely}."


def beside_words(cost: CostOverTime, today: date) -> str:
    """Sentence beside the answer: an earlier month that surely differs, or what would be found."""
    if cost.now is None:
        return ""
    if cost.before is not None:
        return before_words(cost.before, today)
    if not cost.now.dip.is_told:
        return f"A cost of {cost.now.dip.found:.{POINTS}f} points would show in 4 of 5 tries."
    return ""


def before_words(month: CountingCost, today: date) -> str:
    """What counting cost in an earlier month, such as "In May it was 11.0 points."."""
    was = f"{month.dip.value:.{POINTS}f}"
    return f"In {month_words(month.first, today)} it was {was} points."


def month_words(day: date, today: date) -> str:
    """Month of a day, with its year if that is not the present one."""
    return f"{day:%b}" if day.year == today.year else f"{day:%b %Y}"


def figures_words(cost: CostOverTime, today: date) -> tuple[str, ...]:
    """Everything else there is to say: settling, answers, the pairs it is told from."""
    return tuple(_figures(cost, today))


def answers_words(cost: CostOverTime) -> str:
    """How many answers were exactly right; empty before the first."""
    if not cost.answers:
        return ""
    answers = "answer" if cost.answers == 1 else "answers"
    return f"{cost.right} of {cost.answers} {answers} exactly right."


def _figures(cost: CostOverTime, today: date) -> Iterator[str]:
    if answers := answers_words(cost):
        yield answers
    if cost.now is None:
        return
    settle = cost.now.settle
    if settle.is_told:
        size, likely = size_words(settle, SECONDS), likely_words(settle, SECONDS)
        side = "longer" if settle.value > 0 else "less"
        yield f"Settling takes {size} s {side}, {likely}."
    else:
        yield f"Settling: no cost found, {settle.found:.{SECONDS}f} s would show."
    yield f"{cost.now.pairs} pairs, {range_words(cost.now.first, cost.now.last, today)}."
    yield SCALED


def size_words(cost: CostEstimate, digits: int = POINTS) -> str:
    """Size of a cost that is told, without its sign: never 0."""
    return f"{max(abs(cost.value), 10.0**-digits):.{digits}f}"


def likely_words(cost: CostEstimate, digits: int = POINTS) -> str:
    """Likely range of a cost that is told, without its sign: 0 is never in it; else empty."""
    if not cost.is_told:
        return ""
    ends = sorted((abs(cost.low), abs(cost.high)))
    low, high = (f"{max(end, 10.0**-digits):.{digits}f}" for end in ends)
    return f"likely {low} to {high}"
