"""Words of the coach's page on its curves and on the levels that answer a fault."""

import pytest

from drills.fault import Fault
from engine.five.coach_words import curves_words, least_told, levels_words


@pytest.mark.parametrize(
    ("fault", "count", "without", "words"),
    [
        (None, 1, 0, "Your newest blip"),
        (None, 2, 0, "Bold: typical of your newest 2"),
        (Fault.DIP, 1, 3, "Bold: one such blip. Thin: 3 without"),
        (Fault.DIP, 2, 0, "Bold: typical of 2 such blips"),
        (Fault.DIP, 8, 4, "Bold: typical of 8 such blips. Thin: 4 without"),
    ],
)
def test_the_curves_are_told_with_their_counts(
    fault: Fault | None, count: int, without: int, words: str
) -> None:
    assert curves_words(fault, count, without) == words


def test_at_most_two_levels_are_named_and_fewer_where_there_is_less_room() -> None:
    assert list(levels_words(["A", "B", "C"])) == ["Practise: A, B", "Practise: A"]
    assert list(levels_words(["A"])) == ["Practise: A"]
    assert list(levels_words([])) == []


@pytest.mark.parametrize(("blips", "least"), [(20, 9), (40, 14)])
def test_the_fewest_that_would_be_told_grow_with_the_blips(blips: int, least: int) -> None:
    assert least_told(blips) == least
