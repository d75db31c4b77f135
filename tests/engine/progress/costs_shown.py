"""Made-up costs of counting, and the pages of the history that show them."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import date, timedelta

from engine.practice.counting_cost import CostOverTime, CountingRepetition, cost_over_time
from engine.progress.history_screens import HistoryPage
from engine.progress.progress import Progress
from tests.engine.practice.counting_made import about, weekly


def falling(
    today: date, weeks: int, first: float, last: float, spread: float = 4.0
) -> CostOverTime:
    """Six pairs a week up to today, whose cost falls from the first week to the last."""
    played = list[CountingRepetition]()
    for week in range(weeks):
        cost = first + (last - first) * week / max(weeks - 1, 1)
        day = today - timedelta(weeks=weeks - 1 - week)
        played += weekly(about(cost, 6, spread), first=day)
    return cost_over_time(played)


def counted(today: date, days: int) -> CostOverTime:
    """What counting costs after so many days of practice: nothing known, then less and less."""
    return falling(today, min(days // 7, 50), 11.0, 3.0)


def counting_screens(shown: Progress) -> Mapping[str, HistoryPage]:
    """Pages on the cost of counting by a name, beside that of one that falls."""
    today = shown.today
    costs = {
        "too early": falling(today, 1, 6.0, 6.0),
        "first": falling(today, 2, 9.0, 9.0),
        "none found": falling(today, 8, 0.5, 0.5),
        "less than nothing": falling(today, 20, -6.0, -6.0),
    }
    return {
        f"history counting, {name}": HistoryPage(replace(shown, counting=cost), "counting")
        for name, cost in costs.items()
    }
