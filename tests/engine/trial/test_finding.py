"""The finding of a trial at its limits, what a trial can find, and its error rates in small.

The rates are a small version of `python tests/bench/trial.py`.
"""

from dataclasses import replace

import numpy as np
import pytest

from drills.score import Reason
from engine.practice.blip_size import BLIP
from engine.trial.blips_compared import BlipsCompared
from engine.trial.difference import Difference
from engine.trial.outcome import (
    DETECTABLE,
    NOTICEABLE,
    USUAL_SPREAD,
    ArmCount,
    Finding,
    detectable_difference,
    finding_of,
    outcome,
    spread_of,
)
from engine.trial.randomisation import order
from engine.trial.sign_flip import LEVEL
from engine.trial.trial import FEWEST_PAIRS, MOST_PAIRS, Arm
from tests.bench.simulated_trials import FEET, Blips, Foot, trials
from tests.engine.trial.made_up_trials import differing, one

PEAKS = Difference("peak", 60.0, 60.0, 0.0, -2.0, 2.0, 1.0, 8)
FALLS = [-4.0, -3.0, -5.0, -4.0, -6.0, -2.0]


def test_a_finding_is_given_at_p_of_exactly_the_level() -> None:
    whole = differing(FALLS)
    dip = outcome(whole).dip
    counts = ArmCount(30, 0, 0), ArmCount(30, 0, 0)

    found = [
        finding_of(one, BlipsCompared(one, PEAKS), counts)
        for one in (replace(dip, p=LEVEL), replace(dip, p=LEVEL + 1e-9))
    ]

    assert found == [(Finding.STEADIER, Arm.B), (Finding.CANNOT_TELL, None)]


@pytest.mark.parametrize(
    ("low", "high", "finding"),
    [
        (-NOTICEABLE, 1.0, Finding.CANNOT_TELL),
        (-1.99, 1.99, Finding.NO_DIFFERENCE),
        (-1.0, NOTICEABLE, Finding.CANNOT_TELL),
    ],
)
def test_no_difference_needs_the_whole_interval_inside_what_is_noticed(
    low: float, high: float, finding: Finding
) -> None:
    dip = Difference("dip", 10.0, 10.5, 0.5, low, high, 0.4, 8)
    counts = ArmCount(40, 0, 0), ArmCount(40, 0, 0)

    assert finding_of(dip, BlipsCompared(dip, PEAKS), counts) == (finding, None)


@pytest.mark.parametrize(
    ("left", "failed", "telling"), [(0, 15, True), (15, 0, True), (8, 7, True), (8, 8, False)]
)
def test_an_arm_is_telling_where_at_least_half_was_done_as_asked(
    left: int, failed: int, telling: bool
) -> None:
    assert ArmCount(30, 4, left, failed).is_telling is telling


def test_a_left_repetition_is_not_counted_as_failed_too() -> None:
    whole = differing(FALLS)
    b = order(whole.seed, whole.pairs).index(Arm.B)
    more = [
        one(b, None, Reason.WALKED_OUT),
        one(b, None, Reason.NO_BLIP),
        one(b, 1.0, Reason.LIGHT),
    ]

    found = outcome(replace(whole, repetitions=(*whole.repetitions, *more)))

    assert found.counts[1] == ArmCount(33, 0, 1, 2)


@pytest.mark.parametrize("name", FEET)
def test_equal_arms_are_told_apart_in_at_most_one_of_twenty(name: str) -> None:
    rng = np.random.default_rng(2)
    made = trials(FEET[name].dips(300, 8, rng), 0.0, rng)

    finding = sum(outcome(one).finding is Finding.STEADIER for one in made)

    # Of 300 with a chance of 12 / 256 each, more than 24 come in 1 of 200 cases.
    assert finding <= 24


@pytest.mark.parametrize("pairs", [6, 8, 12])
def test_the_detectable_difference_is_found_in_8_of_10_trials(pairs: int) -> None:
    rng = np.random.default_rng(pairs)
    foot = Foot()
    dips = foot.dips(200, pairs, rng)
    spread = spread_of((dips * Blips().peaks(dips.shape, rng) / BLIP).ravel().tolist())

    made = trials(foot.dips(300, pairs, rng), detectable_difference(pairs, spread), rng)

    # Within three standard errors of 8 in 10.
    assert sum(outcome(one).steadier is Arm.B for one in made) / 300 == pytest.approx(0.8, abs=0.07)


def test_more_pairs_find_smaller_differences_but_none_too_small_to_notice() -> None:
    found = [detectable_difference(pairs, USUAL_SPREAD) for pairs in DETECTABLE]

    assert found == sorted(found, reverse=True)
    assert list(DETECTABLE) == list(range(6, 17))
    assert detectable_difference(16, 0.5) == NOTICEABLE
    for pairs in (FEWEST_PAIRS - 1, MOST_PAIRS + 1):
        with pytest.raises(KeyError):
            detectable_difference(pairs, USUAL_SPREAD)


def test_the_spread_is_that_of_normal_dips_whatever_slips_there_are() -> None:
    dips = [*np.random.default_rng(1).normal(20, 4, 950).tolist(), *[80.0] * 50]

    assert spread_of(dips) == pytest.approx(4, rel=0.1)
    assert spread_of(dips[:19]) == USUAL_SPREAD
    assert spread_of([4.0, 8.0] * 10) == pytest.approx(1.4826 * 2)
