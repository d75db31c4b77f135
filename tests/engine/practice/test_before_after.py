"""Before and after a change; rates are a small version of `python tests/bench/change.py`."""

from datetime import date
from math import exp, log

import numpy as np
import pytest
from scipy import stats

from engine.practice.before_after import BeforeAfter, Sides, before_after, days_on, sides
from engine.practice.level_days import LevelDays
from tests.bench.change import CHANGED, NOTHING, PLAIN, ChangedFoot, cells_of, looks

DAY = date(2024, 10, 3)


def made(rows: list[tuple[int, int, float]]) -> LevelDays:
    """Level-days of levels, days from the change and logarithms."""
    level, day, logs = (np.array(column) for column in zip(*sorted(rows), strict=True))
    logs = logs.astype(float)
    return LevelDays(level, day + DAY.toordinal(), logs, logs, np.ones_like(level))


def rows_of(seed: int = 3, step: float = -0.3) -> list[tuple[int, int, float]]:
    """Two levels about a change: one of every day, the other of every third."""
    rng = np.random.default_rng(seed)
    return [
        (level, day, 2.0 + level / 3 - 0.01 * day + step * (day >= 0) + rng.normal(0, 0.1))
        for level, every in ((1, 1), (4, 3))
        for day in range(-21, 24, every)
    ]


def test_the_days_compared_are_three_weeks_before_and_three_once_the_foot_has_settled() -> None:
    compared = sides(DAY)

    assert compared.before == (date(2024, 9, 12), date(2024, 10, 2))
    assert compared.after == (date(2024, 10, 6), date(2024, 10, 26))


def test_another_change_cuts_the_days_compared_and_one_of_that_day_does_not() -> None:
    others = [date(2024, 8, 1), date(2024, 9, 20), DAY, date(2024, 10, 20), date(2024, 12, 1)]

    compared = sides(DAY, others)

    assert compared.before == (date(2024, 9, 23), date(2024, 10, 2))
    assert compared.after == (date(2024, 10, 6), date(2024, 10, 19))


def test_the_step_is_that_of_least_squares_with_the_error_of_a_jackknife_by_days() -> None:
    # The same without the product's algebra: a fit for every day left out, and the t of scipy.
    used = [row for row in rows_of() if not 0 <= row[1] < 3]

    def fit(rows: list[tuple[int, int, float]]) -> list[float]:
        design = [[lv == 1, lv == 4, day, day >= 0] for lv, day, _ in rows]
        found, *_ = np.linalg.lstsq(np.array(design, float), [one for *_, one in rows], rcond=None)
        return [float(one) for one in found]

    days = sorted({day for _, day, _ in used})
    left = [fit([row for row in used if row[1] != day])[3] for day in days]
    middle = fit(used)
    count = len(days)
    error = np.sqrt((count - 1) / count * sum((one - middle[3]) ** 2 for one in left))

    found = before_after(made(rows_of()), DAY, sides(DAY))

    assert found is not None
    assert (found.step, found.trend) == pytest.approx((middle[3], middle[2]))
    assert found.half == pytest.approx(stats.t.ppf(0.975, count - 3) * error)
    assert found.before == pytest.approx(exp(middle[0]))  # level 1 has most days on both sides
    assert found.after == pytest.approx(exp(middle[0] + middle[3]))


def test_the_interval_of_what_is_less_is_in_the_unit_of_the_measure() -> None:
    found = BeforeAfter(10.0, log(0.7), 0.2, 0.0)

    assert found.better == pytest.approx((10 - 7 * exp(0.2), 10 - 7 * exp(-0.2)))
    assert found.is_told
    assert not BeforeAfter(10.0, log(0.7), 0.4, 0.0).is_told


@pytest.mark.parametrize("side", [-1, 1])
def test_with_fewer_than_five_days_on_a_side_nothing_is_found(side: int) -> None:
    """Four days on one side, whichever."""
    few = {side * day for day in (4, 6, 8, 10)}
    rows = [row for row in rows_of() if row[1] * side < 0 or row[1] in few]
    found = made(rows)

    assert before_after(found, DAY, sides(DAY)) is None
    assert min(days_on(found, dates) for dates in (sides(DAY).before, sides(DAY).after)) == 4
    more = made([*rows, (1, side * 12, 2.0)])
    assert before_after(more, DAY, sides(DAY)) is not None


def test_without_a_level_on_both_sides_nothing_is_found() -> None:
    rows = [(1 if day < 0 else 2, day, one) for _, day, one in rows_of() if day % 3]

    assert before_after(made(rows), DAY, sides(DAY)) is None


def test_days_outside_those_compared_change_nothing() -> None:
    odd = [(1, -40, 9.0), (1, 0, 9.0), (1, 2, 9.0), (1, 24, 9.0), (7, 30, 9.0)]

    assert before_after(made([*rows_of(), *odd]), DAY, sides(DAY)) == before_after(
        made(rows_of()), DAY, sides(DAY)
    )


def test_scaling_all_values_scales_the_deviation_alone() -> None:
    plain = before_after(made(rows_of()), DAY, sides(DAY))
    scaled = before_after(made([(lv, day, one + 1) for lv, day, one in rows_of()]), DAY, sides(DAY))

    assert plain is not None
    assert scaled is not None
    assert scaled.before == pytest.approx(plain.before * exp(1))
    assert (scaled.step, scaled.half) == pytest.approx((plain.step, plain.half))


@pytest.mark.parametrize(
    "name", ["flat, days differ by 30%", "learns 2 % a day, days differ by 15%"]
)
def test_what_brought_nothing_is_told_as_better_or_worse_in_a_few_of_100(name: str) -> None:
    whole = sides(CHANGED)

    found = [before_after(cells_of(NOTHING[name], seed), CHANGED, whole) for seed in range(60)]

    assert None not in found
    assert sum(one is not None and one.is_told for one in found) <= 8


def test_half_of_the_dip_gone_is_found_with_a_learning_foot() -> None:
    foot = ChangedFoot(learns=0.01, step=log(0.5))
    whole = sides(CHANGED)

    found = [before_after(cells_of(foot, seed), CHANGED, whole) for seed in range(40)]

    assert sum(one is not None and one.is_told and one.step < 0 for one in found) >= 32


def test_the_days_with_a_change_can_be_looked_at_as_they_come() -> None:
    cells = cells_of(PLAIN, 1)

    seen = list(looks(cells))

    assert [day for day, _ in seen] == list(range(13, 25))
    assert seen[-1][1] == before_after(cells, CHANGED, sides(CHANGED))
    assert days_on(cells, Sides(sides(CHANGED).before, sides(CHANGED).after).after) == 21
