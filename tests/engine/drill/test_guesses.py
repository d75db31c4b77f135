"""Mean absolute error of guesses, against a value worked by hand."""

import numpy as np
import pytest

from engine.drill.guesses import GuessErrors, is_right, mean_error

# Willmott & Matsuura 2005 (from memory): the mean absolute error is the mean of |guess - was|.
BY_HAND = [(6.0, 9.0), (12.0, 8.0), (3.0, 3.0), (0.0, 5.0)]
"""Pairs of guess and value, off by 3, 4, 0 and 5: 3 on average."""


def test_the_mean_error_is_that_worked_by_hand() -> None:
    assert mean_error(BY_HAND) == 3.0


def test_the_mean_error_is_that_of_numpy() -> None:
    rng = np.random.default_rng(8)
    pairs = rng.uniform(0, 40, (50, 2))

    assert mean_error([(a, b) for a, b in pairs.tolist()]) == pytest.approx(
        float(np.mean(np.abs(pairs[:, 0] - pairs[:, 1])))
    )


def test_without_guesses_there_is_no_error() -> None:
    assert GuessErrors.of([]) is None
    with pytest.raises(ValueError, match="guesses: expected at least one, found none"):
        mean_error([])


def test_the_first_ten_guesses_are_compared_once_they_do_not_overlap_the_newest_ten() -> None:
    off = [9.0] * 10 + [5.0] * 5 + [2.0] * 10
    guesses = [(10.0 + error, 10.0) for error in off]

    few = GuessErrors.of(guesses[:19])
    assert few is not None
    assert few.now == pytest.approx((9 + 5 * 5 + 4 * 2) / 10)
    assert few.first is None
    assert GuessErrors.of(guesses) == GuessErrors(2.0, 9.0)


@pytest.mark.parametrize(
    ("guess", "was", "right"),
    [(6.0, 5.2, True), (6.0, 4.6, True), (3.0, 4.6, False), (3.0, 4.5, True), (40.0, 70.0, True)],
)
def test_a_guess_is_right_if_no_other_step_is_nearer(guess: float, was: float, right: bool) -> None:
    assert is_right(guess, was) == right
