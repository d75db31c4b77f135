"""What is said of a clean zone: the words for each part, at both sides of every bound."""

from collections.abc import Mapping
from dataclasses import replace

import pytest

from drills.coach import SMALL
from drills.kinds import KINDS
from drills.kinds.clean_words import clean
from drills.kinds.run_words import ALIKE
from drills.kinds.zone_clean import CLEAN, ON_THE_LINE, praise
from drills.remark import Remark
from drills.score import weigh
from tests.drills.kinds.zone_case import ZONE

LIMIT = 10.0
MORE = 0.01


def praised(name: str, measures: Mapping[str, float | None], *, is_early: bool = False) -> Remark:
    """Remark on a clean zone that was weighed by one limit alone."""
    limits = {name: LIMIT}
    verdict = weigh(measures, limits)
    assert verdict.clean
    return praise(replace(ZONE, limits=limits), verdict, is_early=is_early)


@pytest.mark.parametrize(
    ("name", "value", "key"),
    [
        ("dip", SMALL - MORE, "hardly dipped"),
        ("dip", SMALL, "one dip"),
        ("surge", SMALL - MORE, "hardly rose"),
        ("surge", SMALL, "surge"),
        ("peak_error", MORE - SMALL, "at the peak"),
        ("peak_error", -SMALL, "peak_error"),
        ("line_worst", -ON_THE_LINE, "on the line"),
        ("line_worst", ON_THE_LINE + MORE, "line_worst"),
        ("reversals", 0.0, "never up"),
        ("reversals", 1.0, "reversals"),
        ("off_at", -0.1, "off_at"),
    ],
)
def test_a_clean_zone_is_praised_for_the_part_nearest_its_limit(
    name: str, value: float, key: str
) -> None:
    assert praised(name, {name: value}) == clean(name, CLEAN[key])


@pytest.mark.parametrize(
    ("worst", "key"),
    [(-ON_THE_LINE, "on the line on average"), (ON_THE_LINE + MORE, "line_error")],
)
def test_on_average_on_the_line_is_said_only_where_it_never_was_far_from_it(
    worst: float, key: str
) -> None:
    remark = praised("line_error", {"line_error": 2.0, "line_worst": worst})

    assert remark == clean("line_error", CLEAN[key])


@pytest.mark.parametrize(
    ("name", "value", "key"),
    [("dip", 6.0, "early"), ("dip", SMALL - MORE, "hardly dipped"), ("surge", 6.0, "surge")],
)
def test_an_early_roll_is_said_of_a_dip_that_can_be_felt_alone(
    name: str, value: float, key: str
) -> None:
    assert praised(name, {name: value}, is_early=True) == clean(name, CLEAN[key])


@pytest.mark.parametrize(
    ("dips", "key"),
    [
        ({}, "one dip"),
        ({"dip_1": 8.0}, "one dip"),
        ({"dip_1": 8.0 - ALIKE, "dip_2": 8.0, "dip_3": 8.0}, "dip"),
        ({"dip_1": 2.0, "dip_2": 8.0 - ALIKE, "dip_3": 8.0}, "dip"),
    ],
)
def test_no_blip_is_named_where_there_is_one_or_another_is_like_it(
    dips: dict[str, float], key: str
) -> None:
    assert praised("dip", {"dip": 8.0, **dips}) == clean("dip", CLEAN[key])


@pytest.mark.parametrize(("place", "word"), [(1, "first"), (2, "second"), (3, "third")])
def test_the_blip_that_took_the_most_is_named_where_they_differ(place: int, word: str) -> None:
    dips = {f"dip_{other}": 8.0 if other == place else 7.9 - ALIKE for other in (1, 2, 3)}

    remark = praised("dip", {"dip": 8.0, **dips})

    assert any(word in said for said in remark.sentences)


def test_of_two_blips_that_differ_the_worse_one_is_named() -> None:
    remark = praised("dip", {"dip": 8.0, "dip_1": 7.9 - ALIKE, "dip_2": 8.0})

    assert any("second" in said for said in remark.sentences)


@pytest.mark.parametrize("name", KINDS["zone"].limitable)
def test_a_clean_zone_has_words_for_every_limit_that_a_level_may_have(name: str) -> None:
    level = replace(ZONE, limits={name: LIMIT})

    remark = level.kind.remark(level, weigh({name: 5.0}, level.limits))

    assert remark.topic.endswith(", clean")
    assert all(remark.sentences)
