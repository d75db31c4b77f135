"""Sentences about a learning curve, and that they never contradict its figures."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime
from math import log

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.measures.catalogue import CATALOGUE
from engine.practice.changes import Change, Changed
from engine.practice.day_effects import SPAN, Slope
from engine.practice.weighted_slope import OverDays
from engine.progress.ahead import Ahead
from engine.progress.learning_curve import LearningCurve, Trend
from engine.progress.learning_curve_words import curve_words, lasting

DIP = CATALOGUE["dip"]
SHOES = Change(datetime(2026, 5, 12, 20, tzinfo=UTC), Changed.SHOES, 40)
LATER = date(2026, 8, 1)


def over(share: float, error: float = 0.1) -> OverDays:
    """A slope that changes a measure by a share in 50 days; `error` is of that, in logarithms."""
    slope = Slope(log(1 + share) / SPAN, error / SPAN, 50, 0.5, 0.5)
    return OverDays(slope, slope)


EARLY = LearningCurve(Trend.TOO_EARLY, 99, 7, over(0.0))
LEARNING = LearningCurve(Trend.LEARNING, 300, 50, over(-1 / 3), (4.1, 5.2, 6.4))
NONE = LearningCurve(Trend.NONE, 300, 50, over(0.0), (4.1, 5.2, 6.4))
FLAT = LearningCurve(Trend.FLAT, 300, 50, over(0.0), (7.2, 8.1, 9.3), flat_days=50)
WORSE = LearningCurve(Trend.WORSE, 300, 50, over(0.5), (7.2, 8.1, 9.3))
FLAT_WORDS = "Flat at 8 points for seven weeks: change something."


@pytest.mark.parametrize(
    ("learning", "said"),
    [
        (LearningCurve(Trend.TOO_EARLY, 0, 0), "Nothing to go by yet."),
        (LearningCurve(Trend.TOO_EARLY, 20, 0), "Too early to say: no level has five days yet."),
        (EARLY, "Too early to say: 7 of 10 days to compare."),
        (LEARNING, "Getting better: a third less in 50 days (a fifth to half)."),
        (
            replace(LEARNING, ahead=Ahead(300, (3.4, 4.2, 5.2))),
            "Getting better: a third less in 50 days (a fifth to half)."
            " About 4 points after 300 more.",
        ),
        (
            replace(LEARNING, ahead=Ahead(300, (4.4, 5.1, 5.9))),
            "Getting better: a third less in 50 days (a fifth to half)."
            " Hardly less after 300 more.",
        ),
        (
            replace(LEARNING, over_days=over(-0.5, 0.34)),
            "Getting better: half less in 50 days (up to three quarters).",
        ),
        (
            replace(LEARNING, over_days=over(-0.85, 0.6)),
            "Getting better: at least half less in 50 days.",
        ),
        (
            replace(LEARNING, over_days=over(-0.8, 0.8)),
            "Getting better: how much is unsure.",
        ),
        (
            replace(WORSE, over_days=over(0.5, 0.5)),
            "Getting worse: half more in 50 days (how much is unsure).",
        ),
        (NONE, "No trend; a quarter less in 50 days would likely be seen."),
        (
            replace(NONE, over_days=over(0.0, 0.6)),
            "No trend; too few days yet to see even a large one.",
        ),
        (FLAT, FLAT_WORDS),
        (replace(FLAT, mix_moved=True), "Flat at 8 points for seven weeks, while levels changed."),
        (
            replace(FLAT, now=(2.6, 3.1, 3.9), flat_days=22),
            "Steady at 3 points for three weeks: good as it is.",
        ),
        (WORSE, "Getting worse: half more in 50 days (a quarter to nine tenths)."),
        (
            replace(WORSE, over_days=over(1.5, 0.2)),
            "Getting worse: more than twice in 50 days.",
        ),
    ],
)
def test_every_trend_has_its_sentence(learning: LearningCurve, said: str) -> None:
    assert curve_words(learning, DIP, LATER, good=4.0) == said


def test_a_new_scale_is_named_and_nothing_worse_is_expected_of_it() -> None:
    change = Change(datetime(2024, 5, 12, 20, tzinfo=UTC), Changed.SCALE, 10)

    said = curve_words(EARLY, DIP, date(2024, 5, 14), change)

    assert said == "On the brake's scale since 12 May, too early to say: 7 of 10 days to compare."


@pytest.mark.parametrize("learning", [EARLY, NONE, WORSE])
def test_worse_at_first_is_expected_for_three_weeks_after_a_change_and_no_longer(
    learning: LearningCurve,
) -> None:
    plain = curve_words(learning, DIP, LATER)
    first, last, then = (
        curve_words(learning, DIP, date(2026, *day), SHOES) for day in ((5, 12), (6, 1), (6, 2))
    )

    expected = "Since the change of shoes on 12 May, being worse is excused until 2 June."
    assert first == last == f"{expected} {plain}"
    assert then == f"Since the change of shoes on 12 May, {plain[0].lower()}{plain[1:]}"


def test_a_foot_that_learns_after_a_change_is_told_of_nothing_worse() -> None:
    said = curve_words(LEARNING, DIP, date(2026, 5, 30), SHOES)

    assert said.startswith("Since the change of shoes on 12 May, getting better: a third less")


def test_a_change_of_another_kind_is_told_by_its_day_alone() -> None:
    said = curve_words(NONE, DIP, LATER, replace(SHOES, what=Changed.OTHER, note="seat back"))

    assert said.startswith("Since the change on 12 May, no trend;")


def test_no_change_is_advised_while_the_last_one_is_three_weeks_old_at_most() -> None:
    early, late = (curve_words(FLAT, DIP, day, SHOES) for day in (date(2026, 6, 1), LATER))

    assert "change something" not in early
    assert late.endswith(": change something.")


@pytest.mark.parametrize(
    ("days", "said"),
    [
        (14, "two weeks"),
        (20, "two weeks"),
        (22, "three weeks"),
        (60, "eight weeks"),
        (61, "two months"),
        (181, "five months"),
        (182, "half a year"),
    ],
)
def test_a_duration_is_rounded_down_to_weeks_or_months(days: int, said: str) -> None:
    assert lasting(days) == said


@given(share=st.floats(-0.9, 3.0), error=st.floats(0.01, 2.0))
def test_what_would_be_seen_is_never_less_than_what_can_be(share: float, error: float) -> None:
    found = over(share, error)

    said = curve_words(replace(NONE, over_days=found), DIP, LATER)

    shares = {"a tenth": 0.1, "a fifth": 0.2, "a quarter": 0.25, "a third": 1 / 3, "half": 0.5}
    shares |= {"two thirds": 2 / 3, "three quarters": 0.75}
    told = [value for words, value in shares.items() if f"; {words} less" in said]
    assert len(told) == (found.smallest_found <= 0.75)
    assert all(value >= found.smallest_found for value in told)


@given(
    middle=st.floats(0, 60),
    reach=st.floats(0, 10),
    good=st.floats(0, 20),
    days=st.integers(14, 182),
)
def test_only_a_foot_that_is_certainly_good_is_called_good_as_it_is(
    middle: float, reach: float, good: float, days: int
) -> None:
    now = (max(middle - reach, 0.0), middle, middle + reach)

    said = curve_words(replace(FLAT, now=now, flat_days=days), DIP, LATER, good=good)

    assert said.endswith("good as it is.") == (now[2] <= good)
    assert said.endswith("change something.") == (now[2] > good)
    assert DIP.written(middle) in said
