"""Where the cost of counting is told besides: at the end of a day, on home, and in the plan."""

from dataclasses import replace

import pytest

from engine.commands.five import plan_text
from engine.five.counting_screens import CountingEnd, CountingOffer
from engine.five.day_words import cost_line
from engine.five.forecast import Forecast
from engine.five.player_state import PlayerState
from engine.game.home_words import NO_REST_DAY, PLACING_OFFER, WARM_UP_COUNTS, first_line
from engine.practice.counting_cost import NO_COST, CostOverTime
from engine.practice.results import Session, SessionKind
from tests.engine.five.counting_levels import EASY
from tests.engine.five.made_days import DAY
from tests.engine.five.pictures import EARLY, LATER, LONG_LOST, NOT_YET_TODAY, TODAY
from tests.engine.five.unattended import DATE
from tests.engine.kit.recording_canvas import said
from tests.engine.progress.costs_shown import falling

TOLD, NONE = falling(TODAY, 6, 6.0, 6.0), falling(TODAY, 2, 0.2, 0.2)


@pytest.mark.parametrize(
    ("cost", "words", "note"),
    [
        (TOLD, "Counting costs 6.0", "points, likely "),
        (falling(TODAY, 6, -6.0, -6.0), "Counting saves 6.0", "points, likely "),
        (NONE, "No cost of counting found", ""),
        (falling(TODAY, 1, 6.0, 6.0), "Counting: too early", "6 of 12 pairs"),
    ],
)
def test_a_day_with_counting_has_a_line_on_its_cost(
    cost: CostOverTime, words: str, note: str
) -> None:
    line = cost_line(cost)

    assert line.words == words
    assert line.note.startswith(note)


def test_a_day_without_counting_says_nothing_of_it() -> None:
    with_cost = replace(DAY, cost=TOLD)

    assert cost_line(TOLD) in with_cost.lines
    assert not [line for line in DAY.lines if "Counting" in line.words]


def test_home_says_before_that_the_warm_up_is_one_of_counting() -> None:
    assert [*first_line(LATER, EARLY, placing=False, warm_up_counts=True)] == [WARM_UP_COUNTS]


def test_a_new_player_a_lost_streak_and_one_that_ends_today_come_first() -> None:
    new = [*first_line(LATER, None, placing=True, warm_up_counts=True)]
    lost = [*first_line(LONG_LOST, EARLY, placing=False, warm_up_counts=True)]
    ends = [*first_line(NOT_YET_TODAY, EARLY, placing=False, warm_up_counts=True)]

    assert new == [PLACING_OFFER]
    assert WARM_UP_COUNTS not in lost
    assert NO_REST_DAY in ends[0]


@pytest.mark.parametrize(("done", "day"), [(False, "Today"), (True, "Tomorrow")])
def test_the_plan_says_of_which_day_the_warm_up_is_one_of_counting(done: bool, day: str) -> None:
    session = Session(0, SessionKind.FIVE, DATE, 5.0, 1)
    coming = Forecast(PlayerState(TODAY, [EASY]), session, done)

    with_it, without = plan_text([], coming, warm_up_counts=True), plan_text([], coming)

    assert with_it.splitlines()[-1] == f"{day}'s warm-up: does it go by itself?"
    assert "by itself" not in without


def test_the_offer_says_what_comes_and_leads_to_the_usual_warm_up_and_home() -> None:
    offer = CountingOffer(EASY)

    assert offer.details()["choices"] == ["Begin", "Usual warm-up", "Home"]
    assert "Count the high knocks while you blip." in said(offer)


def test_the_end_says_the_cost_and_how_well_was_counted() -> None:
    assert CountingEnd(TOLD, TODAY).more == "36 of 36 answers exactly right."
    assert CountingEnd(NO_COST, TODAY).lead == "Too early to say: no pair yet of 12."
    assert CountingEnd(None, TODAY).details()["pairs"] == 0
