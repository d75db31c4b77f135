"""A level that was asked again: word, marks and when it comes again agree, without guilt."""

from dataclasses import replace
from datetime import date

import pytest

from drills.fault import Fault
from engine.drill.tally import Missed
from engine.five.retention_screen import RetentionCheck, RetentionScreen
from engine.kit import theme
from engine.kit.base import Place
from engine.kit.repetition_marks import Mark
from engine.kit.timed_screen import TOP, TimedOutcome
from engine.practice.diagnosis import FaultShare
from engine.practice.retention import CheckOutcome, Retention
from engine.stage.actions import Action
from tests.engine.kit.recording_canvas import recorded, said

CLEAN, MISSED, VOID = Mark.CLEAN, Mark.MISSED, Mark.VOID
KEPT = RetentionCheck(
    "First blip", CheckOutcome.RETAINED, (CLEAN, CLEAN, MISSED, CLEAN, CLEAN), False, 3
)
NOT_TODAY = RetentionCheck(
    "First blip", CheckOutcome.NOT_TODAY, (MISSED, VOID, CLEAN, MISSED), False, 1
)


def screen(again: RetentionCheck) -> RetentionScreen:
    """As it comes in five minutes."""
    return RetentionScreen(again, (), Place(5, 0, left=0.5))


@pytest.mark.parametrize(
    ("again", "word", "words"),
    [
        (KEPT, "Retained.", "Next check-up in 3 days."),
        (replace(KEPT, well=True, due_days=21), "Well retained.", "Next check-up in 21 days."),
        (
            replace(KEPT, missed=Missed("Dip", 1)),
            "Retained.",
            "Not clean: dip. Next check-up in 3 days.",
        ),
        (
            replace(NOT_TODAY, missed=Missed("Dip", 2)),
            "Not today: it stays passed.",
            "Most often: dip, 2 of 3. Next check-up tomorrow.",
        ),
        (
            replace(NOT_TODAY, missed=Missed("Dip", 2), cause=FaultShare(Fault.EARLY_ROLL, 2, 3)),
            "Not today: it stays passed.",
            "Early roll in 2 of 3. Next check-up tomorrow.",
        ),
        (NOT_TODAY, "Not today: it stays passed.", "Next check-up tomorrow."),
        (
            replace(NOT_TODAY, well=True),
            "Not today: it stays passed.",
            "Next check-up tomorrow.",
        ),
        (replace(KEPT, due_days=1), "Retained.", "Next check-up tomorrow."),
    ],
)
def test_the_check_screen_says_the_outcome_and_when_the_level_is_due_again(
    again: RetentionCheck, word: str, words: str
) -> None:
    texts = said(screen(again))

    assert texts[2:4] == ["Check-up: First blip", word]
    assert words in texts


@pytest.mark.parametrize("again", [KEPT, NOT_TODAY])
def test_there_is_a_mark_a_repetition_and_as_many_full_ones_as_are_said_to_be_clean(
    again: RetentionCheck,
) -> None:
    canvas = recorded(screen(again))
    texts = [text.text for text in canvas.texts]
    counted = [mark for mark in again.marks if mark is not VOID]

    assert texts[:2] == [f"{again.marks.count(CLEAN)}", f"of {len(counted)} clean"]
    assert [colour for _, colour in canvas.discs].count(theme.TEXT) == len(counted)


def test_a_missed_check_says_that_the_level_stays_passed() -> None:
    texts = " ".join(said(screen(NOT_TODAY))).lower()

    assert "stays passed" in texts
    assert not any(word in texts for word in ("lost", "fail", "forgot", "again from"))


@pytest.mark.parametrize(
    ("before", "marks", "word", "again"),
    [
        (0, KEPT.marks, "Retained.", "Next check-up in 3 days."),
        (1, KEPT.marks, "Retained.", "Next check-up in 7 days."),
        (2, KEPT.marks, "Well retained.", "Next check-up in 21 days."),
        (2, (MISSED,) * 5, "Not today: it stays passed.", "Next check-up tomorrow."),
    ],
)
def test_the_word_and_the_day_are_those_of_the_rules(
    before: int, marks: tuple[Mark, ...], word: str, again: str
) -> None:
    today = date(2024, 5, 17)
    retention = Retention(due=today, outlasted=before)
    for mark in marks:
        retention = retention.after(today, mark is CLEAN)
    outcome = retention.outcome_on(today)
    assert outcome is not None
    assert retention.due is not None

    days = (retention.due - today).days
    shown = RetentionCheck("First blip", outcome, marks, retention.is_well_retained, days)

    assert shown.word == word
    assert shown.sentences.endswith(again)


def test_the_events_file_has_the_outcome_of_a_check() -> None:
    assert screen(KEPT).details() == {
        "title": "First blip",
        "word": "Retained.",
        "clean": 4,
        "due_days": 3,
    }


@pytest.mark.parametrize(
    ("action", "outcome"),
    [(Action.GO, TimedOutcome.ON), (Action.BACK, TimedOutcome.MENU), (Action.NEXT, None)],
)
def test_it_leads_on_or_to_the_menu(action: Action, outcome: TimedOutcome | None) -> None:
    shown = screen(KEPT)

    shown.on_action(action)

    assert shown.outcome is outcome


def test_it_shows_the_time_that_is_left_as_a_line() -> None:
    lines = [end[0] - start[0] for start, end in recorded(screen(KEPT)).lines if start[1] == TOP]

    assert lines[1] == pytest.approx(0.5 * lines[0])
