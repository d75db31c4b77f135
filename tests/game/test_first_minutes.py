"""A beginner's first minutes in a real window: the order of the screens, and every way out."""

from collections.abc import Collection
from itertools import groupby

from tests.game.days import Day, ScriptedDays
from tests.game.first_day import events, rows
from tests.game.first_minutes import REPETITIONS
from tests.waiting import EventTail

REPEATED = {"repetition", "reveal"}
"""Screens of a repetition, which come as often as one is played."""


def order(day: Day, known: Collection[object]) -> list[object]:
    """Names of the screens of a day in order, each visit once, of those that are known."""
    names = (event["name"] for event in events(day.events, "screen"))
    return [name for name, _ in groupby(name for name in names if name in known)]


def test_feet_alone_lead_from_the_cautions_through_five_minutes_and_out(days: ScriptedDays) -> None:
    day = days.day("first_minutes")

    begins = ["cautions", "fill the screen", "pedals", "pedals found", "pedals menu", "home"]
    ends = ["menu", "day end", "home"]
    assert order(day, {*begins, *ends}) == begins + ends
    # A busy machine may lose one, which is then played again, or the screen that says so comes.
    screens = order(day, {"home", "menu", *REPEATED})
    first, pause = screens.index("repetition"), screens.index("menu")
    assert screens[0] == screens[first - 1] == screens[-1] == "home"
    assert {*screens[first:pause]} == REPEATED
    assert screens[first:pause].count("reveal") >= REPETITIONS
    assert EventTail(day.events).seen[-1]["event"] == "closed"
    assert rows(day.data, "SELECT DISTINCT source FROM repetition") == [("pedals",)]


def test_keys_alone_lead_from_the_cautions_to_a_repetition_and_out(days: ScriptedDays) -> None:
    day = days.day("first_minutes_by_keys")

    known = ["cautions", "fill the screen", "no pedals", "home", "ladder", "repetition"]
    assert order(day, known) == [*known, "home"]
    assert EventTail(day.events).seen[-1]["event"] == "closed"
    assert rows(day.data, "SELECT count(*) FROM repetition") == [(0,)]
