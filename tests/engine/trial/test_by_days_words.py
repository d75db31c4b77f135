"""Words of a trial by days agree with its figures."""

from dataclasses import replace

import pytest

from engine.trial.by_days import Today
from engine.trial.by_days_outcome import DaysOutcome
from engine.trial.by_days_power import Power
from engine.trial.by_days_screens import TodaysSetUp
from engine.trial.by_days_words import (
    days_finding_words,
    days_outcome_words,
    days_table,
    power_words,
)
from engine.trial.outcome import ArmCount, Finding
from engine.trial.trial import Arm, changed_features
from tests.engine.kit.recording_canvas import said
from tests.engine.trial.days_pictures import CLEAR, SPLIT, UNMEASURED, days_screens, off
from tests.engine.trial.pictures import A, B


def with_scaled(
    outcome: DaysOutcome, a: float, b: float, low: float, high: float, p: float
) -> DaysOutcome:
    """The outcome with another comparison of its scaled deviations."""
    return replace(outcome, blips=replace(outcome.blips, scaled=off(a, b, low, high, p)))


UNSURE = with_scaled(
    replace(SPLIT, blips=CLEAR.blips, recalibrated=False), 8.0, 8.5, -1.4, 2.6, 0.4
)
SMALL = with_scaled(
    replace(CLEAR, finding=Finding.NO_DIFFERENCE, steadier=None), 4.0, 3.5, -0.9, -0.2, 0.016
)


@pytest.mark.parametrize(
    ("outcome", "lines"),
    [
        (
            CLEAR,
            (
                "B (toes) is steadier by 2.1 points (0.4 to 3.6)",
                "By blips scaled to 60 %, over 8 pairs of days.",
            ),
        ),
        (
            SPLIT,
            (
                "Cannot tell: the blips differed",
                "Scaled and as played, the figures say different things.",
                "Typical blips: 65 % with A, 45 % with B.",
                "The pedals were set up anew between days: part of this may be that.",
            ),
        ),
        (
            UNSURE,
            (
                "Cannot tell: there may be no difference, or one you would notice",
                "A (ball) may be steadier by up to 2.6 points, or B (toes) by up to 1.4.",
            ),
        ),
        (
            with_scaled(UNSURE, 8.5, 8.0, -1.4, -0.1, 0.04),
            (
                "Cannot tell: there may be no difference, or one you would notice",
                "B (toes) may be steadier by up to 1.4 points, or not at all.",
            ),
        ),
        (
            SMALL,
            (
                "No difference you would notice: at most 1 point either way",
                "What little there is favours B (toes).",
            ),
        ),
        (
            with_scaled(SMALL, 4.0, 3.9, -0.9, 0.7, 0.6),
            (
                "No difference you would notice: at most 1 point either way",
                "Take the one you find easier.",
            ),
        ),
        (UNMEASURED, ("Cannot tell: no blip was measured",)),
        (
            replace(UNSURE, counts=(ArmCount(48, 0, 30), ArmCount(48, 0, 0))),
            (
                "Cannot tell: only 18 of 48 were done as asked with A (ball)",
                "What was not done is taken to be as bad as the worst.",
            ),
        ),
    ],
)
def test_an_outcome_is_told_in_sentences(outcome: DaysOutcome, lines: tuple[str, ...]) -> None:
    assert days_outcome_words(outcome, "ball", "toes") == lines


def test_the_table_shows_the_deviations_scaled_and_raw_and_the_throttle() -> None:
    assert days_table(CLEAR) == (
        ("Scaled to 60 %, points", "8.2", "6.1", "-2.1", "-3.6 to -0.4", "2 of 100"),
        ("As played, points", "8.4", "6.0", "-2.4", "-3.9 to -0.5", "2 of 100"),
        ("Throttle, %", "60", "59", "-1", "-4 to +2", "40 of 100"),
    )
    assert days_table(UNMEASURED)[0] == ("Scaled to 60 %, points", *["-"] * 5)


def test_an_interval_clear_of_0_is_not_rounded_to_it() -> None:
    close = with_scaled(CLEAR, 8.0, 5.0, -6.0, -0.012, 0.04)

    assert days_outcome_words(close, "", "")[0] == "B is steadier by 3.00 points (0.01 to 6.00)"


def test_the_list_of_past_trials_names_the_finding() -> None:
    assert [days_finding_words(one) for one in (CLEAR, SPLIT, SMALL)] == [
        *("B is steadier", "cannot tell", "no difference you would notice"),
    ]
    assert CLEAR.steadier is Arm.B


def test_what_it_can_find_is_told_in_points_or_as_a_share_where_it_is_a_guess() -> None:
    assert power_words(Power(0.4, 8.0, is_guess=False)) == (
        "8 of 10 such trials find a difference of 4.1 points; your brake is 8.0 off now.",
        "That follows from how much your own days differ.",
    )
    assert power_words(Power(0.44, None, is_guess=True)) == (
        "8 of 10 such trials find one that is steadier by 44 %.",
        "That is a guess until it knows 9 of your days.",
    )


def test_what_a_screen_says_of_itself_hides_no_field_of_its_event() -> None:
    hidden = [
        (name, key)
        for name, screen in days_screens().items()
        for key in ("t", "event", "name")
        if key in screen.details()
    ]

    assert hidden == []


@pytest.mark.parametrize(
    ("today", "place"),
    [
        (Today(0, Arm.A, 16, begun=False), "Day 1 of 16."),
        (Today(0, Arm.A, 16, begun=True), "Day 1 of 16, as you began it."),
        (
            Today(0, Arm.A, 16, begun=False, earlier=2),
            "Day 1 of 16, once more: 2 of 4 steadiness blips so far.",
        ),
    ],
)
def test_the_set_up_of_the_day_says_which_day_it_is_and_why_once_more(
    today: Today, place: str
) -> None:
    screen = TodaysSetUp(today, A, changed_features(A, B), recalibrated=False)

    assert place in said(screen)
