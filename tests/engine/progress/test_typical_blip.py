"""A typical dip stands beside its typical blip, and beside another only at one size of blip."""

from datetime import date

import pytest

from engine.progress.bins import CalendarBin
from engine.progress.typical_blip import median_in, scaled_words, size_words

DAY = date(2024, 5, 17)


@pytest.mark.parametrize(
    ("peaks", "said"),
    [
        ([45.0], "Typical blip: 45 % throttle."),
        ([45.2, 44.9], "Typical blip: 45 % throttle."),
        ([45.0, 74.6], "Typical blip: 45 % throttle at first, then 75 %."),
    ],
)
def test_a_typical_blip_is_told_once_where_it_stayed_the_same(
    peaks: list[float], said: str
) -> None:
    assert size_words(peaks) == said


def test_dips_of_unlike_blips_are_told_at_one_size_too() -> None:
    said = scaled_words([45.0, 75.0], [7.4 * 60 / 45, 11.2 * 60 / 75])

    assert said == ["At blips of 60 %: 9.9 at first, then 9.0 points."]


@pytest.mark.parametrize(("peaks", "dips"), [([], []), ([45.0], [9.9]), ([45.0, 50.0], [9.9, 9.0])])
def test_dips_of_like_blips_are_not(peaks: list[float], dips: list[float]) -> None:
    assert scaled_words(peaks, dips) == []


def test_the_median_is_that_of_the_newest_bin_of_the_day() -> None:
    bins = [CalendarBin(DAY, DAY, 1.0, middle, 9.0, 3) for middle in (5.0, 6.0)]
    other = CalendarBin(date(2024, 5, 16), DAY, 1.0, 2.0, 3.0, 3)

    assert median_in(bins, bins[0]) == 6.0
    assert median_in(bins, other) is None
