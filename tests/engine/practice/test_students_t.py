"""The t that a share of chance lies within, against printed tables and scipy."""

import pytest
from scipy import stats

from engine.practice.students_t import over, within

# Handbook tables of Student's t (from memory): the 0.975 quantile, and the 0.95 one.
PRINTED = {
    0.95: {1: 12.706, 2: 4.303, 3: 3.182, 5: 2.571, 7: 2.365, 10: 2.228, 30: 2.042, 60: 2.000},
    0.9: {1: 6.314, 2: 2.920, 3: 2.353, 5: 2.015, 7: 1.895, 10: 1.812, 30: 1.697, 60: 1.671},
}


@pytest.mark.parametrize(
    ("share", "df", "t"), [(share, *row) for share, rows in PRINTED.items() for row in rows.items()]
)
def test_students_t_agrees_with_printed_tables(share: float, df: int, t: float) -> None:
    assert round(within(share, df), 3) == t


@pytest.mark.parametrize("share", [0.5, 0.8, 0.9, 0.95, 0.99])
def test_students_t_agrees_with_scipy(share: float) -> None:
    for df in [*range(1, 61), 100, 365, 1000]:
        assert within(share, df) == pytest.approx(stats.t.ppf((1 + share) / 2, df), rel=1e-9)


def test_the_chance_over_a_value_agrees_with_scipy() -> None:
    for df in (1, 2, 3, 6, 18, 60):
        for t in (-40.0, -1.3, 0.0, 0.4, 2.5, 40.0):
            assert over(t, df) == pytest.approx(stats.t.sf(t, df), abs=1e-12)
    with pytest.raises(ValueError, match="df: expected at least 1, found 0"):
        over(1.0, 0)


def test_with_many_degrees_of_freedom_students_t_is_normal() -> None:
    assert within(0.95, 10000) == pytest.approx(1.959964, abs=3e-4)


@pytest.mark.parametrize(
    ("share", "df", "fault"),
    [
        (0.0, 5, "share: expected between 0 and 1, found 0"),
        (1.0, 5, "share: expected between 0 and 1, found 1"),
        (0.95, 0, "df: expected at least 1, found 0"),
    ],
)
def test_a_wrong_share_or_too_few_degrees_of_freedom_are_refused(
    share: float, df: int, fault: str
) -> None:
    with pytest.raises(ValueError, match=fault):
        within(share, df)
