"""Changes: the screens that mark them and take them back, and their words over charts."""

from dataclasses import replace
from datetime import UTC, date, datetime

import pytest

from engine.kit.text_entry import TextEntry
from engine.ladder.level_files import SHIPPED, load_levels
from engine.practice.before_after import BeforeAfter
from engine.practice.changes import Change, Changed
from engine.progress.change_flow import NOTE_MOST
from engine.progress.change_screens import ChangeTurn, MarkChange, TakeBack, WhatChanged
from engine.progress.changes_brought import Brought, Told
from engine.progress.changes_words import (
    change_line,
    change_name,
    changes_explained,
    name_on_chart,
    newest_change,
)
from engine.progress.history_pages import PAGES
from engine.stage.actions import Action
from engine.stage.scene import Attended
from engine.store.changes import all_changes, mark_change
from tests.engine.game.rigged import READ, Rigged
from tests.engine.kit.recording_canvas import said
from tests.engine.pedals.joysticks import Pad
from tests.engine.progress.pictures import BROUGHT, CHANGES, progress
from tests.engine.walking import Step, back, choose

LEVELS = load_levels([SHIPPED])
AT = datetime(2024, 10, 3, 20, tzinfo=UTC)
SHOES = Change(AT, Changed.SHOES, 7, "thin soles")
BETTER = BeforeAfter(9.0, -0.25, 0.2, -0.01)
UNSURE = BeforeAfter(9.0, -0.25, 0.4, -0.01)


@pytest.mark.parametrize(
    ("moves", "outcome"),
    list(
        enumerate(
            [
                Changed.POSITION,
                Changed.PEDALS,
                Changed.SHOES,
                Changed.OTHER,
                ChangeTurn.TAKE_BACK,
                ChangeTurn.BACK,
            ]
        )
    ),
)
def test_a_change_is_of_position_pedals_shoes_or_else_or_taken_back(
    moves: int, outcome: Changed | ChangeTurn
) -> None:
    screen = WhatChanged((), "3 Oct")

    for action in [*[Action.NEXT] * moves, Action.GO]:
        screen.on_action(action)

    assert screen.outcome is outcome


def test_with_nothing_marked_nothing_can_be_taken_back() -> None:
    labels = WhatChanged().details()["choices"]

    assert labels == ["Foot position", "Pedals", "Shoes", "Something else", "Back"]


def test_marking_a_change_says_what_to_expect_and_can_be_left() -> None:
    screen = MarkChange(Changed.SHOES, "thin soles")

    words = said(screen)
    screen.on_action(Action.BACK)

    assert {"A change of shoes", "Note: thin soles"} <= set(words)
    assert "A new curve begins. Being worse is excused for three weeks." in words
    assert screen.outcome is ChangeTurn.BACK


def test_taking_a_change_back_is_asked_with_its_day_and_keeps_it_at_first() -> None:
    screen = TakeBack(SHOES, "3 Oct")

    words = said(screen)
    screen.on_action(Action.GO)

    assert {"Take back the change of 3 Oct?", "Shoes: thin soles."} <= set(words)
    assert screen.outcome is False


def test_a_change_is_named_by_what_it_was_and_its_note() -> None:
    assert change_name(SHOES) == "shoes: thin soles"
    assert change_name(replace(SHOES, note="")) == "shoes"
    assert change_name(replace(SHOES, what=Changed.OTHER)) == "thin soles"
    assert change_name(replace(SHOES, what=Changed.OTHER, note="")) == "a change"


def test_over_a_chart_only_the_beginning_of_a_long_note_stands() -> None:
    assert name_on_chart(SHOES) == "shoes: thin soles"
    assert name_on_chart(replace(SHOES, note="n" * 24)) == f"shoes: {'n' * 24}"
    assert name_on_chart(replace(SHOES, note="n" * 25)) == f"shoes: {'n' * 24}…"
    assert name_on_chart(replace(SHOES, what=Changed.OTHER, note="n" * 25)) == f"{'n' * 24}…"


@pytest.mark.parametrize(
    ("brought", "told", "words"),
    [
        (
            Brought(SHOES, 15, False, BETTER, BETTER),
            Told.BETTER,
            "Dip 9.0 before, 7.0 after: likely 0.4 to 3.3 better.",
        ),
        (
            Brought(SHOES, 15, False, replace(BETTER, step=0.25), replace(BETTER, step=0.3)),
            Told.WORSE,
            "Dip 9.0 before, 11.6 after: likely 0.5 to 5.1 worse.",
        ),
        (
            Brought(SHOES, 15, False, UNSURE, BETTER),
            Told.UNSURE,
            "Dip 9.0 before, 7.0 after. That may be luck: 1.5 worse to 4.3 better.",
        ),
        (
            Brought(SHOES, 6, True, UNSURE, UNSURE),
            Told.UNSURE,
            "Dip 9.0 before, 7.0 after. That may still be luck: 1.5 worse to 4.3 better.",
        ),
        (
            Brought(SHOES, 15, False, BETTER, UNSURE, (62.4, 45.0)),
            Told.BLIPS_DIFFER,
            "Dip 9.0 before, 7.0 after. Cannot tell: blips were 62 %, then 45 %.",
        ),
        (
            Brought(SHOES, 15, False, BETTER, UNSURE, (60.0, 62.0)),
            Told.UNSURE,
            "Dip 9.0 before, 7.0 after. That may be luck: 1.5 worse to 4.3 better.",
        ),
        (
            Brought(SHOES, 15, False, BETTER, replace(BETTER, step=0.3)),
            Told.BLIPS_DIFFER,
            "Dip 9.0 before, 7.0 after. Cannot tell: the blips differed.",
        ),
        (
            Brought(SHOES, 2, True, is_early=True),
            Told.TOO_FEW,
            "2 of 5 days with it, compared from 15 Oct on.",
        ),
        (
            Brought(SHOES, 6, True, is_early=True),
            Told.TOO_FEW,
            "6 days with it, compared from 15 Oct on.",
        ),
        (
            Brought(SHOES, 4, True),
            Told.TOO_FEW,
            "4 of 5 days with it so far.",
        ),
        (
            Brought(SHOES, 6, True, enough_before=False, is_early=True),
            Told.TOO_FEW,
            "Too few days of blips before it to compare.",
        ),
        (
            Brought(SHOES, 6, True),
            Told.TOO_FEW,
            "No level of blips was played both before and after.",
        ),
        (
            Brought(SHOES, 2, False),
            Told.TOO_FEW,
            "Too few days of blips before or after to compare.",
        ),
    ],
)
def test_what_a_change_brought_is_one_line(brought: Brought, told: Told, words: str) -> None:
    assert brought.told is told
    assert change_line(brought, date(2025, 1, 2)) == f"Shoes: thin soles, 3 Oct 2024. {words}"


def test_the_report_has_a_line_for_each_change_and_the_window_for_the_newest_compared() -> None:
    shown = progress(LEVELS, 90, CHANGES)
    page = PAGES["learning"]

    in_report, in_window = page.printed(shown), page.words(shown).figures

    lines = [change_line(one, shown.today) for one in reversed(BROUGHT)]
    assert list(in_report[-5:]) == [*lines, "Progress from practice alone is taken out."]
    assert in_window[-1] == change_line(BROUGHT[2], shown.today)
    assert all(len(line.split()) <= 12 for text in lines for line in text.split(". ")[1:])


def test_without_a_change_nothing_is_said_of_any() -> None:
    shown = progress(LEVELS, 90)

    assert changes_explained(shown) == []
    assert newest_change(shown) == []


@pytest.fixture
def home(game: Rigged, pad: Pad) -> Rigged:
    """A game at home, with pedals that were set up."""
    game.walk(READ, *game.set_up(pad), ("home", "Leave"))
    return game


def types(text: str, then: str) -> Step:
    """A step that types a text and chooses."""

    def step(screen: Attended) -> None:
        assert isinstance(screen, TextEntry)
        screen.on_text(text)
        choose(screen, then)

    return step


def test_a_note_is_kept_with_the_change_up_to_sixty_characters(home: Rigged) -> None:
    home.walk(
        ("home", "History"),
        ("history", "Mark a change"),
        ("what changed", "Something else"),
        ("mark change", "Write a note"),
        ("typing", types("seat back", "Keep it")),
        ("mark change", "Change the note"),
        ("typing", types("w" * 99, "Keep it")),
        ("mark change", "Change the note"),
        ("typing", types("\b\b", "Leave it as it was")),
        ("mark change", "Mark it"),
        ("history", back),
        ("home", "Leave"),
    )

    [change] = all_changes(home.history)
    assert (change.what, change.note) == (Changed.OTHER, f"seat back{'w' * (NOTE_MOST - 9)}")


def test_the_newest_mark_is_taken_back_and_then_the_one_before_is_the_newest(home: Rigged) -> None:
    for what in (Changed.POSITION, Changed.SHOES):
        mark_change(home.history, AT, what)
    mark_change(home.history, AT, Changed.SCALE)

    home.walk(
        ("home", "History"),
        ("history", "Mark a change"),
        ("what changed", "Take back the newest"),
        ("take back", "Keep it"),
        ("what changed", "Take back the newest"),
        ("take back", "Take it back"),
        ("history", "Mark a change"),
        ("what changed", back),
        ("history", back),
        ("home", "Leave"),
    )

    assert [one.what for one in all_changes(home.history)] == [Changed.POSITION, Changed.SCALE]
