"""Why a repetition is played: at most six words, true of the player's state before it."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.fault import Fault
from drills.level import Feedback
from engine.drill.prompt_words import names_level
from engine.five.check_time import WEEKS_OF_REST
from engine.five.planner import Planned
from engine.five.reasons import MOST_WORDS, check_reason, reason_of
from engine.practice.diagnosis import FaultShare
from engine.practice.focus import Focus
from engine.practice.personal_limit import PersonalLimit
from engine.practice.results import Purpose, Result
from engine.practice.retention import CheckOutcome, Retention
from tests.engine.five.planning import BAND, BY_ID, EVERYTHING, LEVELS, TODAY, a_player

TWO, BLIP = BY_ID["run-1-two"], BY_ID["blip-1-first"]
OWN = replace(TWO, id="own", title="The very long name of a level of my own")
RETENTIONS = (
    None,
    Retention(),
    *(
        Retention(TODAY - timedelta(days=late), outlasted, missed)
        for late in (0, 1, 20, 400)
        for outlasted in (0, 1, 2, 3, 7)
        for missed in (False, True)
    ),
)


def reason(why: Purpose, **changes: object) -> str:
    """Reason for a repetition of a run of two by a player in some state."""
    return reason_of(Planned(TWO, why), a_player(**changes))  # type: ignore[arg-type]


def focus(fault: Fault) -> Focus:
    """Focus on a fault of 14 of 40 blips, 22 as it was told."""
    return Focus(FaultShare(fault, 22, 40), FaultShare(fault, 14, 40), TODAY)


def told_reasons() -> Iterator[str]:
    """Reasons for every purpose, level and number."""
    rested = [Result("first", TODAY - timedelta(days=days), 50.0, True, False) for days in (1, 40)]
    limits = [None, *(PersonalLimit((load,) * 36, best) for load, best in ((0.5, 0.4), (4.0, 4.0)))]
    for level in (*LEVELS, OWN):
        for why in Purpose:
            for done in (frozenset(), EVERYTHING | {"own"}, frozenset({level.id})):
                player = a_player(done)
                for asked in (None, 0.4, 20.0):
                    yield reason_of(Planned(level, why), player, asked)
        for retention in RETENTIONS:
            known = {} if retention is None else {level.id: retention}
            for result in rested:
                player = a_player(retention=known, recent=[result])
                yield reason_of(Planned(level, Purpose.DUE), player)
        for fault in Fault:
            yield reason_of(Planned(level, Purpose.FAULT), a_player(focus=focus(fault)))
        for limit in limits:
            personal = {} if limit is None else {level.id: limit}
            yield reason_of(Planned(level, Purpose.OWN), a_player(personal=personal))


def test_every_reason_is_told_in_at_most_six_words() -> None:
    found = set(told_reasons())

    assert len(found) > 100
    assert {words for words in found if not 0 < len(words.split()) <= MOST_WORDS} == set()


def test_a_level_is_new_until_it_is_passed() -> None:
    assert reason(Purpose.LEARN) == "new: Two downshifts"


def test_an_easier_level_is_practised_first_while_another_is_still_to_learn() -> None:
    assert reason(Purpose.LEARN, done=frozenset({TWO.id})) == "easier first: Two downshifts"
    assert reason(Purpose.LEARN, done=EVERYTHING) == "practice: Two downshifts"


def test_a_title_too_long_for_six_words_is_cut_short() -> None:
    words = reason_of(Planned(OWN, Purpose.MIX), a_player())

    assert words == "revision: The very long name of..."
    assert names_level(words, OWN.title)


def test_a_steadiness_blip_has_its_tolerance_as_its_reason() -> None:
    assert reason_of(Planned(BAND, Purpose.BAND), a_player(), 12.3) == "steadiness within 12 points"
    assert reason(Purpose.BAND) == "steadiness"


@pytest.mark.parametrize(
    ("retention", "rested", "words"),
    [
        (Retention.passed(TODAY - timedelta(days=1)), 0, "check-up: 1 day later"),
        (Retention(TODAY - timedelta(days=1), 2), 0, "check-up: 8 days later"),
        (Retention(TODAY, 3), 0, "check-up: 3 weeks later"),
        (Retention(TODAY, 1, True), 0, "check-up again: missed yesterday"),
        (Retention(TODAY - timedelta(days=4), 1, True), 0, "check-up again: missed 5 days ago"),
        (Retention(TODAY - timedelta(days=28), 2), WEEKS_OF_REST, "still there? 5 weeks later"),
        (Retention(TODAY - timedelta(days=34), 1, True), 30, "still there? missed 5 weeks ago"),
        (Retention(TODAY - timedelta(days=62), 3), WEEKS_OF_REST, "still there? 11 weeks later"),
        (Retention(TODAY - timedelta(days=63), 3), WEEKS_OF_REST, "still there? 2 months later"),
        (Retention(TODAY - timedelta(days=708), 3), WEEKS_OF_REST, "still there? 24 months later"),
        (Retention(TODAY - timedelta(days=709), 3), WEEKS_OF_REST, "still there? 2 years later"),
        (Retention(TODAY + timedelta(days=90), 1), 0, "check-up"),
        (Retention(), 0, "check-up"),
        (None, 0, "check-up"),
    ],
)
def test_a_check_says_how_long_after_it_is(
    retention: Retention | None, rested: int, words: str
) -> None:
    assert check_reason(retention, TODAY, rested) == words


@given(
    st.lists(st.tuples(st.integers(0, 30), st.booleans()), max_size=40),
    st.integers(0, 3),
)
def test_the_time_since_a_check_is_that_since_it_was_decided(
    repetitions: list[tuple[int, bool]], first: int
) -> None:
    day = decided = date(2024, 1, 1)
    retention = Retention.passed(day)
    for wait, clean in [(first, True), *repetitions]:
        day += timedelta(days=wait)
        before, retention = retention, retention.after(day, clean)
        if retention != before and retention.outcome_on(day) is not CheckOutcome.OPEN:
            decided = day

        assert retention.since == decided


def test_the_reason_for_a_check_does_not_change_while_it_is_undecided() -> None:
    retention = Retention(TODAY - timedelta(days=1), 2)
    before = check_reason(retention, TODAY)

    for clean in (False, True, False):
        retention = retention.after(TODAY, clean)

        assert retention.outcome_on(TODAY) is CheckOutcome.OPEN
        assert check_reason(retention, TODAY) == before


@pytest.mark.parametrize(
    ("fault", "words"),
    [(Fault.EARLY_ROLL, "for the early roll"), (Fault.BRACING, "for bracing")],
)
def test_practice_for_a_fault_names_it(fault: Fault, words: str) -> None:
    assert reason(Purpose.FAULT, focus=focus(fault)) == words
    assert reason(Purpose.FAULT) == "for a fault"


@pytest.mark.parametrize(
    ("limit", "words"),
    [
        (PersonalLimit((0.62,) * 36, 0.58), "your limit: 0.62, best 0.58"),
        (PersonalLimit((0.62,) * 36, 0.6199), "your limit: 0.62"),
        (PersonalLimit((0.62,) * 36), "your limit: 0.62"),
        (PersonalLimit((0.62,) * 36, 0.7), "your limit: 0.62"),
        (PersonalLimit((0.62,) * 35), "your limit: 35 of 36 repetitions"),
    ],
)
def test_practice_of_a_retained_level_says_what_is_asked(limit: PersonalLimit, words: str) -> None:
    assert reason(Purpose.OWN, personal={TWO.id: limit}) == words


@pytest.mark.parametrize("feedback", [Feedback.NONE, Feedback.SUMMARY, Feedback.OUTSIDE])
def test_where_results_are_withheld_the_personal_limit_is_too(feedback: Feedback) -> None:
    level = replace(TWO, feedback=feedback)
    player = a_player(personal={TWO.id: PersonalLimit((0.62,) * 36, 0.58)})

    assert reason_of(Planned(level, Purpose.OWN), player) == "for your personal limit"


@pytest.mark.parametrize(
    ("why", "words"),
    [
        (Purpose.MIX, "revision: Two downshifts"),
        (Purpose.WARM, "warm-up: Two downshifts"),
        (Purpose.DARK, "nothing shown"),
    ],
)
def test_other_purposes_say_their_word(why: Purpose, words: str) -> None:
    assert reason(why) == words
