"""Sentences about a learning curve, and that they never contradict its figures."""

import re
from datetime import UTC, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.measures.catalogue import CATALOGUE
from engine.practice.changes import Change, Changed
from engine.progress.learning_curve import LearningCurve, Trend
from engine.progress.learning_curve_words import (
    curve_words,
    lasting,
    rounded,
    rounded_down,
    rounded_up,
)

DIP = CATALOGUE["dip"]
SHOES = Change(datetime(2026, 5, 12, 20, tzinfo=UTC), Changed.SHOES, 40)


@pytest.mark.parametrize(
    ("learning", "said"),
    [
        (LearningCurve(Trend.TOO_EARLY, 0, 0), "Nothing to go by yet."),
        (LearningCurve(Trend.TOO_EARLY, 20, 1), "Too early to say: 1 day of it so far."),
        (LearningCurve(Trend.TOO_EARLY, 99, 9), "Too early to say: 9 days of it so far."),
        (
            LearningCurve(Trend.TOO_EARLY, 800, 60),
            "It cannot be told just now whether it still gets better.",
        ),
        (
            LearningCurve(Trend.LEARNING, 300, 20, half=(123.0, 197.0, 391.0)),
            "Getting better: about 200 more to halve what is left (120 to 400).",
        ),
        (
            LearningCurve(Trend.LEARNING, 300, 20),
            "Getting better; how much is left cannot be told yet.",
        ),
        (
            LearningCurve(Trend.FLAT, 300, 20, now=(7.2, 8.1, 9.3), flat_days=22),
            "Flat at 8 points for three weeks: change something.",
        ),
        (
            LearningCurve(Trend.FLAT, 300, 20, now=(2.6, 3.1, 3.9), flat_days=22),
            "Steady at 3 points for three weeks: good as it is.",
        ),
        (LearningCurve(Trend.WORSE, 300, 20), "It has got worse in the newest weeks."),
    ],
)
def test_every_trend_has_its_sentence(learning: LearningCurve, said: str) -> None:
    assert curve_words(learning, DIP, good=4.0) == said


def test_a_new_scale_is_named_and_nothing_worse_is_expected_of_it() -> None:
    learning = LearningCurve(Trend.TOO_EARLY, 60, 3, changed=True)
    change = Change(datetime(2024, 5, 12, 20, tzinfo=UTC), Changed.SCALE, 10)

    said = curve_words(learning, DIP, change)

    assert said == ("On the brake's scale since 12 May: too early to say: 3 days of it so far.")


@pytest.mark.parametrize(
    ("learning", "said"),
    [
        (
            LearningCurve(Trend.TOO_EARLY, 60, 3, changed=True),
            "Since the change of shoes on 12 May, worse at first is expected."
            " Too early to say: 3 days of it so far.",
        ),
        (
            LearningCurve(Trend.WORSE, 60, 6, changed=True),
            "Since the change of shoes on 12 May, worse at first is expected."
            " It has got worse in the newest weeks.",
        ),
        (
            LearningCurve(Trend.FLAT, 300, 20, now=(7.2, 8.1, 9.3), flat_days=70, changed=True),
            "Since the change of shoes on 12 May: flat at 8 points for two months:"
            " change something.",
        ),
    ],
)
def test_a_change_is_named_and_worse_at_first_is_expected(
    learning: LearningCurve, said: str
) -> None:
    assert curve_words(learning, DIP, SHOES, good=4.0) == said


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


@given(count=st.floats(1, 1e6))
def test_a_rounded_count_is_near_and_never_narrows_an_interval(count: float) -> None:
    assert rounded_down(count) <= count <= rounded_up(count)
    assert rounded_down(count) <= rounded(count) <= rounded_up(count)
    assert abs(rounded(count) - count) <= max(0.5, 0.151 * count)


@given(
    low=st.floats(1, 1e4),
    above=st.floats(1, 4),
    further=st.floats(1, 4),
)
def test_the_interval_in_words_holds_the_one_in_figures(
    low: float, above: float, further: float
) -> None:
    half = (low, low * above, low * above * further)

    said = curve_words(LearningCurve(Trend.LEARNING, 300, 20, half=half), DIP)

    about, least, most = map(int, re.findall(r"\d+", said))
    assert least <= half[0]
    assert half[2] <= most
    assert least <= about <= most


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

    said = curve_words(LearningCurve(Trend.FLAT, 300, 20, now=now, flat_days=days), DIP, good=good)

    assert said.endswith("good as it is.") == (now[2] <= good)
    assert said.endswith("change something.") == (now[2] > good)
    assert DIP.written(middle) in said
