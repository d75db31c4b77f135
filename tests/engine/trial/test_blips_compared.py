"""Blips of the two arms of a trial compared: a difference is told where both ways to read agree."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np
import pytest

from drills.measures.catalogue import CATALOGUE
from drills.score import Reason
from engine.trial.blips_compared import NOTICEABLE_BLIP
from engine.trial.difference import Difference
from engine.trial.measure_table import table_rows
from engine.trial.outcome import Finding, outcome
from engine.trial.randomisation import order
from engine.trial.trial import BLOCK, Arm, Trial
from engine.trial.words import finding_words, outcome_words
from tests.bench.simulated_trials import Blips, Foot, trials
from tests.engine.trial.made_up_trials import SEED, one, trial

THROTTLE = f"{CATALOGUE['peak'].label}, %"
STEPS = (-2.0, -1.0, 0.0, 1.0, 2.0)


def told(
    dips: Mapping[Arm, float], peaks: Mapping[Arm, float], pairs: int = 6, seed: int = SEED
) -> Trial:
    """A trial of arms with some typical dips and blips, which scatter a little."""
    tried = [
        one(block, dips[arm] + step / 4 + block % 4 / 10, peak=peaks[arm] + step)
        for block, arm in enumerate(order(seed, pairs))
        for step in STEPS
    ]
    return trial(tried, pairs, seed)


def by_arm(a: float, b: float) -> Mapping[Arm, float]:
    """A number for each arm."""
    return {Arm.A: a, Arm.B: b}


def test_dips_are_scaled_to_the_one_size_of_blip_and_tested_alike() -> None:
    found = outcome(told(by_arm(20.0, 10.0), by_arm(50.0, 75.0)))

    assert found.dip.a == pytest.approx(20.0, abs=0.6)
    assert found.blips.scaled.a == pytest.approx(24.0, abs=0.7)
    assert found.blips.scaled.b == pytest.approx(8.0, abs=0.7)
    assert (found.blips.scaled.p, found.blips.scaled.pairs) == (found.dip.p, 6)
    assert (found.blips.peaks.a, found.blips.peaks.b) == (50.0, 75.0)


@pytest.mark.parametrize(
    ("dips", "peaks", "finding", "steadier"),
    [
        (by_arm(13.0, 9.0), by_arm(60.0, 60.0), Finding.STEADIER, Arm.B),
        (by_arm(13.0, 9.0), by_arm(65.0, 60.0), Finding.STEADIER, Arm.B),
        (by_arm(13.0, 9.0), by_arm(65.0, 45.0), Finding.CANNOT_TELL, None),
        (by_arm(13.0, 9.0), by_arm(75.0, 41.0), Finding.CANNOT_TELL, None),
        (by_arm(12.0, 12.0), by_arm(75.0, 50.0), Finding.CANNOT_TELL, None),
        (by_arm(12.0, 12.0), by_arm(60.0, 60.0), Finding.NO_DIFFERENCE, None),
        (by_arm(3.0, 3.0), by_arm(70.0, 60.0), Finding.NO_DIFFERENCE, None),
    ],
)
def test_a_difference_needs_both_ways_to_read_the_dips(
    dips: Mapping[Arm, float],
    peaks: Mapping[Arm, float],
    finding: Finding,
    steadier: Arm | None,
) -> None:
    found = outcome(told(dips, peaks))

    assert (found.finding, found.steadier) == (finding, steadier)


def test_blips_that_differ_are_named_with_what_scaling_makes_of_the_dips() -> None:
    alike = outcome(told(by_arm(13.0, 9.0), by_arm(65.0, 45.0)))
    other = outcome(told(by_arm(13.0, 9.0), by_arm(79.0, 41.0)))
    only = outcome(told(by_arm(12.0, 12.0), by_arm(75.0, 50.0)))

    assert outcome_words(alike) == (
        "Cannot tell them apart: the blips differed.",
        "The dips may be alike at blips of 60 %.",
        "Typical blips: 65 % with A, 45 % with B.",
    )
    assert outcome_words(other)[1] == "A is steadier at blips of 60 %, B as played."
    assert outcome_words(only)[1] == "A is steadier at blips of 60 %, but not as played."
    assert finding_words(alike) == "cannot tell them apart: the blips differed"


def test_a_steadier_arm_with_other_blips_is_told_with_them() -> None:
    found = outcome(told(by_arm(20.0, 8.0), by_arm(65.0, 55.0)))

    assert outcome_words(found)[0].startswith("B is steadier by 12 points")
    assert outcome_words(found)[2] == "Typical blips: 65 % with A, 55 % with B."


@pytest.mark.parametrize(
    ("other", "differ"), [(NOTICEABLE_BLIP, True), (NOTICEABLE_BLIP - 0.5, False), (0.0, False)]
)
def test_blips_differ_where_they_do_noticeably(other: float, differ: bool) -> None:
    found = outcome(told(by_arm(12.0, 12.0), by_arm(60.0 - other, 60.0)))

    assert found.blips.differ is differ


def test_dips_that_hang_on_blips_much_alike_are_told_as_that() -> None:
    found = outcome(told(by_arm(12.0, 12.0), by_arm(60.0, 60.0)))
    sure = replace(found.dip, value=-3.0, low=-6.0, high=-0.1, p=0.04)
    scaled = replace(found.dip, value=-2.7, low=-6.0, high=0.2, p=0.06)
    split = replace(
        found,
        finding=Finding.CANNOT_TELL,
        dip=sure,
        blips=replace(found.blips, scaled=scaled),
    )

    assert outcome_words(split)[0] == "Cannot tell them apart: the size of the blips decides it."


def test_the_table_has_scaled_dips_and_blips_beside_the_dips() -> None:
    rows = table_rows(outcome(told(by_arm(13.0, 9.0), by_arm(65.0, 45.0))))

    assert [row[:3] for row in rows[:3]] == [
        ("Dip, points", "13", "9"),
        ("Dip at 60 %, points", "12", "12"),
        (THROTTLE, "65", "45"),
    ]


def test_of_dips_without_their_blips_no_difference_is_told() -> None:
    whole = told(by_arm(13.0, 9.0), by_arm(60.0, 60.0))
    tried = (replace(whole.repetitions[0], peak=None), *whole.repetitions[1:])

    found = outcome(replace(whole, repetitions=tried))

    assert found.blips.scaled == Difference("dip", None, None, None)
    assert outcome_words(found) == ("Cannot tell them apart: the size of the blips is not known.",)
    assert table_rows(found)[1] == ("Dip at 60 %, points", "-", "-", "-", "-", "-")


def test_a_failed_repetition_has_the_worst_scaled_dip_and_no_blip() -> None:
    whole = told(by_arm(12.0, 12.0), by_arm(60.0, 60.0))
    failing = [
        replace(rep, dip=None, peak=None, reason=Reason.NO_BLIP) if number % BLOCK > 1 else rep
        for number, rep in enumerate(whole.repetitions)
    ]

    found = outcome(replace(whole, repetitions=tuple(failing)))

    most = max(rep.dip * 60 / rep.peak for rep in failing if rep.dip and rep.peak)
    assert found.blips.scaled.a == pytest.approx(most)
    assert found.blips.peaks.a == 58.5


@pytest.mark.parametrize("grows", [0.0, 0.5, 1.0])
def test_equal_arms_with_unequal_blips_are_told_apart_in_at_most_one_of_twenty(
    grows: float,
) -> None:
    rng = np.random.default_rng(5)
    blips: Sequence[Blips] = (Blips(65.0, grows=grows), Blips(45.0, grows=grows))

    made = [outcome(each) for each in trials(Foot().dips(300, 8, rng), 0.0, rng, blips)]

    # Of 300 with a chance of 12 / 256 each, more than 24 come in 1 of 200 cases.
    assert sum(each.finding is Finding.STEADIER for each in made) <= 24
    assert all(each.blips.differ for each in made)


def test_typical_blips_are_told_as_the_table_has_them() -> None:
    found = outcome(told(by_arm(10.0, 12.0), by_arm(69.4, 50.6)))

    [row] = [row for row in table_rows(found) if row[0] == THROTTLE]
    # 69.4 and 50.6 would be 18 apart once rounded, and are 19 apart.
    assert row[1:4] == ("70", "51", "-19")
    assert "Typical blips: 70 % with A, 51 % with B." in " ".join(outcome_words(found))
