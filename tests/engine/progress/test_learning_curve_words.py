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
from engine.progress.learning_curve_words import CurveWords, curve_words, lasting

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
FLAT_WORDS = "Flat at 8 points for seven weeks. Change something."
SURE = ("In 50 days likely a fifth to half less.",)


@pytest.mark.parametrize(
    ("learning", "said"),
    [
        (LearningCurve(Trend.TOO_EARLY, 0, 0), CurveWords("Nothing to go by yet.")),
        (
            LearningCurve(Trend.TOO_EARLY, 20, 0),
            CurveWords("Too early to say. No level has five days yet."),
        ),
        (EARLY, CurveWords("Too early to say. 7 of 10 days to compare.")),
        (LEARNING, CurveWords("Getting better, a third less in 50 days.", "", SURE)),
        (
            replace(LEARNING, ahead=Ahead(300, (3.4, 4.2, 5.2))),
            CurveWords(
                "Getting better, a third less in 50 days.",
                "About 4 points after 300 more repetitions.",
                SURE,
            ),
        ),
        (
            replace(LEARNING, ahead=Ahead(300, (4.4, 5.1, 5.9))),
            CurveWords(
                "Getting better, a third less in 50 days.",
                "Hardly less after 300 more repetitions.",
                SURE,
            ),
        ),
        (
            replace(LEARNING, over_days=over(-0.5, 0.34)),
            CurveWords(
                "Getting better, half less in 50 days.",
                "",
                ("In 50 days likely up to three quarters less.",),
            ),
        ),
        (
            replace(LEARNING, over_days=over(-0.85, 0.6)),
            CurveWords("Getting better, at least half less in 50 days."),
        ),
        (
            replace(LEARNING, over_days=over(-0.8, 0.8)),
            CurveWords("Getting better, by how much is uncertain."),
        ),
        (
            replace(WORSE, over_days=over(0.5, 0.5)),
            CurveWords("Getting worse, half more in 50 days.", "", ("By how much is uncertain.",)),
        ),
        (
            NONE,
            CurveWords("No clear change.", "", ("A quarter less in 50 days would likely show.",)),
        ),
        (
            replace(NONE, over_days=over(0.0, 0.6)),
            CurveWords("No clear change.", "", ("Too few days yet to see even a large change.",)),
        ),
        (FLAT, CurveWords(FLAT_WORDS)),
        (
            replace(FLAT, mix_moved=True),
            CurveWords("Flat at 8 points for seven weeks, while levels changed."),
        ),
        (
            replace(FLAT, now=(2.6, 3.1, 3.9), flat_days=22),
            CurveWords("Steady at 3 points for three weeks, good as it is."),
        ),
        (
            WORSE,
            CurveWords(
                "Getting worse, half more in 50 days.",
                "",
                ("In 50 days likely a quarter to nine tenths more.",),
            ),
        ),
        (
            replace(WORSE, over_days=over(1.5, 0.2)),
            CurveWords("Getting worse, more than twice in 50 days."),
        ),
    ],
)
def test_every_trend_has_its_sentences(learning: LearningCurve, said: CurveWords) -> None:
    assert curve_words(learning, DIP, LATER, good=4.0) == said
    assert all(len(one.split()) <= 12 for text in said.sentences for one in text.split(". "))


def test_a_new_scale_is_named_and_nothing_worse_is_expected_of_it() -> None:
    change = Change(datetime(2024, 5, 12, 20, tzinfo=UTC), Changed.SCALE, 10)

    said = curve_words(EARLY, DIP, date(2024, 5, 14), change)

    assert said.sentences == (
        "Too early to say. 7 of 10 days to compare.",
        "Counted since the brake's new scale on 12 May.",
    )


@pytest.mark.parametrize("learning", [EARLY, NONE, WORSE])
def test_worse_at_first_is_expected_for_three_weeks_after_a_change_and_no_longer(
    learning: LearningCurve,
) -> None:
    plain = curve_words(learning, DIP, LATER)
    first, last, then = (
        curve_words(learning, DIP, date(2026, *day), SHOES) for day in ((5, 12), (6, 1), (6, 2))
    )

    since = "Counted since the change of shoes on 12 May."
    assert first == last
    assert first.beside == "Being worse is excused until 2 Jun."
    assert then.beside == ""
    assert [one.trend for one in (first, then)] == [plain.trend] * 2
    assert [one.more for one in (first, then)] == [(*plain.more, since)] * 2


def test_a_foot_that_learns_after_a_change_is_told_of_nothing_worse() -> None:
    said = curve_words(LEARNING, DIP, date(2026, 5, 30), SHOES)

    assert said.trend == "Getting better, a third less in 50 days."
    assert "excused" not in " ".join(said.sentences)


def test_a_change_of_another_kind_is_told_by_its_day_alone() -> None:
    said = curve_words(NONE, DIP, LATER, replace(SHOES, what=Changed.OTHER, note="seat back"))

    assert said.sentences[-1] == "Counted since the change on 12 May."


def test_no_change_is_advised_while_the_last_one_is_three_weeks_old_at_most() -> None:
    early, late = (curve_words(FLAT, DIP, day, SHOES) for day in (date(2026, 6, 1), LATER))

    assert early.trend == "Flat at 8 points for seven weeks."
    assert late.trend == FLAT_WORDS


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

    [*_, said] = curve_words(replace(NONE, over_days=found), DIP, LATER).sentences

    shares = {"a tenth": 0.1, "a fifth": 0.2, "a quarter": 0.25, "a third": 1 / 3, "half": 0.5}
    shares |= {"two thirds": 2 / 3, "three quarters": 0.75}
    told = [value for words, value in shares.items() if said.lower().startswith(f"{words} less")]
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

    said = curve_words(replace(FLAT, now=now, flat_days=days), DIP, LATER, good=good).trend

    assert said.endswith("good as it is.") == (now[2] <= good)
    assert said.endswith("Change something.") == (now[2] > good)
    assert DIP.written(middle) in said
