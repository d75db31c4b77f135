"""What is passed, what is open, what comes next, and when the reveal is shown."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.level import Feedback, Level, PassRule
from engine.practice.passes import (
    LATEST,
    LevelProgress,
    is_open,
    needed,
    next_level,
    reveals,
    sounds,
    sums_up,
)
from tests.engine.practice.plain import passes
from tests.made import level

FIRST = level(id="first")
SECOND = level(id="second", needs=("first",))
THIRD = level(id="third", needs=("first", "second"))
LEVELS = [FIRST, SECOND, THIRD]


def after(clean: list[bool], rule: PassRule) -> LevelProgress:
    """How a level stands after repetitions under one rule."""
    streaks = LevelProgress()
    for one in clean:
        streaks = streaks.after(one, rule)
    return streaks


def marked(marks: str) -> list[bool]:
    """Repetitions: + clean, - not clean."""
    return [mark == "+" for mark in marks]


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
    streaks = after(marked(marks), PassRule())

    assert streaks.passed == wanted


def test_the_highest_score_is_that_of_the_best_repetition_and_0_without_one() -> None:
    tops = [LevelProgress()]
    for score in (None, 0.0, 0.5, 61.0, 40.0):
        tops.append(tops[-1].after(False, PassRule(), score))

    assert [one.top for one in tops] == [0.0, 0.0, 0.0, 0.5, 61.0, 61.0]


def test_what_was_passed_stays_passed() -> None:
    streaks = after(marked("+" * 8 + "-" * 50), PassRule())

    assert streaks.passed


@pytest.mark.parametrize(
    ("rule", "marks", "wanted"),
    [
        (PassRule(1, 1), "---+", True),
        (PassRule(1, 1), "---", False),
        (PassRule(2, 3), "+--+--+", False),
        (PassRule(2, 3), "+--+-+", True),
        (PassRule(3, 3), "++-++-", False),
        (PassRule(51, 100), "+" * 50 + "-" * 50 + "+", False),
        (PassRule(51, 100), "-" * 50 + "+" * 51, True),
    ],
)
def test_a_level_may_have_a_rule_of_its_own(rule: PassRule, marks: str, wanted: bool) -> None:
    streaks = after(marked(marks), rule)

    assert streaks.passed == wanted


def test_each_repetition_is_judged_by_the_rule_of_its_time() -> None:
    early = after(marked("++-"), PassRule(2, 2)).after(False, PassRule(8, 10))
    late = after(marked("+-+"), PassRule(8, 10)).after(False, PassRule(2, 4))

    assert early.passed
    assert late.passed
    assert not after(marked("+-+"), PassRule(8, 10)).passed


@pytest.mark.parametrize("count", [0, 1, LATEST - 1, LATEST, LATEST + 1, LATEST + 30])
def test_the_newest_are_remembered_the_newest_last(count: int) -> None:
    marks = [number % 7 == 3 for number in range(count)]

    streaks = after(marks, PassRule())

    assert streaks.latest == tuple(marks[-LATEST:])


@given(marks=st.lists(st.booleans(), max_size=40), of=st.integers(1, 12), clean=st.integers(1, 12))
def test_a_level_is_passed_when_its_whole_history_says_so(
    marks: list[bool], of: int, clean: int
) -> None:
    rule = PassRule(min(clean, of), of)

    assert after(marks, rule).passed == passes(marks, rule)


@given(marks=st.lists(st.booleans(), max_size=40))
def test_the_pass_rule_holds_wherever_some_ten_in_a_row_hold_eight(marks: list[bool]) -> None:
    tens = [marks[max(end - 10, 0) : end] for end in range(len(marks) + 1)]

    assert after(marks, PassRule()).passed == any(ten.count(True) >= 8 for ten in tens)


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
def test_without_an_open_level_there_is_no_next(levels: list[Level]) -> None:
    with pytest.raises(ValueError) as refused:  # noqa: PT011
        next_level(levels, frozenset())

    assert str(refused.value) == "expected at least one level without needs, found none"


@pytest.mark.parametrize(
    ("feedback", "clean", "shown"),
    [
        (Feedback.EVERY, True, True),
        (Feedback.EVERY, False, True),
        (Feedback.SUMMARY, True, False),
        (Feedback.SUMMARY, False, False),
        (Feedback.OUTSIDE, True, False),
        (Feedback.OUTSIDE, False, True),
        (Feedback.NONE, True, False),
        (Feedback.NONE, False, False),
    ],
)
def test_the_reveal_is_shown_after_the_repetitions_the_level_names(
    feedback: Feedback, clean: bool, shown: bool
) -> None:
    assert reveals(level(feedback=feedback), clean) == shown


@pytest.mark.parametrize("feedback", list(Feedback))
def test_a_clean_repetition_sounds_at_once_where_its_reveal_does_not_wait(
    feedback: Feedback,
) -> None:
    at_once = (Feedback.EVERY, Feedback.OUTSIDE)

    assert sounds(level(feedback=feedback)) == (feedback in at_once)


def test_progress_remembers_the_most_clean_ones_and_the_highest_score() -> None:
    rule, progress = PassRule(2, 3), LevelProgress()
    for clean, score in [(True, 80.0), (False, 20.0), (False, 10.0), (True, None), (False, 60.0)]:
        progress = progress.after(clean, rule, score)

    assert progress == LevelProgress((True, False, False, True, False), False, 1, 80.0)


@pytest.mark.parametrize("feedback", list(Feedback))
def test_a_summary_follows_every_few_repetitions_where_the_level_asks_for_it(
    feedback: Feedback,
) -> None:
    one = level(feedback=feedback, summary=3)

    found = [number for number in range(1, 8) if sums_up(one, number)]

    assert found == ([3, 6] if feedback is Feedback.SUMMARY else [])


def test_a_level_needs_all_below_it_once_each_in_their_order() -> None:
    stranger = level(id="stranger", needs=("not-there", "third"))

    assert needed(FIRST, LEVELS) == []
    assert needed(THIRD, LEVELS[::-1]) == [SECOND, FIRST]
    assert needed(stranger, LEVELS) == LEVELS
