"""The random order of a trial: fair, fixed by its seed, whatever the number of pairs."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

import pytest
from scipy.stats import binomtest

from drills.score import Reason
from engine.trial.randomisation import block_now, counted_in, order, recalibrated
from engine.trial.trial import MOST_PAIRS, Arm
from tests.engine.trial.made_up_trials import one, trial

A, B = Arm.A, Arm.B


def lean(arms: Sequence[Arm], power: int) -> int:
    """Advantage of B over A where the foot drifts with a power of the block's number."""
    return sum((1 if arm is B else -1) * block**power for block, arm in enumerate(arms, start=1))


def test_each_pair_has_one_block_of_each_arm() -> None:
    arms = order(3, MOST_PAIRS)

    assert [{*pair} for pair in zip(arms[::2], arms[1::2], strict=True)] == [{A, B}] * MOST_PAIRS


def test_a_seed_always_gives_the_same_order() -> None:
    found = "".join(order(7, 8))

    assert found == "ABABBAABBAABABBA"


def test_more_pairs_leave_the_order_of_the_first_as_it_is() -> None:
    longest = order(11, MOST_PAIRS)

    assert all(order(11, pairs) == longest[: 2 * pairs] for pairs in range(MOST_PAIRS + 1))


def test_the_order_is_fair_in_every_pair_and_independent_between_pairs() -> None:
    lots = [[arm is A for arm in order(seed, MOST_PAIRS)[::2]] for seed in range(2000)]

    firsts = [sum(pair) for pair in zip(*lots, strict=True)]
    stays = sum(a == b for row in lots for a, b in pairwise(row))

    # Of 17 fair counts the least likely has a p over 0.001 in 98 of 100 cases.
    assert min(binomtest(count, 2000).pvalue for count in firsts) > 0.001
    assert binomtest(stays, 2000 * (MOST_PAIRS - 1)).pvalue > 0.001


@pytest.mark.parametrize(
    ("arms", "linear", "quadratic", "cubic"),
    # Reference values, section 7: counterbalancing, computed.
    [("ABBA", 0, -2, -15), ("ABBABAAB", 0, 0, 12), ("ABAB", 1, 5, 22)],
)
def test_a_fixed_order_favours_an_arm_under_some_drift(
    arms: str, linear: int, quadratic: int, cubic: int
) -> None:
    found = [lean([Arm(arm) for arm in arms], power) / (len(arms) / 2) for power in (1, 2, 3)]

    assert found == [linear, quadratic, cubic]


@pytest.mark.parametrize("power", [1, 2, 3])
def test_a_drawn_order_favours_neither_arm_under_any_drift(power: int) -> None:
    pair = 2**power - 1

    leans = [lean(order(seed, 1), power) for seed in range(4000)]

    assert set(leans) == {pair, -pair}
    assert binomtest(leans.count(pair), 4000).pvalue > 0.01


def test_the_block_to_play_is_the_first_that_is_not_full() -> None:
    full = [one(block) for block in range(3) for _ in range(5)]

    assert block_now(trial([])) == 0
    assert block_now(trial(full[:4])) == 0
    assert block_now(trial(full)) == 3
    assert (
        block_now(trial([*full, *[one(block) for block in range(3, 12) for _ in range(5)]])) is None
    )


def test_a_void_repetition_is_repeated_and_one_left_after_the_cue_counts() -> None:
    reasons = [Reason.GAP, Reason.LEFT, Reason.WALKED_OUT, Reason.NO_BLIP, Reason.ANTICIPATION]
    played = trial([one(0, None, reason) for reason in reasons])

    assert counted_in(played, 0) == 2
    assert block_now(played) == 0


def test_a_second_calibration_shows_among_repetitions_that_count() -> None:
    first, second = one(0), replace(one(1), calibration=2)

    assert not recalibrated(trial([]))
    assert not recalibrated(trial([first, replace(one(1), calibration=None)]))
    assert not recalibrated(trial([first, replace(second, reason=Reason.GAP)]))
    assert recalibrated(trial([first, second]))
