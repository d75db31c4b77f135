"""What is passed, what is open, what comes next, and when the reveal is shown."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.level import Feedback, PassRule
from engine.practice.progress import is_open, next_level, passed, passes, reveals
from engine.practice.results import Result
from tests.made import level

DAY = date(2024, 5, 17)
FIRST = level(id="first")
SECOND = level(id="second", needs=("first",))
THIRD = level(id="third", needs=("first", "second"))
LEVELS = [FIRST, SECOND, THIRD]


def results(of: str, marks: str) -> list[Result]:
    """Results of a level: + clean, - not clean, v void."""
    return [Result(of, DAY, None if m == "v" else 50.0, m == "+", m == "v") for m in marks]


@pytest.mark.parametrize(
    ("marks", "wanted"),
    [
        ("", False),
        ("+++++++", False),
        ("++++++++", True),
        ("--++++++++", True),
        ("++++-+-+++", True),
        ("+-+-++++++", True),
        ("+++-++--++", False),
        ("+++-+++-+", False),
        ("---++++++++", True),
        ("+++++++---+", False),
        ("+-+-+-++++-+-++-+", False),
        ("+-+++++-+-+++++++-", True),
    ],
)
def test_eight_clean_of_the_last_ten_pass(marks: str, wanted: bool) -> None:
    done = passed([FIRST], results("first", marks))

    assert (done == {"first"}) == wanted


def test_what_was_passed_stays_passed() -> None:
    done = passed([FIRST], results("first", "+" * 8 + "-" * 50))

    assert done == {"first"}


def test_void_repetitions_are_as_if_they_had_not_been() -> None:
    spread = passed([FIRST], results("first", "v++v-+vvvv+-+v+v+v+"))
    few = passed([FIRST], results("first", "+v" * 7))

    assert spread == {"first"}
    assert few == set()


def test_each_level_is_passed_by_its_own_repetitions() -> None:
    mixed = results("first", "++++") + results("second", "++++++++") + results("first", "++++")

    done = passed(LEVELS, mixed)

    assert done == {"first", "second"}


def test_results_of_a_level_that_is_gone_pass_nothing() -> None:
    assert passed([FIRST], results("long-gone", "+" * 10)) == set()


@pytest.mark.parametrize(
    ("rule", "marks", "wanted"),
    [
        (PassRule(1, 1), "---+", True),
        (PassRule(1, 1), "---", False),
        (PassRule(2, 3), "+--+--+", False),
        (PassRule(2, 3), "+--+-+", True),
        (PassRule(3, 3), "++-++-", False),
    ],
)
def test_a_level_may_have_a_rule_of_its_own(rule: PassRule, marks: str, wanted: bool) -> None:
    done = passed([level(id="first", rule=rule)], results("first", marks))

    assert (done == {"first"}) == wanted


@given(marks=st.lists(st.booleans(), max_size=40), more=st.lists(st.booleans(), max_size=10))
def test_more_repetitions_never_take_a_pass_away(marks: list[bool], more: list[bool]) -> None:
    rule = PassRule()

    before, after = passes(marks, rule), passes(marks + more, rule)

    assert after or not before


@given(marks=st.lists(st.booleans(), max_size=40))
def test_the_pass_rule_holds_wherever_some_ten_in_a_row_hold_eight(marks: list[bool]) -> None:
    tens = [marks[max(end - 10, 0) : end] for end in range(len(marks) + 1)]

    assert passes(marks, PassRule()) == any(ten.count(True) >= 8 for ten in tens)


@pytest.mark.parametrize(
    ("done", "opened"),
    [
        (set(), ["first"]),
        ({"first"}, ["first", "second"]),
        ({"second"}, ["first"]),
        ({"first", "second"}, ["first", "second", "third"]),
    ],
)
def test_a_level_is_open_once_all_it_needs_is_passed(done: set[str], opened: list[str]) -> None:
    found = [one.id for one in LEVELS if is_open(one, frozenset(done))]

    assert found == opened


@pytest.mark.parametrize(
    ("done", "wanted"),
    [
        (set(), "first"),
        ({"first"}, "second"),
        ({"first", "second"}, "third"),
        ({"first", "second", "third"}, "third"),
        ({"second", "third"}, "first"),
    ],
)
def test_next_is_the_first_open_level_that_is_not_passed(done: set[str], wanted: str) -> None:
    assert next_level(LEVELS, frozenset(done)).id == wanted


@pytest.mark.parametrize("levels", [[], [SECOND]])
def test_without_an_open_level_there_is_no_next(levels: list) -> None:
    with pytest.raises(ValueError) as refused:  # noqa: PT011
        next_level(levels, frozenset())

    assert str(refused.value) == "expected at least one level without needs, found none"


@pytest.mark.parametrize(
    ("feedback", "clean", "shown"),
    [
        (Feedback.EVERY, True, [1, 2, 3, 4, 5, 6]),
        (Feedback.EVERY, False, [1, 2, 3, 4, 5, 6]),
        (Feedback.SUMMARY, True, [3, 6]),
        (Feedback.SUMMARY, False, [3, 6]),
        (Feedback.OUTSIDE, True, []),
        (Feedback.OUTSIDE, False, [1, 2, 3, 4, 5, 6]),
        (Feedback.NONE, True, []),
        (Feedback.NONE, False, []),
    ],
)
def test_the_reveal_is_shown_after_the_repetitions_the_level_names(
    feedback: Feedback, clean: bool, shown: list[int]
) -> None:
    one = level(feedback=feedback, summary=3)

    found = [number for number in range(1, 7) if reveals(one, number, clean)]

    assert found == shown
