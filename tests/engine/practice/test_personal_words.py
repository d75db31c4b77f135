"""Words on a personal limit."""

from __future__ import annotations

from engine.practice.personal_limit import PersonalLimit
from engine.practice.personal_words import personal_words


def test_the_personal_limit_and_its_best_are_told() -> None:
    assert personal_words(PersonalLimit((0.62,) * 36, 0.58)) == "0.62 of the limit, best 0.58"


def test_a_best_that_reads_no_lower_is_not_told_beside_it() -> None:
    assert personal_words(PersonalLimit((0.62,) * 36, 0.6199)) == "0.62 of the limit"
    assert personal_words(PersonalLimit((0.62,) * 36, 0.7)) == "0.62 of the limit"
    assert personal_words(PersonalLimit((0.62,) * 36)) == "0.62 of the limit"


def test_the_repetitions_so_far_are_told_before_there_is_one() -> None:
    assert personal_words(PersonalLimit((0.5,) * 12)) == "12 of 36"
    assert personal_words(PersonalLimit()) == "0 of 36"
