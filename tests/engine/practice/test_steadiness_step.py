"""When a step from the first steadiness to the present one is told."""

import numpy as np
import pytest

from engine.practice.steadiness import steadiness, step_of
from tests.steady_foot import plain


def stretch(about: float, seed: int, count: int = 36) -> list[float]:
    """Deviations about a value, a quarter of it either way."""
    drawn = np.random.default_rng(seed).uniform(0.75 * about, 1.25 * about, count)
    return [float(one) for one in drawn]


def test_a_step_is_told_once_two_windows_and_the_newest_blips_lie_apart_from_the_first() -> None:
    blips = plain([*stretch(16, 1), *stretch(8, 2), *stretch(8, 3)])

    step = step_of(blips)

    assert step is not None
    assert (step.first, step.now) == (steadiness(blips[:36]), steadiness(blips))
    assert step_of(blips[:-1]) is None


def test_a_step_to_wider_is_told_as_well() -> None:
    step = step_of(plain([*stretch(8, 1), *stretch(16, 2), *stretch(16, 3)]))

    assert step is not None
    assert step.now.low > step.first.high


@pytest.mark.parametrize(
    "later",
    [
        [*stretch(16, 2), *stretch(8, 3)],
        [*stretch(8, 2), *stretch(16, 3)],
        [*stretch(8, 2), *stretch(40, 3)],
        [*stretch(8, 2), *stretch(8, 3), *stretch(16, 4, 24)],
    ],
)
def test_no_step_is_told_where_one_of_the_three_windows_does_not_agree(later: list[float]) -> None:
    assert step_of(plain([*stretch(16, 1), *later])) is None


def test_a_step_that_two_windows_showed_is_told_again_once_the_newest_blips_are_apart() -> None:
    shown = [*stretch(16, 1), *stretch(8, 2), *stretch(8, 3)]
    between = plain([*shown, *stretch(14, 4)])
    again = plain([*shown, *stretch(14, 4), *stretch(8, 5)])

    assert step_of(between) is None
    assert step_of(again) is not None
    assert step_of(again[:36] + again[108:]) is None


def test_order_intervals_that_touch_are_no_step() -> None:
    first, apart = [8.0] * 21 + [9.0] * 15, [12.0] * 36
    touching = [*[7.0] * 32, *[9.0] * 4]

    assert step_of(plain([*first, *apart, *apart])) is not None
    assert step_of(plain([*first, *touching, *touching])) is None


def test_no_step_is_told_from_a_value_that_the_present_interval_holds() -> None:
    before, after = [10.0] * 36, [*[2.0] * 21, *[9.5] * 15]

    now = steadiness(plain(after))

    assert now is not None
    assert now.low < 10.0 < now.high
    assert step_of(plain([*before, *after, *after])) is None
    assert step_of(plain([*[20.0] * 36, *after, *after])) is not None
