"""Words and figures of the outcome of a trial: whole texts that never contradict each other."""

import re
from dataclasses import replace

import pytest

from drills.measures.catalogue import CATALOGUE
from drills.remark import Headline
from engine.trial.difference import Difference
from engine.trial.measure_table import WrittenDifference, written
from engine.trial.outcome import ArmCount, Finding, outcome
from engine.trial.trial import Arm
from engine.trial.words import outcome_figure, outcome_words
from tests.engine.trial.made_up_trials import differing, ended, swapped

B_LESS = Difference("dip", 12.4, 8.3, -4.1, -7.2, -1.4, 0.03125, 6)
TELLS = Difference("rebound", 6.0, 4.0, -2.0, -3.0, -1.0, 0.03125, 6)
SAME = {"rebound": TELLS, "settle": replace(TELLS, measure="settle")}
OPPOSITE = {name: replace(one, value=2.0, low=1.0, high=3.0) for name, one in SAME.items()}
NOTHING = {name: replace(one, low=-5.0, high=1.0, p=0.3) for name, one in SAME.items()}


def test_the_steadier_arm_is_named_with_its_points_and_their_interval() -> None:
    of_b = ended(B_LESS, Finding.STEADIER, Arm.B)
    of_a = ended(replace(B_LESS, value=1.2, low=0.7, high=2.4), Finding.STEADIER, Arm.A)

    assert outcome_words(of_b)[0] == "B is steadier by 4 points, likely 1 to 7."
    assert outcome_words(of_a)[0] == "A is steadier by 1 point, likely 1 to 2."
    assert outcome_figure(of_b) == Headline("4", "points steadier")
    assert outcome_figure(of_a) == Headline("1", "point steadier")


def test_an_interval_that_ends_close_to_0_has_more_decimals() -> None:
    close = replace(B_LESS, value=-2.43, low=-4.61, high=-0.04)

    found = ended(close, Finding.STEADIER, Arm.B)

    assert outcome_words(found)[0] == "B is steadier by 2.43 points, likely 0.04 to 4.61."
    assert outcome_figure(found) == Headline("2.43", "points steadier")
    assert written(close) == WrittenDifference(
        "Dip, points", "11.57", "9.14", "-2.43", "-4.61 to -0.04", "0.04"
    )


@pytest.mark.parametrize(
    ("low", "high", "heading"),
    [
        (-1.7, 1.2, "No difference you would notice: 2 points at most."),
        (-0.7, 0.9, "No difference you would notice: 1 point at most."),
        (0.0, 0.0, "No difference you would notice: 1 point at most."),
    ],
)
def test_no_difference_says_how_large_it_could_be(low: float, high: float, heading: str) -> None:
    found = ended(replace(B_LESS, value=0.0, low=low, high=high, p=0.5), Finding.NO_DIFFERENCE)

    assert outcome_words(found) == (heading, "Take the one you find easier.")


def test_a_certain_difference_that_is_too_small_to_notice_says_so() -> None:
    small = ended(replace(B_LESS, value=-0.8, low=-1.4, high=-0.2), Finding.NO_DIFFERENCE)

    assert outcome_words(small) == (
        "No difference you would notice: 2 points at most.",
        "What little there is favours B.",
    )


def test_a_small_difference_that_scaling_makes_unsure_favours_neither() -> None:
    small = ended(replace(B_LESS, value=-0.8, low=-1.4, high=-0.2), Finding.NO_DIFFERENCE)
    unsure = replace(small.dip, low=-1.4, high=0.3, p=0.2)
    larger = replace(small.blips.peaks, a=70.0, b=60.0, value=-10.0, low=-12.0, high=-8.0, p=0.03)

    for peaks in (small.blips.peaks, larger):
        blips = replace(small.blips, scaled=unsure, peaks=peaks)
        assert outcome_words(replace(small, blips=blips)) == (
            "No difference you would notice: 2 points at most.",
            "Take the one you find easier.",
        )


@pytest.mark.parametrize(
    ("low", "high", "line"),
    [
        (-5.2, 3.4, "B may be up to 5 points steadier, A up to 3."),
        (-1.2, 3.4, "A may be up to 3 points steadier, B up to 1."),
        (-0.3, 3.4, "A may be up to 3 points steadier, or not at all."),
        (-2.0, 0.0, "B may be up to 2 points steadier, or not at all."),
    ],
)
def test_where_it_cannot_tell_it_says_what_may_be(low: float, high: float, line: str) -> None:
    found = ended(replace(B_LESS, low=low, high=high, p=0.2), Finding.CANNOT_TELL)

    assert outcome_words(found) == ("Cannot tell them apart.", line)


def test_too_few_pairs_and_no_dip_are_named_as_reasons() -> None:
    few = ended(Difference("dip", 12.0, 8.0, None, pairs=4), Finding.CANNOT_TELL)
    none = ended(Difference("dip", None, None, None, pairs=6), Finding.CANNOT_TELL)

    assert outcome_words(few) == ("Cannot tell them apart: 4 whole pairs, 6 are needed.",)
    assert outcome_words(none) == ("Cannot tell them apart: no dip was measured.",)
    assert written(few.dip) == WrittenDifference("Dip, points", "12", "8", "-", "-", "-")
    assert written(none.dip) == WrittenDifference("Dip, points", "-", "-", "-", "-", "-")


@pytest.mark.parametrize(
    ("rebound", "settle", "line"),
    [
        (SAME, SAME, "Overshoot and settling say the same."),
        (OPPOSITE, OPPOSITE, "Overshoot and settling say the opposite."),
        (NOTHING, NOTHING, "Overshoot and settling do not tell them apart."),
        (SAME, NOTHING, "Overshoot says the same; settling does not tell them apart."),
        (
            NOTHING,
            OPPOSITE,
            "Settling says the opposite; overshoot does not tell them apart.",
        ),
        (OPPOSITE, SAME, "Settling says the same; overshoot says the opposite."),
    ],
)
def test_the_other_measures_say_whether_they_agree(
    rebound: dict[str, Difference], settle: dict[str, Difference], line: str
) -> None:
    found = ended(
        B_LESS, Finding.STEADIER, Arm.B, rebound=rebound["rebound"], settle=settle["settle"]
    )

    assert outcome_words(found)[1:] == (line,)


def test_an_arm_that_mostly_failed_is_named_in_the_place_of_a_difference() -> None:
    counts = ArmCount(30, 0, 0), ArmCount(31, 1, 4, 15)

    found = outcome_words(ended(B_LESS, Finding.CANNOT_TELL, counts=counts))

    assert found == (
        "Cannot tell them apart: 12 of 31 done as asked with B.",
        "What was not done counts as the worst. The figures say little.",
    )


def test_recalibrated_pedals_are_warned_of_last() -> None:
    found = ended(B_LESS, Finding.STEADIER, Arm.B, recalibrated=True)

    assert outcome_words(found)[1:] == (
        "Overshoot and settling do not tell them apart.",
        "The pedals were set up again meanwhile: part may be that.",
    )


def test_p_is_rounded_up_so_that_it_agrees_with_the_finding() -> None:
    found = [written(replace(B_LESS, p=p)).p for p in (0.03125, 0.0498, 0.0503, 0.0001, 1.0)]

    assert found == ["0.04", "0.05", "0.06", "0.01", "1.00"]


def test_settling_is_written_in_seconds() -> None:
    found = written(Difference("settle", 0.512, 0.464, -0.048, -0.1, 0.01, 0.12, 8))

    assert found == WrittenDifference(
        f"{CATALOGUE['settle'].label}, s", "0.51", "0.46", "-0.05", "-0.10 to +0.01", "0.12"
    )


def test_exchanging_the_arms_exchanges_their_names_in_the_words() -> None:
    for differences in ([-4.0, -3, -5, -4, -6, -2], [3.0, -2, 4, 5, 3, 4], [0.5] * 6):
        made = differing(differences)

        ours = outcome_words(outcome(made))
        theirs = outcome_words(outcome(swapped(made)))

        assert theirs == tuple(re.sub(r"\b[AB]\b", exchanged, line) for line in ours)


def exchanged(arm: re.Match[str]) -> str:
    """The other arm."""
    return "A" if arm[0] == "B" else "B"
