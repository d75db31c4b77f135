"""Screens of the session of counting, as they come up before it and after it."""

from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any

from drills.level import Level
from engine.five.counting_screens import CountingEnd, CountingOffer
from engine.kit.base import Screen
from engine.practice.counting_cost import CostOverTime
from tests.engine.progress.costs_shown import falling


def counting_session_screens(levels: Sequence[Level], today: date) -> Mapping[str, Screen[Any]]:
    """The screens by a name."""
    costs = {
        "first": falling(today, 1, 6.0, 6.0),
        "told": falling(today, 2, 9.0, 9.0),
        "fell": falling(today, 50, 11.0, 3.0),
        "none found": falling(today, 8, 0.5, 0.5),
        "no pair": CostOverTime(),
        "remeasured": None,
    }
    return {
        "counting offer": CountingOffer(levels[0]),
        **{f"counted, {name}": CountingEnd(cost, today) for name, cost in costs.items()},
    }
