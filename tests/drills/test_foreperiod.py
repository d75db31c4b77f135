"""The wait in the dark: its distribution in closed form, and that waiting tells nothing."""

import math

import numpy as np
import pytest

from drills.foreperiod import Foreperiod


class Stair:
    """A generator of chance that walks evenly through 0 to 1."""

    def __init__(self, count: int) -> None:
        self._draws = iter((np.arange(count) + 0.5) / count)

    def random(self) -> float:
        """The next even draw."""
        return float(next(self._draws))


def drawn(count: int, seed: int = 6, wait: Foreperiod | None = None) -> np.ndarray:
    """Many waits past the shift."""
    chosen, rng = wait or Foreperiod(), np.random.default_rng(seed)
    return np.array([chosen.draw(rng) - chosen.shift for _ in range(count)])


def test_the_mean_and_median_of_the_cut_wait_are_those_of_its_closed_form() -> None:
    # Cut at 6 s past the shift: mean 1.388056, median 1.012496 past the shift of 1 s (computed).
    even, wait = Stair(100_001), Foreperiod()

    waits = np.array([wait.draw(even) - 1 for _ in range(100_001)])  # type: ignore[arg-type]

    assert waits.mean() == pytest.approx(1.388056, abs=1e-4)
    assert np.median(waits) == pytest.approx(1.012496, abs=1e-6)
    share = -math.expm1(-6 / 1.5)
    assert waits.mean() == pytest.approx(1.5 - 6 * math.exp(-4) / share, abs=1e-4)
    assert np.median(waits) == pytest.approx(-1.5 * math.log1p(-share / 2), abs=1e-6)


def test_a_large_sample_has_the_mean_and_median_of_the_wait() -> None:
    # The standard error of the mean of 100,000 waits is 0.004 s.
    waits = drawn(100_000)

    assert waits.mean() == pytest.approx(1.388056, abs=0.016)
    assert np.median(waits) == pytest.approx(1.012496, abs=0.016)


@pytest.mark.parametrize("passed", [0.0, 0.5, 1.0, 2.0, 4.0])
def test_the_cue_is_as_likely_in_the_next_half_second_whatever_has_passed(passed: float) -> None:
    # Mean 1.5 s: 1 - exp(-0.5 / 1.5) = 0.283469 (computed). Cut far off, so that none is seen.
    waits = drawn(100_000, wait=Foreperiod(shift=1.0, mean=1.5, cut=60.0))
    left = waits[waits >= passed]

    share = float(np.mean(left < passed + 0.5))

    allow = 4 * math.sqrt(0.283469 * 0.716531 / left.size)
    assert share == pytest.approx(0.283469, abs=allow)


def test_no_wait_is_shorter_than_the_shift_or_longer_than_the_cut() -> None:
    waits = drawn(20_000, wait=Foreperiod(shift=2.0, mean=5.0, cut=1.0))

    assert 0 <= waits.min() < 0.001
    assert 0.999 < waits.max() <= 1.0


def test_the_same_seed_waits_the_same() -> None:
    assert drawn(20, seed=3).tolist() == drawn(20, seed=3).tolist()
    assert drawn(20, seed=3).tolist() != drawn(20, seed=4).tolist()
