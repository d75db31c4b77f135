"""Counts in words."""

import pytest

from drills.number_words import counted, number_words


@pytest.mark.parametrize(
    ("number", "words"), [(0, "no"), (1, "one"), (12, "twelve"), (13, "13"), (3650, "3,650")]
)
def test_small_numbers_are_words(number: int, words: str) -> None:
    assert number_words(number) == words


@pytest.mark.parametrize(
    ("count", "words"), [(0, "0 days"), (1, "1 day"), (7, "7 days"), (3650, "3,650 days")]
)
def test_a_count_has_its_noun_in_one_or_many(count: int, words: str) -> None:
    assert counted(count, "day") == words
