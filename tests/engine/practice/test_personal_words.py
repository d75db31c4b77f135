"""Words on a personal limit."""

from __future__ import annotations

from datetime import date

import pytest

from drills.score import ABSENT
from engine.practice.personal_limit import PersonalLimit
from engine.practice.personal_words import personal_sentence, personal_words


def test_the_personal_limit_and_its_best_are_told() -> None:
    assert personal_words(PersonalLimit((0.62,) * 36, 0.58)) == "0.62 of the limit, best 0.58"


def test_a_best_that_reads_no_lower_is_not_told_beside_it() -> None:
    assert personal_words(PersonalLimit((0.62,) * 36, 0.6199)) == "0.62 of the limit"
    assert personal_words(PersonalLimit((0.62,) * 36, 0.7)) == "0.62 of the limit"
    assert personal_words(PersonalLimit((0.62,) * 36)) == "0.62 of the limit"


def test_a_factor_that_could_not_be_measured_is_told_as_over_the_most_that_is() -> None:
    assert personal_words(PersonalLimit((ABSENT,) * 36, 2.48)) == "over 4 of the limit, best 2.48"
    assert personal_words(PersonalLimit((3.99,) * 36)) == "3.99 of the limit"
    assert personal_sentence(PersonalLimit((ABSENT,) * 36), TODAY) == "Over 4 of the limit now."


def test_the_repetitions_so_far_are_told_before_there_is_one() -> None:
    assert personal_words(PersonalLimit((0.5,) * 12)) == "12 of 36"
    assert personal_words(PersonalLimit()) == "0 of 36"


TODAY = date(2024, 5, 17)


@pytest.mark.parametrize(
    ("limit", "sentence"),
    [
        (PersonalLimit((0.5,) * 12), "Personal limit: 12 of 36 repetitions."),
        (PersonalLimit((0.62,) * 36), "0.62 of the limit now."),
        (PersonalLimit((0.62,) * 36, 0.58), "0.62 of the limit now, best 0.58."),
        (
            PersonalLimit((0.5,) * 36, 0.55, told=TODAY),
            "0.55 of the limit is your new best.",
        ),
        (PersonalLimit((0.5,) * 36, 0.55, told=date(2024, 5, 16)), "0.50 of the limit now."),
    ],
)
def test_the_end_of_a_set_says_the_limit_and_whether_it_is_new(
    limit: PersonalLimit, sentence: str
) -> None:
    assert personal_sentence(limit, TODAY) == sentence
