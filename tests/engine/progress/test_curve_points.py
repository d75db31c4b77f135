"""Points that a learning curve is fitted to, worked out by hand."""

import numpy as np
import pytest

from engine.practice.course import LEFT_OUT, Course
from engine.progress.curve_points import BLOCK, FINE, Blocks, blocks

DAY = 730_000


def of(*days: list[float], before: int = LEFT_OUT, since: int = 0) -> Blocks:
    """Blocks of some days, each with `before` other repetitions before its values."""
    count = [len(day) for day in days]
    day = np.repeat(np.arange(len(days)) + DAY, count)
    place = np.concatenate([before + 1 + np.arange(one) for one in count])
    value = np.array([one for day in days for one in day])
    number = np.arange(1, value.size + 1)
    return blocks(Course(number, day, place, value, np.zeros_like(number)), since)


def test_a_day_is_cut_into_fives_and_the_last_block_takes_the_remainder() -> None:
    found = of([float(one) for one in range(12, 0, -1)], [7.0, 9.0, 8.0])

    assert found.value.tolist() == [10.0, 4.0, 8.0]
    assert found.n.tolist() == [3, 9, 14]
    assert found.day.tolist() == [DAY, DAY, DAY + 1]


def test_a_block_of_an_even_number_leaves_out_its_newest() -> None:
    found = of([1.0, 2.0, 3.0, 99.0], [5.0, 99.0])

    assert found.value.tolist() == [2.0, 5.0]
    assert found.n.tolist() == [2, 5]


def test_repetitions_not_used_for_trends_are_still_counted() -> None:
    found = of([9.0] * 5 + [3.0, np.nan, 1.0, 2.0], [9.0] * 5 + [4.0], before=0, since=2)

    assert found.value.tolist() == [2.0, 4.0]
    assert found.n.tolist() == [6, 13]


def test_a_day_of_forty_weighs_less_than_twice_a_day_of_five() -> None:
    found = of([1.0] * 5, [1.0] * 35)

    assert found.weight[0] == pytest.approx(1.0)
    assert found.weight[1:].tolist() == pytest.approx([2 / 8] * 7)


@pytest.mark.parametrize("days", [200, 3650])
def test_a_long_course_is_fine_at_first_and_has_few_blocks(days: int) -> None:
    a_day = 20

    found = of(*([float(day)] * a_day for day in range(days)))

    assert found.n[: FINE // BLOCK].tolist() == list(range(3, FINE, BLOCK))
    assert found.n.size <= 2 * FINE // BLOCK + 1
    assert (np.diff(found.n) > 0).all()
    assert np.abs(found.value - (found.n - 1) // a_day).max() == 0.0
    assert found.n[-1] > days * a_day - 8 * a_day
