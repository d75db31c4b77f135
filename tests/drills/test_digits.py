"""Rounding of numbers on the screen."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.digits import apart, decimals, outside


@pytest.mark.parametrize(
    ("value", "limit", "said"),
    [
        (22.4, 15.0, ("22", "7")),
        (30.2, 30.0, ("30.2", "0.2")),
        (30.004, 30.0, ("30.004", "0.004")),
        (15.6, 15.0, ("16", "1")),
        (3.9, 3.5, ("3.9", "0.4")),
        (2.41, 1.7, ("2.4", "0.7")),
        (7.07, 2.7, ("7.1", "4.4")),
        (0.060, 0.05, ("0.06", "0.01")),
    ],
)
def test_a_value_over_its_limit_is_seen_to_be_over_it(
    value: float, limit: float, said: tuple[str, str]
) -> None:
    assert apart(value, limit) == said


@given(st.floats(0.5, 100), st.floats(0.001, 100))
def test_limit_and_excess_make_the_value_that_is_shown(limit: float, excess: float) -> None:
    limit = round(limit, 1)

    shown, over = apart(limit + excess, limit)

    assert float(shown) == pytest.approx(limit + float(over), abs=1e-9)
    assert float(shown) == pytest.approx(limit + excess, abs=0.5)
    written = len(f"{limit:g}".partition(".")[2])
    assert float(over) == pytest.approx(excess, abs=0.5 * 10**-written + 1e-9)
    assert float(over) > 0


@pytest.mark.parametrize(
    ("value", "said"),
    [(50.6, "50.6"), (49.0, "49"), (61.4, "61.4"), (50.996, "50.996"), (70.0, "70")],
)
def test_a_value_outside_a_band_is_seen_to_be_outside(value: float, said: str) -> None:
    assert outside(value, 56.0, 5.0) == said


@given(st.floats(10, 90), st.floats(0.5, 20), st.floats(0.001, 30), st.booleans())
def test_it_is_outside_for_whoever_reads_it(
    middle: float, reach: float, beyond: float, above: bool
) -> None:
    middle, reach = round(middle), round(reach, 1)
    value = middle + (reach + beyond) * (1 if above else -1)

    assert abs(float(outside(value, middle, reach)) - middle) > reach


@pytest.mark.parametrize(
    ("interval", "places"),
    [
        (0.001, 3),
        (0.0011, 3),
        (0.0012, 2),
        (0.002, 2),
        (0.008, 2),
        (0.01, 2),
        (0.016, 1),
        (0.05, 1),
        (None, 2),
    ],
)
def test_no_time_is_shown_finer_than_the_device_reports(
    interval: float | None, places: int
) -> None:
    assert decimals(interval) == places
    assert interval is None or 10**-places >= interval * 0.9
