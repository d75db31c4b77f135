"""`size_made`: the mean size of blips beside the size asked."""

from datetime import timedelta

import numpy as np
import pytest

from engine.practice.size_made import LEAST, NEWEST, SizedBlip, size_made
from tests.engine.practice.squeezing import DAY


def blips(mean: float, spread: float, count: int = NEWEST) -> list[SizedBlip]:
    """Blips whose mean and standard deviation are exactly these, six a day."""
    drawn = np.random.default_rng(2).normal(size=count)
    peaks = mean + spread * (drawn - drawn.mean()) / drawn.std(ddof=1)
    return [
        SizedBlip(DAY + timedelta(days=number // 6), float(peak))
        for number, peak in enumerate(peaks)
    ]


def test_nothing_is_told_before_twenty_blips() -> None:
    assert size_made(blips(48, 11, LEAST - 1), 60) is None
    assert size_made(blips(48, 11, LEAST), 60) is not None


def test_small_blips_are_told_with_their_mean_and_spread() -> None:
    made = size_made(blips(48, 11), 60)

    assert made is not None
    assert made.mean == pytest.approx(48)
    assert made.spread == pytest.approx(11)
    assert made.low < 48 < made.high
    assert made.is_small
    assert not made.is_big


@pytest.mark.parametrize("mean", [57.0, 60.0, 63.0])
def test_a_mean_near_the_size_asked_is_no_fault(mean: float) -> None:
    made = size_made(blips(mean, 1.0), 60)

    assert made is not None
    assert not made.is_small
    assert not made.is_big


def test_big_blips_are_told_and_an_unsure_mean_is_not() -> None:
    big, unsure = size_made(blips(72, 11), 60), size_made(blips(66, 16), 60)

    assert big is not None
    assert big.is_big
    assert unsure is not None
    assert not unsure.is_big


def test_only_the_newest_blips_count() -> None:
    assert size_made([*blips(90, 2), *blips(60, 5)], 60) == size_made(blips(60, 5), 60)
