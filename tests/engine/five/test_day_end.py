"""Done for today: figures, marks and words of a day agree, and say when to come back."""

from dataclasses import replace

import pytest

from engine.five.day_end import NOTHING, Day, DayEnd, Done, Part, day_sentences, time_words
from engine.kit import theme
from engine.kit.repetition_marks import Mark
from engine.stage.actions import Action
from tests.engine.five import pictures
from tests.engine.five.pictures import DAY, FULL_DAY, SHORT_DAY
from tests.engine.kit.recording_canvas import recorded, said

CLEAN, MISSED = Mark.CLEAN, Mark.MISSED

each = pytest.mark.parametrize("day", [DAY, FULL_DAY, SHORT_DAY])


def marks_of(day: Day) -> list[Mark]:
    """Of every part."""
    return [mark for part in day.parts for mark in part.marks]


@each
def test_as_many_marks_are_full_as_are_said_to_be_clean(day: Day) -> None:
    canvas = recorded(DayEnd(day))
    full = [colour for _, colour in canvas.discs if colour == theme.BRAKE]
    meaning = int(CLEAN in marks_of(day))

    assert len(full) - meaning == day.clean
    assert f"{day.clean} of {day.counted}" in [text.text for text in canvas.texts]
    assert len([mark for mark in marks_of(day) if mark is not Mark.VOID]) == day.counted


@pytest.mark.parametrize("count", [1, 13, 14, 40])
def test_every_repetition_of_a_long_part_has_its_mark_apart_from_the_words(count: int) -> None:
    parts = (Part("Mixed in", (CLEAN,) * count), Part("Nothing shown", (MISSED,)))
    canvas = recorded(DayEnd(replace(DAY, parts=parts, clean=count, counted=count + 1)))

    marks = [centre for centre, _ in canvas.discs]

    texts = [text.ink for text in canvas.texts]
    assert len(set(marks)) == count + 3
    assert not [at for at in marks if any(ink.collidepoint(at) for ink in texts)]


@each
def test_each_part_stands_beside_its_own_marks(day: Day) -> None:
    canvas = recorded(DayEnd(day))
    inks = {text.text: text.ink for text in canvas.texts}
    discs = [centre for centre, _ in canvas.discs]

    for part in day.parts[:5]:
        beside = [at for at in discs if abs(at[1] - inks[part.name].centery) < 20]
        assert len(beside) == len([mark for mark in part.marks if mark is not Mark.VOID])


@pytest.mark.parametrize(
    ("checked", "due", "words"),
    [
        (0, 0, "Go on tomorrow."),
        (1, 1, "Tomorrow: 1 level to show again."),
        (2, 2, "Tomorrow: 2 levels to show again."),
        (1, 2, "Tomorrow: 1 of 2 levels to show again."),
        (4, 28, "Tomorrow: 4 of 28 levels to show again."),
    ],
)
def test_it_says_when_to_come_back_and_how_many_are_due(checked: int, due: int, words: str) -> None:
    assert words in said(DayEnd(replace(DAY, due_tomorrow=checked, all_due=due)))


def test_levels_retained_and_passed_and_bests_beaten_are_named() -> None:
    assert day_sentences(DAY) == [
        "Kept: Hold it in the dark.",
        "Passed: Closer to the brake.",
        "9 clean in a row: more than ever before.",
    ]
    assert set(day_sentences(DAY)) <= set(said(DayEnd(DAY)))


def test_a_day_without_news_names_no_level() -> None:
    texts = " ".join(said(DayEnd(SHORT_DAY)))

    assert day_sentences(SHORT_DAY) == []
    assert "Kept" not in texts
    assert "Passed" not in texts


def test_a_day_left_before_its_end_says_so_and_only_that_one() -> None:
    assert "left before its end" in said(DayEnd(SHORT_DAY))
    assert "left before its end" not in said(DayEnd(DAY))


def test_a_day_without_repetitions_shows_no_figures() -> None:
    texts = said(DayEnd(pictures.NOTHING))

    assert NOTHING in texts
    assert "Clean" not in texts


@pytest.mark.parametrize(
    ("seconds", "words"),
    [(0.0, "0 s"), (41.2, "41 s"), (59.6, "1 min 0 s"), (304.0, "5 min 4 s")],
)
def test_time_is_said_in_minutes_and_seconds(seconds: float, words: str) -> None:
    assert time_words(seconds) == words


@pytest.mark.parametrize(
    ("actions", "outcome"),
    [
        ((Action.GO,), Done.LEAVE),
        ((Action.NEXT, Action.GO), Done.HOME),
        ((Action.BACK,), Done.HOME),
        ((Action.MENU,), Done.HOME),
    ],
)
def test_the_day_ends_with_leaving_unless_home_is_asked_for(
    actions: tuple[Action, ...], outcome: Done
) -> None:
    screen = DayEnd(DAY)

    for action in actions:
        screen.on_action(action)

    assert screen.outcome is outcome


def test_the_events_file_has_the_day_in_numbers() -> None:
    assert DayEnd(DAY).details() == {
        "choices": ["Leave", "Home"],
        "parts": [
            ("Asked again", 7),
            ("Steadiness", 8),
            ("Learning: Closer to the brake", 12),
            ("Mixed in", 4),
            ("Last, with nothing shown", 3),
        ],
        "seconds": 304.0,
        "clean": 21,
        "counted": 33,
        "kept": ("Hold it in the dark",),
        "passed": ("Closer to the brake",),
        "beaten": ("9 clean in a row: more than ever before.",),
        "due_tomorrow": 2,
        "all_due": 28,
        "early": False,
    }


@pytest.mark.parametrize(
    ("early", "heading", "again"),
    [
        (True, "Left for now", "What is left of it is here all day."),
        (False, "Done for today", "Go on tomorrow."),
    ],
)
def test_the_heading_says_done_only_where_the_time_is_over(
    early: bool, heading: str, again: str
) -> None:
    day = replace(SHORT_DAY, is_early=early, due_tomorrow=0, all_due=0)

    texts = said(DayEnd(day))

    assert heading in texts
    assert again in texts
