"""The outcome of a trial; its error rates are a small version of `python tests/bench/trial.py`."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from random import Random

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drills.score import Reason
from engine.trial.difference import Difference
from engine.trial.outcome import (
    NOTICEABLE,
    ArmCount,
    Finding,
    Outcome,
    outcome,
)
from engine.trial.randomisation import order
from engine.trial.trial import BLOCK, Arm, Trial, TrialRepetition
from tests.engine.trial.made_up_trials import differing, one, played, swapped, trial

FALLS = [-4.0, -3.0, -5.0, -4.0, -6.0, -2.0]


def some_dips(seed: int) -> list[float | None]:
    """Dips of a trial of six pairs, many of them tied and some missing."""
    rng = np.random.default_rng(seed)
    tenths = rng.integers(0, rng.choice([3, 30, 600]), 60) / 10
    missing = rng.random(60) < rng.choice([0, 0.1, 0.6])
    return [None if none else dip for none, dip in zip(missing, tenths.tolist(), strict=True)]


TRIALS = st.integers(0, 10**6).map(some_dips)


def with_dips(dips: Sequence[float | None]) -> Trial:
    """A trial of six pairs of these dips, block by block."""
    return trial([one(number // BLOCK, dip) for number, dip in enumerate(dips)])


def near(found: Difference, other: Difference) -> bool:
    """Whether two differences are the same but for rounding, whatever their medians."""
    ours, theirs = ([one.value, one.low, one.high, one.p] for one in (found, other))
    if None in ours or None in theirs:
        return ours == theirs
    return bool(np.allclose(np.array(ours), np.array(theirs), atol=1e-6))


def test_one_number_a_pair_the_median_of_b_less_that_of_a() -> None:
    found = outcome(differing(FALLS))

    assert found.finding is Finding.STEADIER
    assert found.steadier is Arm.B
    assert found.dip == Difference("dip", 22.5, 18.5, -4.0, -6.0, -2.0, 2 / 64, 6)
    assert (found.rebound.value, found.rebound.p) == (-2.0, 2 / 64)
    assert found.settle.value == pytest.approx(-0.04)
    assert found.settle.p == 2 / 64
    assert found.counts == (ArmCount(30, 0, 0), ArmCount(30, 0, 0))
    assert not found.recalibrated


@pytest.mark.parametrize(
    ("differences", "finding", "steadier"),
    [
        ([3.0, 2, 4, 5, 3, 4], Finding.STEADIER, Arm.A),
        ([3.0, -2, 4, 5, 3, 4], Finding.CANNOT_TELL, None),
        ([1.0, -1.5, 0.5, 1.9, -1, 0], Finding.NO_DIFFERENCE, None),
        ([1.0, 0.5, 0.5, 1.9, 1, 1], Finding.NO_DIFFERENCE, None),
        ([1.0, 0.5, 0.5, NOTICEABLE, 1, 1], Finding.STEADIER, Arm.A),
        ([-1.0, -0.5, -0.5, -NOTICEABLE, -1, -1], Finding.STEADIER, Arm.B),
        ([0.0] * 6, Finding.NO_DIFFERENCE, None),
    ],
)
def test_the_finding_follows_the_interval(
    differences: list[float], finding: Finding, steadier: Arm | None
) -> None:
    found = outcome(differing(differences))

    assert (found.finding, found.steadier) == (finding, steadier)


def test_of_an_unfinished_trial_the_whole_pairs_count() -> None:
    whole = differing([-4.0] * 8)
    ended = replace(
        whole, repetitions=tuple(one for one in whole.repetitions if one.block < 13)[:-1]
    )

    found = outcome(ended)

    assert (found.dip.pairs, found.finding) == (6, Finding.STEADIER)
    assert sum(count.counted for count in found.counts) == 64


def test_fewer_than_six_pairs_cannot_tell() -> None:
    whole = differing([-4.0] * 6)
    ended = replace(whole, repetitions=whole.repetitions[:-1])

    found = outcome(ended)

    assert (found.finding, found.steadier) == (Finding.CANNOT_TELL, None)
    assert found.dip == Difference("dip", 22.0, 18.0, None, pairs=5)


def test_without_any_value_the_trial_cannot_tell() -> None:
    assert outcome(trial([])).dip == Difference("dip", None, None, None)
    assert outcome(with_dips([None] * 60)).dip == Difference("dip", None, None, None, pairs=6)
    assert outcome(with_dips([None] * 60)).finding is Finding.CANNOT_TELL


@pytest.mark.parametrize(
    ("reason", "dip"),
    [
        (Reason.WALKED_OUT, None),
        (Reason.NO_BLIP, None),
        (Reason.LIGHT, 1.0),
        (Reason.FEW_BLIPS, 1.0),
    ],
)
def test_failures_make_no_arm_look_better(reason: Reason, dip: float | None) -> None:
    dips: dict[Arm, list[float | None]] = {
        Arm.A: [10.0, 12.0, 14.0, 16.0, 18.0],
        Arm.B: [10.0, 12.0, 14.0, None, None],
    }
    whole = played(lambda arm, _: dips[arm])
    failing = replace(whole, repetitions=tuple(map(failed(reason, dip), whole.repetitions)))

    found = outcome(failing)

    assert (found.dip.a, found.dip.b, found.finding) == (14.0, 14.0, Finding.NO_DIFFERENCE)


def test_a_block_that_mostly_failed_is_as_bad_as_the_worst_of_the_trial() -> None:
    dips: dict[Arm, list[float | None]] = {
        Arm.A: [10.0, 12.0, 14.0, 16.0, 18.0],
        Arm.B: [10.0, 12.0, None, None, None],
    }

    found = outcome(played(lambda arm, _: dips[arm]))

    assert (found.dip.a, found.dip.b) == (14.0, 18.0)


@pytest.mark.parametrize(
    ("failures", "finding"),
    [(15, Finding.STEADIER), (16, Finding.CANNOT_TELL), (30, Finding.CANNOT_TELL)],
)
def test_an_arm_of_which_more_than_half_failed_has_no_finding(
    failures: int, finding: Finding
) -> None:
    whole = differing([8.0] * 6)
    b = {block for block, arm in enumerate(order(whole.seed, whole.pairs)) if arm is Arm.B}
    numbers = [number for number, one in enumerate(whole.repetitions) if one.block in b]
    failing = {*numbers[::2], *numbers[1::2][: failures - 15]}
    tried = (
        replace(one, dip=None, reason=Reason.NO_BLIP) if number in failing else one
        for number, one in enumerate(whole.repetitions)
    )

    found = outcome(replace(whole, repetitions=tuple(tried)))

    assert found.finding is finding
    assert found.counts == (ArmCount(30, 0, 0), ArmCount(30, 0, 0, failures))


def failed(reason: Reason, dip: float | None) -> Callable[[TrialRepetition], TrialRepetition]:
    """A function that turns a repetition without a dip into one that failed so, with this dip."""
    return lambda some: some if some.dip is not None else one(some.block, dip, reason)


def test_voids_and_leaving_are_counted_by_arm() -> None:
    whole = differing(FALLS)
    first = {arm: order(whole.seed, whole.pairs).index(arm) for arm in Arm}
    more = [
        one(first[Arm.A], None, Reason.GAP),
        one(first[Arm.A], None, Reason.LEFT),
        one(first[Arm.B], None, Reason.WALKED_OUT),
    ]

    found = outcome(replace(whole, repetitions=(*whole.repetitions, *more)))

    assert found.counts == (ArmCount(30, 2, 0), ArmCount(31, 0, 1))


@settings(max_examples=30)
@given(TRIALS)
def test_exchanging_the_arms_changes_the_sign_and_nothing_else(
    dips: list[float | None],
) -> None:
    made = with_dips(dips)

    found, other = outcome(made), outcome(swapped(made))

    mirrored = {None: None, Arm.A: Arm.B, Arm.B: Arm.A}
    assert (other.finding, other.steadier) == (found.finding, mirrored[found.steadier])
    for ours, theirs in zip(measures(found), measures(other), strict=True):
        assert (theirs.a, theirs.b) == (ours.b, ours.a)
        assert near(theirs, turned(ours))


@settings(max_examples=30)
@given(TRIALS, st.floats(0, 40))
def test_points_added_to_every_dip_change_nothing(dips: list[float | None], more: float) -> None:
    found = outcome(with_dips(dips))

    other = outcome(with_dips([None if dip is None else dip + more for dip in dips]))

    assert other.finding is found.finding
    assert near(other.dip, found.dip)


@settings(max_examples=30)
@given(TRIALS, st.randoms(use_true_random=False))
def test_the_order_within_a_block_does_not_matter(dips: list[float | None], chance: Random) -> None:
    made = with_dips(dips)
    tried = list(made.repetitions)
    chance.shuffle(tried)

    assert outcome(replace(made, repetitions=tuple(tried))) == outcome(made)


@settings(max_examples=30)
@given(TRIALS)
def test_the_finding_p_and_the_interval_never_disagree(dips: list[float | None]) -> None:
    found = outcome(with_dips(dips))

    for one_of in measures(found):
        if one_of.low is not None and one_of.high is not None:
            assert one_of.value is not None
            assert one_of.low <= one_of.value <= one_of.high
            assert (one_of.p or 0) <= 0.05 or one_of.low <= 0 <= one_of.high
            assert (one_of.p or 0) > 0.05 or not one_of.low <= 0 <= one_of.high
            assert one_of.a is not None
            assert one_of.b is not None
            assert one_of.b - one_of.a == pytest.approx(one_of.value, abs=1e-8)
    assert (found.finding is Finding.STEADIER) == (found.steadier is not None)


def measures(found: Outcome) -> tuple[Difference, ...]:
    """The differences of all three measures."""
    return found.dip, found.rebound, found.settle


def turned(found: Difference) -> Difference:
    """The same difference as A less B."""
    value, low, high = (
        None if end is None else -end for end in (found.value, found.high, found.low)
    )
    return replace(found, value=value, low=low, high=high)
