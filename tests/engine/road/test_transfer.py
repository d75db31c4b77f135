"""A drive compared with the drills of the last weeks, and the interval of the difference."""

from collections.abc import Sequence
from datetime import UTC, date, datetime

import numpy as np
import pytest
from scipy import stats

from engine.practice.course import Course
from engine.road.blips import RoadBlip
from engine.road.drive import Drive
from engine.road.transfer import (
    DAYS,
    DRAWS,
    DrillComparison,
    Drilled,
    comparison,
    comparisons,
    drilled,
)

DAY = date(2024, 5, 17)


def course(*rows: tuple[int, int, float]) -> Course:
    """A course of repetitions: days before `DAY`, place in their day, and dip."""
    ago, place, value = zip(*rows, strict=True) if rows else ((), (), ())
    days = np.array([DAY.toordinal() - days for days in ago], dtype=np.int64)
    number = np.arange(1, len(rows) + 1, dtype=np.int64)
    return Course(
        number,
        days,
        np.array(place, dtype=np.int64),
        np.array(value, dtype=np.float64),
        np.zeros_like(number),
    )


def drills(dips: Sequence[float]) -> Drilled:
    """Drills of three days with these dips."""
    return Drilled(tuple(dips), tuple(range(1, len(dips) + 1)), 3)


def test_drills_count_up_to_the_day_without_the_first_of_each_day() -> None:
    found = course(
        *((90, 6, 1.0), (27, 5, 2.0), (27, 6, 3.0), (0, 6, float("nan")), (0, 7, 4.0), (-1, 6, 5.0))
    )

    assert drilled(found, DAY) == Drilled((1.0, 3.0, 4.0), (1, 3, 5), 3)


def test_the_newest_ten_days_with_practice_count_however_long_ago() -> None:
    warmed = [(7 * week, 6, float(week)) for week in range(DAYS + 3, 0, -1)]
    only_warm_up = [(1, place, 50.0) for place in range(1, 6)]

    found = drilled(course(*warmed, *only_warm_up), DAY)

    assert found.dips == tuple(float(week) for week in range(DAYS, 0, -1))
    assert found.days == DAYS


def test_a_drive_is_held_against_easing_off_and_stands_beside_single_blips() -> None:
    blips = tuple(RoadBlip(1, 1, 1.0, 60.0, 12.0) for _ in range(8))
    drive = Drive(datetime(2024, 5, 17, 20, tzinfo=UTC), "a", "0", 60.0, blips)
    courses = {"trail": course(*((1, 6 + n, 7.0) for n in range(8))), "blip": course((1, 6, 9.0))}

    found = comparisons(drive, courses)

    assert found == (
        DrillComparison("trail", 8, 7.0, 1, 5.0, 5.0, 5.0),
        DrillComparison("blip", 1, 9.0, 1),
    )


def test_single_blips_are_measured_otherwise_and_never_told_apart_from_the_road() -> None:
    found = comparison("blip", [12.0] * 40, drills([7.0] * 40))

    assert found == DrillComparison("blip", 40, 7.0, 3)


@pytest.mark.parametrize(("road", "drill"), [(7, 40), (40, 7)])
def test_fewer_than_eight_on_either_side_are_not_compared(road: int, drill: int) -> None:
    found = comparison("trail", [12.0] * road, drills([7.0] * drill))

    assert found == DrillComparison("trail", drill, 7.0, 3)


@pytest.mark.parametrize(
    ("low", "high", "tells"), [(0.1, 2.0, True), (-3.0, -0.1, True), (-1, 1, False)]
)
def test_road_and_drill_are_told_apart_where_the_interval_leaves_out_0(
    low: float, high: float, tells: bool
) -> None:
    assert DrillComparison("trail", 9, 7.0, 2, 1.0, low, high).tells is tells


def test_the_interval_is_the_percentile_bootstrap_of_the_difference_of_medians() -> None:
    # scipy.stats.bootstrap: two independent samples, method "percentile".
    rng = np.random.default_rng(1)
    road, drill = rng.gamma(4, 3, 23), rng.gamma(4, 2, 90)

    found = comparison("trail", road.tolist(), drills(drill.tolist()))
    published = stats.bootstrap(
        (road, drill),
        lambda one, other, axis: np.median(one, axis=axis) - np.median(other, axis=axis),
        method="percentile",
        n_resamples=20 * DRAWS,
        rng=np.random.default_rng(2),
    ).confidence_interval

    width = published.high - published.low
    assert found.more == pytest.approx(float(np.median(road) - np.median(drill)))
    assert found.low == pytest.approx(published.low, abs=width / 20)
    assert found.high == pytest.approx(published.high, abs=width / 20)


def test_eight_on_either_side_are_compared() -> None:
    found = comparison("trail", [12.0] * 8, drills([7.0] * 8))

    assert (found.count, found.more, found.low, found.high) == (8, 5.0, 5.0, 5.0)


@pytest.mark.parametrize(("low", "high"), [(0.0, 2.0), (-2.0, 0.0)])
def test_an_interval_that_ends_at_0_shows_no_difference(low: float, high: float) -> None:
    assert not DrillComparison("trail", 9, 7.0, 2, 1.0, low, high).tells
