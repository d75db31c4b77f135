"""Dates in words: the year is written where it is another one."""

from datetime import date

import pytest

from engine.date_words import dated_words, range_words

TODAY = date(2024, 5, 17)


@pytest.mark.parametrize(
    ("day", "words"),
    [(TODAY, "17 May"), (date(2024, 1, 1), "1 Jan"), (date(2023, 12, 31), "31 Dec 2023")],
)
def test_a_date_has_its_year_where_that_is_another(day: date, words: str) -> None:
    assert dated_words(day, TODAY) == words


@pytest.mark.parametrize(
    ("first", "last", "words"),
    [
        (date(2024, 5, 3), date(2024, 5, 3), "3 May"),
        (date(2024, 5, 3), date(2024, 5, 9), "3 to 9 May"),
        (date(2024, 4, 29), date(2024, 5, 5), "29 Apr to 5 May"),
        (date(2023, 12, 28), date(2024, 1, 3), "28 Dec 2023 to 3 Jan"),
        (date(2023, 5, 3), date(2023, 5, 9), "3 to 9 May 2023"),
        (date(2022, 12, 28), date(2023, 1, 3), "28 Dec 2022 to 3 Jan 2023"),
    ],
)
def test_a_range_says_each_thing_once(first: date, last: date, words: str) -> None:
    assert range_words(first, last, TODAY) == words
