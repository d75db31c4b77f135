"""Made-up repetitions with and without counting."""

from datetime import date, timedelta

from engine.practice.counting_cost import CountingRepetition

FIRST = date(2024, 3, 4)
LEVEL = "count-1"


def repetition(
    dip: float | None = 8.0,
    counts: bool = False,
    day: date = FIRST,
    level: str = LEVEL,
    settle: float | None = 0.3,
    missed: int = 0,
) -> CountingRepetition:
    """A repetition; where it counts, of five knocks that are answered `missed` too many."""
    knocks = 5 if counts else None
    return CountingRepetition(
        day, level, dip, settle, knocks, None if knocks is None else 5 + missed
    )


def weekly(costs: list[float], a_week: int = 6, first: date = FIRST) -> list[CountingRepetition]:
    """Pairs with these costs in points, the one with counting first in every second pair."""
    made = []
    for number, cost in enumerate(costs):
        day = first + timedelta(weeks=number // a_week)
        settle = 0.3 + 0.02 * cost + 0.1 * (number % 3 - 1)
        counts = repetition(8.0 + cost, counts=True, day=day, settle=settle)
        pair = [repetition(8.0, day=day), counts]
        made += pair[:: -1 if number % 2 else 1]
    return made


def about(cost: float, pairs: int, spread: float = 2.0) -> list[float]:
    """So many costs about a mean, evenly to both sides."""
    return [cost + (spread if number % 2 else -spread) for number in range(pairs)]
