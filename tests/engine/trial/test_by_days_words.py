"""Words of a trial by days agree with its figures."""

from dataclasses import replace

import pytest

from drills.measures.catalogue import CATALOGUE
from drills.remark import Headline
from engine.trial.by_days import Today
from engine.trial.by_days_outcome import DaysOutcome
from engine.trial.by_days_power import Power
from engine.trial.by_days_screens import TodaysSetUp
from engine.trial.by_days_words import (
    days_finding_words,
    days_outcome_words,
    days_rows,
    days_table,
    power_figure,
    power_words,
)
from engine.trial.outcome import ArmCount, Finding
from engine.trial.screen_words import BEGUN, WHOLE_SESSION
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
                "B is steadier by 2.1 points, likely 0.4 to 3.6.",
                "8 pairs of days, at blips of 60 %.",
            ),
        ),
        (
            SPLIT,
            (
                "Cannot tell them apart: the blips differed.",
                "As played and at blips of 60 %, the figures disagree.",
                "Typical blips: 65 % with A, 45 % with B.",
                "The pedals were set up again meanwhile: part may be that.",
            ),
        ),
        (
            UNSURE,
            (
                "Cannot tell them apart.",
                "A may be up to 2.6 points steadier, B up to 1.4.",
            ),
        ),
        (
            with_scaled(UNSURE, 8.5, 8.0, -1.4, -0.1, 0.04),
            (
                "Cannot tell them apart.",
                "B may be up to 1.4 points steadier, or not at all.",
            ),
        ),
        (
            SMALL,
            (
                "No difference you would notice: 1 point at most.",
                "What little there is favours B.",
            ),
        ),
        (
            with_scaled(SMALL, 4.0, 3.9, -0.9, 0.7, 0.6),
            (
                "No difference you would notice: 1 point at most.",
                "Take the one you find easier.",
            ),
        ),
        (UNMEASURED, ("Cannot tell them apart: no blip was measured.",)),
        (
            replace(UNSURE, counts=(ArmCount(48, 0, 30), ArmCount(48, 0, 0))),
            (
                "Cannot tell them apart: 18 of 48 done as asked with A.",
                "What was not done counts as the worst. The figures say little.",
            ),
        ),
    ],
)
def test_an_outcome_is_told_in_sentences(outcome: DaysOutcome, lines: tuple[str, ...]) -> None:
    assert days_outcome_words(outcome) == lines


def test_the_table_shows_the_deviations_scaled_and_raw_and_the_throttle() -> None:
    assert days_table(CLEAR) == (
        ("At blips of 60 %, points", "8.2", "6.1", "-2.1", "-3.6 to -0.4", "2 of 100"),
        ("As played, points", "8.4", "6.0", "-2.4", "-3.9 to -0.5", "2 of 100"),
        (f"{CATALOGUE['peak'].label}, %", "60", "59", "-1", "-4 to +2", "40 of 100"),
    )
    assert days_table(UNMEASURED)[0] == ("At blips of 60 %, points", *["-"] * 5)


def test_an_interval_clear_of_0_is_not_rounded_to_it() -> None:
    close = with_scaled(CLEAR, 8.0, 5.0, -6.0, -0.012, 0.04)

    assert days_outcome_words(close)[0] == ("B is steadier by 3.00 points, likely 0.01 to 6.00.")


def test_the_list_of_past_trials_names_the_finding() -> None:
    assert [days_finding_words(one) for one in (CLEAR, SPLIT, SMALL)] == [
        *("B is steadier", "cannot tell them apart", "no difference you would notice"),
    ]
    assert CLEAR.steadier is Arm.B


def test_what_it_can_find_is_told_in_points_or_as_a_share_where_it_is_a_guess() -> None:
    known, guess = Power(0.4, 8.0, is_guess=False), Power(0.44, None, is_guess=True)

    assert power_figure(known) == Headline("4.1", "points: 8 of 10 trials find it")
    assert power_words(known) == (
        "Your typical blip is 8.0 points off now.",
        "Known from how much your own days differ.",
    )
    assert power_figure(guess) == Headline("44 %", "steadier: 8 of 10 trials find it")
    assert power_words(guess) == ("A guess, until 9 of your days are known.",)


def test_what_a_screen_says_of_itself_hides_no_field_of_its_event() -> None:
    hidden = [
        (name, key)
        for name, screen in days_screens().items()
        for key in ("t", "event", "name")
        if key in screen.details()
    ]

    assert hidden == []


@pytest.mark.parametrize(
    ("today", "why"),
    [
        (Today(0, Arm.A, 16, begun=False), WHOLE_SESSION),
        (Today(0, Arm.A, 16, begun=True), f"You began the day with it. {WHOLE_SESSION}"),
        (
            Today(0, Arm.A, 16, begun=False, earlier=2),
            f"2 of 4 steadiness blips so far: the day comes again. {WHOLE_SESSION}",
        ),
    ],
)
def test_the_set_up_of_the_day_says_which_day_it_is_and_why_once_more(
    today: Today, why: str
) -> None:
    screen = TodaysSetUp(today, A, changed_features(A, B), recalibrated=False)

    words = " ".join(said(screen))
    assert "day 1 of 16" in words
    assert why in words
    assert (BEGUN in words, "so far" in words) == (today.begun, today.earlier is not None)


def test_a_trial_that_mostly_failed_draws_no_difference() -> None:
    failed = replace(UNSURE, counts=(ArmCount(48, 0, 30), ArmCount(48, 0, 0)))

    assert [len(days_rows(one)) for one in (CLEAR, SPLIT, failed)] == [1, 2, 0]
