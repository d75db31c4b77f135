"""The sign-flip test and its interval, against published results and scipy."""

import numpy as np
import pytest
from scipy import stats

from engine.trial.sign_flip import LEVEL, SignFlip, subset_means
from tests.bench.simulated_trials import FEET, differences, lots

MAIZE = [49, -67, 8, 16, 6, 23, 28, 41, 14, 29, 56, 24, 75, 60, -48]
"""Darwin's maize, eighths of an inch, crossed less selfed: Fisher 1935, section 21."""


def test_darwins_maize_has_the_p_that_fisher_counted() -> None:
    assert SignFlip.of(MAIZE).p == 1726 / 32768


def test_p_is_that_of_scipy() -> None:
    rng = np.random.default_rng(3)
    rows = [MAIZE, *(np.round(rng.normal(1, 2, count), 1).tolist() for count in (6, 7, 9, 12))]

    for row in rows:
        scipys = stats.permutation_test(
            (np.array(row),), np.sum, permutation_type="samples", n_resamples=np.inf
        )

        assert SignFlip.of(row).p == pytest.approx(scipys.pvalue, abs=1e-12)


def test_ties_are_counted_though_their_sums_round_differently() -> None:
    # 0.1 + 0.2 - 0.3 is 5.6e-17 in floating point: of 8 ways to flip, two give nothing.
    assert SignFlip.of([0.1, 0.2, -0.3]).p == 1
    assert SignFlip.of([0.1, 0.2, 0.3]).p == 0.25


@pytest.mark.parametrize(("pairs", "smallest"), [(5, 0.0625), (6, 0.03125)])
def test_pairs_that_all_agree_have_the_smallest_p_there_is(pairs: int, smallest: float) -> None:
    # Reference values, section 7.
    assert SignFlip.of([1.0 + pair for pair in range(pairs)]).p == smallest


def test_under_six_pairs_there_is_no_interval_and_of_six_it_is_from_least_to_most() -> None:
    five, six = SignFlip.of([1.0, 2.0, 3.0, 4.0, 5.0]), SignFlip.of([3.0, 2, 9, 4, 5, 1])

    assert (five.value, five.low, five.high) == (3.0, None, None)
    assert (six.value, six.low, six.high) == (4.0, 1.0, 9.0)


def test_no_pairs_are_refused() -> None:
    with pytest.raises(ValueError, match=r"^differences: expected at least one, found none$"):
        SignFlip.of([])


def test_the_interval_holds_exactly_the_differences_that_scipys_test_accepts() -> None:
    row = np.round(np.random.default_rng(5).normal(1, 3, 9), 1)
    found = SignFlip.of(row.tolist())
    assert found.low is not None
    assert found.high is not None

    for true in (found.low - 0.01, found.low + 0.01, found.high - 0.01, found.high + 0.01):
        p = stats.permutation_test(
            (row - true,), np.sum, permutation_type="samples", n_resamples=np.inf
        ).pvalue

        assert (p > LEVEL) == (found.low <= true <= found.high)


def test_means_of_subsets_spread_as_the_bootstrap_does() -> None:
    # Of what is left once the mean is taken off, the sum over a subset, times 2 / n, is a resample
    # of double or nothing. Ideal standard error of the mean: 9.415102 (reference values).
    left = np.array(MAIZE) - np.mean(MAIZE)
    sizes = [number.bit_count() for number in range(1, 2 ** len(MAIZE))]

    resamples = np.append(0.0, subset_means(left.tolist()) * sizes) * 2 / len(MAIZE)
    scipys = stats.bootstrap(
        (MAIZE,), np.mean, n_resamples=9999, method="basic", random_state=np.random.default_rng(1)
    )

    assert resamples.std() == pytest.approx(9.415102, rel=1e-6)
    assert resamples.std() == pytest.approx(scipys.standard_error, rel=0.01)


@pytest.mark.parametrize("name", ["plain", "all together"])
def test_intervals_cover_the_true_difference_as_often_as_they_should(name: str) -> None:
    # A small version of `python tests/bench/trial.py`: of 6 pairs 96.9 % cover.
    rng = np.random.default_rng(1)
    dips, arms = FEET[name].dips(800, 6, rng), lots(800, 6, rng)

    found = [SignFlip.of(row) for row in differences(dips + 4.0 * arms[:, :, None], arms).tolist()]

    covered = sum((one.low or 0) <= -4 <= (one.high or 0) for one in found)
    assert stats.binomtest(covered, len(found), 1 - 2 / 64).pvalue > 0.01
