"""Words on the cost of counting: the number first, and never more than is sure."""

from dataclasses import replace
from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from engine.drill.cost_words import (
    answers_words,
    beside_words,
    figures_words,
    lead_words,
    likely_words,
    month_words,
    size_words,
)
from engine.practice.counting_cost import NEWEST, NO_COST, CostEstimate, cost_over_time
from tests.engine.practice.counting_made import FIRST, about, weekly
from tests.engine.progress.costs_shown import falling

TODAY = date(2024, 5, 17)


def test_a_cost_that_is_sure_is_told_with_its_likely_range() -> None:
    cost = falling(TODAY, 6, 6.0, 6.0)

    assert cost.now is not None
    dip = cost.now.dip
    expected = f"Counting costs you 6.0 points, likely {dip.low:.1f} to {dip.high:.1f}."
    assert lead_words(cost) == expected
    assert beside_words(cost, TODAY) == ""


def test_a_cost_that_is_not_sure_is_told_with_what_would_be_found() -> None:
    cost = falling(TODAY, 2, 0.2, 0.2)

    assert cost.now is not None
    assert lead_words(cost) == "Counting costs nothing that 12 pairs could find."
    found = f"{cost.now.dip.found:.1f}"
    assert beside_words(cost, TODAY) == f"A cost of {found} points would show in 4 of 5 tries."


def test_a_smaller_dip_while_counting_is_told_as_that() -> None:
    assert lead_words(falling(TODAY, 6, -6.0, -6.0)).startswith(
        "Counting makes dips 6.0 points smaller, likely "
    )


def test_an_earlier_month_stands_beside_a_cost_that_surely_differs() -> None:
    cost = cost_over_time(weekly([*about(15.0, 24), *about(3.0, NEWEST)]))

    assert beside_words(cost, TODAY) == "In Mar it was 15.0 points."
    assert beside_words(cost, date(2025, 1, 1)) == "In Mar 2024 it was 15.0 points."


def test_before_there_are_enough_pairs_they_are_counted() -> None:
    few = falling(TODAY, 1, 6.0, 6.0)

    assert lead_words(few) == "Too early to say: 6 of 12 pairs."
    assert lead_words(NO_COST) == ""
    assert beside_words(few, TODAY) == ""


def test_the_figures_say_settling_answers_pairs_and_the_size_of_blip() -> None:
    slow = cost_over_time(weekly(about(10.0, NEWEST)))
    same = cost_over_time(weekly(about(0.0, NEWEST)))

    told, settles, pairs, size = figures_words(slow, TODAY)

    assert told == "36 of 36 answers exactly right."
    assert settles.startswith("Settling takes 0.20 s longer, likely ")
    assert pairs == "36 pairs, 4 Mar to 8 Apr."
    assert size == "Dips count as at a blip of 60 %."
    assert figures_words(same, TODAY)[1].startswith("Settling: no cost found, 0.0")


def test_a_single_answer_is_told_in_the_singular() -> None:
    assert answers_words(replace(NO_COST, answers=1, right=0)) == "0 of 1 answer exactly right."
    assert answers_words(NO_COST) == ""


@given(st.floats(-30, 30), st.floats(0.001, 30))
def test_what_is_told_is_never_nothing(value: float, reach: float) -> None:
    cost = CostEstimate(value, value - reach, value + reach, 1.0)

    likely = likely_words(cost)

    assert bool(likely) == cost.is_told
    assert not cost.is_told or "0.0" not in {size_words(cost), *likely.split()}


def test_a_month_has_its_year_only_where_that_is_another() -> None:
    assert month_words(FIRST, TODAY) == "Mar"
    assert month_words(FIRST, TODAY + timedelta(days=365)) == "Mar 2024"
