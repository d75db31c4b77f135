"""A pair of repetitions with and without knocks in a real window, answered by throttle taps."""

import pytest

from engine.store import open_history
from engine.store.repetitions import measures_of
from tests.game.counting import COUNTING, PAIR
from tests.game.days import Day, ScriptedDays
from tests.game.first_day import events
from tests.game.foot_log import counted_of

NEAR = 1.0
"""Points by which a dip may be off, as for the other kinds."""


@pytest.fixture
def day(days: ScriptedDays) -> Day:
    """The day of a counted pair."""
    return days.day("two_counted")


def counted_measures(day: Day) -> list[dict[str, float | None]]:
    """Measures of each counted repetition, the one with knocks to count last."""
    repetitions = counted_of(day.data, day.events, COUNTING.id)
    with open_history(day.data, []) as history:
        measures = [dict(measures_of(history, one.number)) for one in repetitions]
    return sorted(measures, key=lambda one: "knocks" in one)


def test_one_of_a_pair_asks_for_the_count_and_the_taps_are_stored(day: Day) -> None:
    measures = counted_measures(day)

    assert ["knocks" in one for one in measures] == [False, True]
    assert len(measures) == PAIR
    assert measures[1]["counted"] == measures[1]["knocks"]
    assert measures[1]["knocks"]


def test_a_blip_is_measured_alike_with_knocks_and_without(day: Day) -> None:
    dips = [one["dip"] for one in counted_measures(day)]

    assert dips == pytest.approx([COUNTING.known["dip"]] * PAIR, abs=NEAR)


def test_every_knock_was_heard_and_an_answer_of_taps_was_asked_for(day: Day) -> None:
    knocks = events(day.events, "knock")
    answers = [one for one in events(day.events, "screen") if one["name"] == "count"]

    assert knocks
    assert all(knock["heard"] for knock in knocks)
    assert answers[-1]["counted"] == counted_measures(day)[1]["knocks"]
