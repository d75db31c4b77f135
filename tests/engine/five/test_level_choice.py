"""Which level has its turn to be learned, and which is worked on while it is too hard."""

from datetime import date
from itertools import chain

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.level import Level
from drills.trace import Pedal
from engine.five.level_choice import TURN, learned, way_down, worked_on
from engine.ladder.level_files import SHIPPED, load_levels
from engine.practice.passes import ALL_PEDALS, is_open
from engine.practice.results import Purpose, Result
from tests.made import level

DAY = date(2024, 5, 17)
FIRST = level(id="first")
SECOND = level(id="second", needs=("first",))
THIRD = level(id="third", needs=("second",))
SIDE = level(id="side", needs=("first",))
LEVELS = [FIRST, SECOND, SIDE, THIRD]
SHIPPED_LEVELS = load_levels([SHIPPED])


def played(of: str, marks: str, why: Purpose = Purpose.LEARN) -> list[Result]:
    """Repetitions of a level: + clean, - not clean, o void."""
    return [
        Result(of, DAY, None if mark == "o" else 50.0, mark == "+", mark == "o", why=why)
        for mark in marks
    ]


def turn(*recent: list[Result], done: tuple[str, ...] = ("first",)) -> str:
    """The level that is to be learned after some repetitions."""
    return learned(LEVELS, frozenset(done), ALL_PEDALS, [*chain(*recent)]).id


def test_a_beginner_learns_the_first_level() -> None:
    assert turn(done=()) == "first"


def test_a_level_is_learned_for_a_few_repetitions_then_another_open_one() -> None:
    assert turn(played("second", "-+--")) == "second"
    assert turn(played("second", "-+---")) == "side"
    assert turn(played("second", "-+---"), played("side", "-")) == "side"
    assert turn(played("second", "-+---"), played("side", "----+")) == "second"


def test_a_void_repetition_uses_up_no_turn() -> None:
    assert turn(played("second", "-o+-o-")) == "second"
    assert turn(played("second", "-o+-o--")) == "side"


def test_a_review_in_between_uses_up_no_turn() -> None:
    mixed = played("first", "++", Purpose.MIX)

    assert turn(played("second", "-+"), mixed, played("second", "-+")) == "second"
    assert turn(played("second", "-+"), mixed, played("second", "-+-")) == "side"


def test_a_level_that_is_passed_ends_its_turn() -> None:
    assert turn(played("second", "++"), done=("first", "second")) == "side"


def test_of_levels_without_a_turn_yet_the_easiest_comes_first() -> None:
    assert turn(played("side", "-----")) == "second"


def test_a_level_that_is_too_hard_waits_while_another_is_not() -> None:
    hard = played("second", "+++-------")

    assert turn(hard, played("side", "-" * TURN)) == "side"
    assert turn(played("second", "++++------"), played("side", "-" * TURN)) == "second"


def test_where_all_are_too_hard_they_take_turns_again() -> None:
    hard = [*played("side", "-" * 10), *played("second", "-" * 10)]

    assert turn(hard) == "side"


def test_where_all_are_passed_it_is_the_last() -> None:
    assert turn(done=("first", "second", "side", "third")) == "third"


def test_a_level_without_its_pedal_has_no_turn() -> None:
    clutch = level(id="clutch", needs=("first",), pedals=tuple(Pedal))

    found = learned([FIRST, clutch, SECOND], frozenset({"first"}), frozenset({Pedal.BRAKE}), [])

    assert found.id == "second"


def test_without_an_open_level_there_is_nothing_to_learn() -> None:
    with pytest.raises(ValueError) as refused:  # noqa: PT011
        learned([SECOND], frozenset(), ALL_PEDALS)

    assert str(refused.value) == "expected at least one level without needs, found none"


def test_the_level_below_is_the_hardest_one_needed() -> None:
    both = level(id="both", needs=("first", "third"))

    way = [one.id for one in way_down(both, [*LEVELS, both])]

    assert way == ["both", "third", "second", "first"]


def worked(*recent: list[Result]) -> str:
    """The level worked on in order to learn the third."""
    return worked_on(THIRD, LEVELS, [*chain(*recent)]).id


@pytest.mark.parametrize(
    ("marks", "wanted"),
    [
        ("---------", "third"),
        ("+++-------", "second"),
        ("++++------", "third"),
        ("++++-------", "second"),
        ("-oo--------", "third"),
        ("-oo---------", "second"),
    ],
)
def test_with_fewer_than_four_clean_of_ten_the_level_below_is_worked_on(
    marks: str, wanted: str
) -> None:
    assert worked(played("third", marks)) == wanted


@pytest.mark.parametrize(
    ("marks", "wanted"),
    [
        ("", "second"),
        ("++++++++", "second"),
        ("+++++++++", "third"),
        ("--++++++++", "second"),
        ("-+++++++++", "third"),
        ("--+++++++++", "third"),
    ],
)
def test_with_nine_clean_of_ten_there_the_level_above_comes_back(marks: str, wanted: str) -> None:
    assert worked(played("third", "-" * 10), played("second", marks)) == wanted


def test_the_way_goes_down_to_the_first_and_no_further() -> None:
    down = [played(one, "-" * 10) for one in ("third", "second", "first", "first")]

    assert worked(*down) == "first"


def test_every_change_of_level_starts_a_new_count() -> None:
    again = [played("third", "-" * 10), played("second", "+" * 10), played("third", "-" * 9)]

    assert worked(*again) == "third"
    assert worked(*again, played("third", "-")) == "second"


RESULTS = st.lists(
    st.tuples(st.sampled_from([one.id for one in SHIPPED_LEVELS]), st.booleans()), max_size=60
)


@given(
    names=st.frozensets(st.sampled_from([one.id for one in SHIPPED_LEVELS])),
    pedals=st.sampled_from([ALL_PEDALS, ALL_PEDALS - {Pedal.CLUTCH}, frozenset({Pedal.BRAKE})]),
    recent=RESULTS,
)
def test_what_is_learned_is_open_and_not_passed_where_anything_is(
    names: frozenset[str], pedals: frozenset[str], recent: list[tuple[str, bool]]
) -> None:
    results = [one for name, clean in recent for one in played(name, "+" if clean else "-")]

    found = learned(SHIPPED_LEVELS, names, pedals, results)

    opened = [one for one in SHIPPED_LEVELS if is_open(one, names, pedals)]
    assert found in opened
    assert found.id not in names or all(one.id in names for one in opened)


@given(recent=RESULTS, last=st.sampled_from(SHIPPED_LEVELS))
def test_what_is_worked_on_lies_on_the_way_down(
    recent: list[tuple[str, bool]], last: Level
) -> None:
    results = [one for name, clean in recent for one in played(name, "+" if clean else "-")]

    assert worked_on(last, SHIPPED_LEVELS, results) in way_down(last, SHIPPED_LEVELS)
