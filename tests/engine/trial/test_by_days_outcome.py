"""The outcome of a trial by days: scaled, raw, and what the blips say."""

from collections.abc import Callable
from dataclasses import replace
from itertools import product
from math import exp, log, sqrt
from random import Random

import pytest

from drills.score import Reason
from engine.trial.by_days import DayBlip
from engine.trial.by_days_outcome import DaysOutcome, days_outcome
from engine.trial.outcome import ArmCount, Finding
from engine.trial.randomisation import order
from engine.trial.trial import DAY_PAIRS, Arm
from tests.engine.trial.made_up_days import SEED, blip, days

ARMS = order(SEED, DAY_PAIRS)
UNEVEN = [0.5, 0.3, 0.45, 0.6, 0.2, 0.4, 0.55, 0.35]
"""Logarithm by which B is steadier than A, pair by pair."""


def found(blips: list[DayBlip]) -> DaysOutcome:
    """The outcome of a trial of these blips."""
    return days_outcome(blips, SEED, DAY_PAIRS)


def uneven(arm: Arm, pair: int) -> float:
    """Points of a day whose pair differs by as much as UNEVEN says."""
    return 10 * (exp(-UNEVEN[pair]) if arm is Arm.B else 1.0)


def number(value: float | None) -> float:
    """A figure that is there."""
    assert value is not None
    return value


def test_the_difference_is_that_of_the_geometric_means_with_an_exact_interval() -> None:
    outcome = found(days(uneven))

    scaled = outcome.blips.scaled
    mean = sum(UNEVEN) / 8
    assert (outcome.finding, outcome.steadier) == (Finding.STEADIER, Arm.B)
    assert scaled.a == pytest.approx(10)
    assert scaled.b == pytest.approx(10 * exp(-mean))
    assert scaled.p == 2 / 256
    assert scaled.smaller is Arm.B


def test_the_interval_holds_the_differences_that_flipping_signs_does_not_reject() -> None:
    scaled = found(days(uneven)).blips.scaled
    low, high = number(scaled.low), number(scaled.high)
    middle = sqrt(number(scaled.a) * number(scaled.b))

    def rejected(points: float) -> bool:
        """Whether a true difference of so many points is rejected by flipping all signs."""
        half = points / 2 / middle
        difference = 2 * log(half + sqrt(half**2 + 1))
        left = [-one - difference for one in UNEVEN]
        sums = [
            sum(s * x for s, x in zip(signs, left, strict=True))
            for signs in product((1, -1), repeat=8)
        ]
        share = sum(abs(one) >= abs(sum(left)) - 1e-12 for one in sums) / len(sums)
        return share <= 0.05

    assert rejected(low - 0.01)
    assert not rejected(low + 0.01)
    assert not rejected(high - 0.01)
    assert rejected(high + 0.01)


def test_swapping_the_names_of_the_set_ups_turns_every_sign() -> None:
    one = found(days(uneven))
    other = found(days(lambda arm, pair: uneven(Arm.A if arm is Arm.B else Arm.B, pair)))

    ours, theirs = one.blips.scaled, other.blips.scaled
    assert other.steadier is Arm.A
    assert (number(ours.low), number(ours.high)) == pytest.approx(
        (-number(theirs.high), -number(theirs.low))
    )
    assert ours.p == theirs.p


def test_equal_days_are_no_difference_to_notice() -> None:
    outcome = found(days(lambda _, pair: 8 + 0.1 * pair))

    assert outcome.finding is Finding.NO_DIFFERENCE
    assert outcome.blips.scaled.value == pytest.approx(0)


def larger(arm: Arm, pair: int) -> float:
    """Throttle of blips that are larger with A."""
    return (65.0 if arm is Arm.A else 45.0) + pair / 10


def test_equal_feet_with_unequal_blips_cannot_be_told_and_the_blips_are_named() -> None:
    outcome = found(days(lambda _, pair: 10 + pair % 3, larger))

    assert outcome.finding is Finding.CANNOT_TELL
    assert outcome.raw.smaller is Arm.B
    assert outcome.blips.scaled.smaller is None
    assert outcome.blips.differ
    assert outcome.hangs_on_size
    assert outcome.blips.peaks.value == pytest.approx(-20)


def test_a_foot_steadier_than_its_smaller_blips_explain_is_told_with_the_blips() -> None:
    outcome = found(days(uneven, larger))

    assert (outcome.finding, outcome.steadier) == (Finding.STEADIER, Arm.B)
    assert outcome.blips.differ
    assert not outcome.hangs_on_size


def test_a_sure_but_small_difference_of_the_blips_is_not_named() -> None:
    outcome = found(days(uneven, lambda arm, _: 62.0 if arm is Arm.A else 58.0))

    assert outcome.blips.peaks.smaller is Arm.B
    assert not outcome.blips.differ


def with_failed(of: Arm, count: int, failed: Callable[[DayBlip], DayBlip]) -> list[DayBlip]:
    """Blips of a trial in which the first `count` of each day with a set-up failed."""
    made, seen = [], dict.fromkeys(range(16), 0)
    for one in days(uneven):
        seen[one.block] += 1
        fails = ARMS[one.block] is of and seen[one.block] <= count
        made.append(failed(one) if fails else one)
    return made


def left(one: DayBlip) -> DayBlip:
    """The blip, left after its cue."""
    return replace(one, reason=Reason.WALKED_OUT, deviation=None, peak=None)


def light(one: DayBlip) -> DayBlip:
    """The blip, with too little throttle and a brake hardly moved."""
    return replace(one, reason=Reason.LIGHT, deviation=0.5, peak=20.0)


@pytest.mark.parametrize("failed", [left, light])
def test_what_failed_is_as_bad_as_the_worst_and_more_than_half_of_it_tells_nothing(
    failed: Callable[[DayBlip], DayBlip],
) -> None:
    some = found(with_failed(Arm.B, 2, failed))
    most = found(with_failed(Arm.B, 4, failed))

    assert number(some.blips.scaled.b) > number(found(days(uneven)).blips.scaled.b)
    assert (most.finding, most.steadier) == (Finding.CANNOT_TELL, None)


def test_the_blips_are_counted_by_how_they_ended() -> None:
    blips = [
        *with_failed(Arm.A, 1, left),
        *(blip(n, None, None, reason=Reason.GAP) for n in (0, 1)),
    ]

    outcome = found(with_failed(Arm.B, 1, light))
    voids = found(blips)

    assert outcome.counts == (ArmCount(48, 0, 0), ArmCount(48, 0, 0, 8))
    assert voids.counts == (ArmCount(48, 1, 8), ArmCount(48, 1, 0))


def test_with_nothing_measured_nothing_is_told() -> None:
    outcome = found([blip(n // 4, None, None, reason=Reason.WALKED_OUT) for n in range(64)])

    assert outcome.finding is Finding.CANNOT_TELL
    figures = outcome.raw, outcome.blips.scaled, outcome.blips.peaks
    assert [figure.value for figure in figures] == [None] * 3


def test_equal_feet_are_told_apart_in_at_most_about_one_trial_of_twenty() -> None:
    rng = Random(4)

    def steadier() -> Arm | None:
        moods = {(arm, pair): rng.gauss(0, 0.3) for arm in Arm for pair in range(8)}
        return found(days(lambda arm, pair: 10 * exp(moods[arm, pair]))).steadier

    assert sum(steadier() is not None for _ in range(200)) <= 18
