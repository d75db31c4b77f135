"""Done for today: figures, marks and words of a day agree, and say when to come back."""

from dataclasses import replace

import pytest

from engine.drill.set_words import SAVED
from engine.five.day import Day, Part
from engine.five.day_end import DayEnd, Done
from engine.five.day_words import (
    NOTHING,
    NOTHING_NEW,
    Line,
    days_line,
    steadiness_line,
)
from engine.kit import theme
from engine.kit.repetition_marks import Mark
from engine.kit.steadiness_view import SteadinessView
from engine.practice.results import Streaks
from engine.stage.actions import Action
from tests.engine.five import made_days
from tests.engine.five.day_pictures import day_screens, with_figures
from tests.engine.five.made_days import DAY, FULL_DAY, SECOND_YEAR, SHORT_DAY
from tests.engine.five.pictures import FIRST_DAY, LATER
from tests.engine.kit.recording_canvas import recorded, said
from tests.engine.ladder.stages import made_levels

CLEAN, MISSED, VOID = Mark.CLEAN, Mark.MISSED, Mark.VOID

each = pytest.mark.parametrize("day", [DAY, FULL_DAY, SHORT_DAY])


def figures(day: Day) -> DayEnd:
    """The end of a day with all its figures shown."""
    return with_figures(DayEnd(day))


def in_figure(day: Day) -> list[Mark]:
    """Marks of every part but the staircase, in which nothing is missed."""
    return [mark for part in day.parts if not part.is_staircase for mark in part.marks]


@each
def test_as_many_marks_are_drawn_as_the_large_figure_counts(day: Day) -> None:
    canvas = recorded(figures(day))
    marks = in_figure(day)
    counted = [mark for mark in marks if mark is not Mark.VOID]
    texts = [text.text for text in canvas.texts]

    assert len(canvas.discs) == len(counted)
    assert f"of {len(counted)} clean" in texts
    assert f"{marks.count(CLEAN)}" in texts


@pytest.mark.parametrize("count", [1, 13, 14, 40])
def test_every_repetition_of_a_long_part_has_its_mark_apart_from_the_words(count: int) -> None:
    parts = (Part("revision", (CLEAN,) * count), Part("nothing shown", (MISSED,)))
    canvas = recorded(figures(replace(DAY, parts=parts, clean=count, counted=count + 1)))

    marks = [centre for centre, _ in canvas.discs]

    texts = [text.ink for text in canvas.texts]
    assert len(set(marks)) == count + 1
    assert not [at for at in marks if any(ink.collidepoint(at) for ink in texts)]
    assert max(y for _, y in marks) < theme.BAR


def test_the_marks_of_all_parts_stand_in_the_same_columns() -> None:
    parts = (Part("new", (CLEAN,) * 17), Part("revision", (CLEAN, MISSED, CLEAN)))
    canvas = recorded(figures(replace(DAY, parts=parts, clean=19, counted=20)))

    across = [x for (x, _), _ in canvas.discs]

    assert across[-3:] == across[:3]


@each
def test_each_part_stands_beside_its_own_marks(day: Day) -> None:
    canvas = recorded(figures(day))
    inks = {text.text: text.ink for text in canvas.texts}
    discs = [centre for centre, _ in canvas.discs]

    for part in day.parts:
        ink = inks.get(part.label) or inks[part.name]
        beside = [at for at in discs if abs(at[1] - ink.centery) < 20]
        drawn = [mark for mark in part.marks if mark is not Mark.VOID]
        assert len(beside) == (0 if part.is_staircase else len(drawn))


def test_a_staircase_has_no_misses_but_says_how_many_blips_were_inside() -> None:
    part = Part("steadiness", (CLEAN, MISSED, VOID, CLEAN), is_staircase=True)
    canvas = recorded(figures(replace(DAY, parts=(part,))))
    texts = [text.text for text in canvas.texts]

    assert "2 of 3 inside" in texts
    assert canvas.discs == []
    assert not [text for text in texts if "clean" in text and text.startswith("of")]


@pytest.mark.parametrize(
    ("checked", "due", "words"),
    [
        (0, 0, Line("Go on tomorrow")),
        (1, 1, Line("Tomorrow", "1 check-up")),
        (2, 2, Line("Tomorrow", "2 check-ups")),
        (1, 2, Line("Tomorrow", "1 of 2 check-ups")),
        (4, 28, Line("Tomorrow", "4 of 28 check-ups")),
    ],
)
def test_it_says_when_to_come_back_and_how_many_are_due(
    checked: int, due: int, words: Line
) -> None:
    day = replace(DAY, due_tomorrow=checked, all_due=due)

    assert day.next_visit == words
    assert {words.words, words.note} - {""} <= set(said(figures(day)))


def test_what_went_better_comes_first_and_names_levels_and_bests() -> None:
    texts = said(figures(DAY))

    assert DAY.sentences == [
        "Passed: Closer to the brake.",
        "Retained: Hold it in the dark.",
        "9 clean in a row, your best yet.",
    ]
    assert texts.index("Passed: Closer to the brake.") < texts.index("check-ups")
    assert "Retained: Hold it in the dark. 9 clean in a row, your best yet." in texts


def test_the_picture_has_what_the_repetitions_were_for_and_what_comes() -> None:
    texts = said(DayEnd(replace(DAY, parts=SECOND_YEAR, still=(5, 6))))

    assert {
        "10 for the early roll, 8 for steadiness, 8 for a personal limit.",
        "Rest now. Tomorrow: 2 of 28 check-ups, steadiness, then Closer to the brake.",
        "5 of 6 still there.",
    } <= set(texts)


def test_after_a_long_rest_the_figure_is_what_is_still_there_and_stands_once() -> None:
    rested = replace(DAY, passed=(), retained=("Hold it in the dark",), still=(1, 3))

    texts = said(DayEnd(rested))

    assert {"Retained: Hold it in the dark.", "1", "of 3 still there"} <= set(texts)
    assert [text for text in texts if "still there" in text] == ["of 3 still there"]
    assert not [text for text in texts if "levels retained" in text]


def test_the_figures_name_each_part_by_what_it_was_for() -> None:
    texts = said(figures(replace(DAY, parts=SECOND_YEAR)))

    assert {
        "check-ups",
        "for the early roll",
        "personal limit: Closer to the brake",
    } <= set(texts)


def test_a_day_without_news_names_no_level() -> None:
    assert SHORT_DAY.sentences == [SAVED]
    assert replace(SHORT_DAY, is_early=False).sentences == [NOTHING_NEW]


def test_a_day_without_repetitions_shows_no_figure() -> None:
    texts = said(DayEnd(made_days.NOTHING))

    assert NOTHING in texts
    assert "All figures" not in texts
    assert not [text for text in texts if "clean" in text]


@pytest.mark.parametrize(
    ("days", "note"),
    [
        (((7, 6.2), (0, 5.0)), "±6.2 a week ago"),
        (((9, 6.4), (8, 6.3), (0, 5.0)), "±6.3 8 days ago"),
        (((2, 6.2), (0, 5.0)), "points, your last 6 days"),
        ((), "points, when last measured"),
    ],
)
def test_the_steadiness_stands_beside_that_of_a_week_before(
    days: tuple[tuple[int, float], ...], note: str
) -> None:
    view = SteadinessView(5.0, 4.0, 6.0, 6, days)

    assert steadiness_line(view, None) == Line("Steadiness ±5.0", note)


def test_without_a_steadiness_the_blips_so_far_are_told() -> None:
    assert steadiness_line(None, 12) == Line("Steadiness: not yet", "12 of 36 blips")
    assert steadiness_line(None, None) is None


@pytest.mark.parametrize(
    ("streaks", "longest", "line"),
    [
        (LATER, False, Line("5 days in a row", "1 rest day left")),
        (LATER, True, Line("5 days in a row", "your longest")),
        (replace(LATER, rest_left=False), False, Line("5 days in a row", "best 12")),
        (replace(LATER, days_streak=1), False, Line("1 day in a row", "1 rest day left")),
        (FIRST_DAY, False, None),
    ],
)
def test_days_in_a_row_are_told_with_the_rest_day_or_the_best(
    streaks: Streaks, longest: bool, line: Line | None
) -> None:
    assert days_line(streaks, is_longest=longest) == line


@pytest.mark.parametrize(
    ("actions", "outcome"),
    [
        ((Action.GO,), Done.LEAVE),
        ((Action.PREVIOUS, Action.GO), Done.HOME),
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
        "choices": ["Leave", "All figures", "Home"],
        "better": "passed",
        "lead": "Passed: Closer to the brake.",
        "parts": [
            ("check-ups", 7),
            ("steadiness", 8),
            ("new: Closer to the brake", 12),
            ("revision", 4),
            ("nothing shown", 3),
        ],
        "seconds": 304.0,
        "clean": 21,
        "counted": 33,
        "kept": ("Hold it in the dark",),
        "passed": ("Closer to the brake",),
        "beaten": ("9 clean in a row, your best yet.",),
        "due_tomorrow": 2,
        "all_due": 28,
        "early": False,
    }


@pytest.mark.parametrize(
    ("early", "midnight", "heading", "again"),
    [
        (True, False, "Left for now", "The rest waits here"),
        (False, False, "Done for today", "Go on tomorrow"),
        (False, True, "Done", "Past midnight"),
        (True, True, "Left for now", "Past midnight"),
    ],
)
def test_the_heading_says_done_only_where_the_time_is_over(
    early: bool, midnight: bool, heading: str, again: str
) -> None:
    day = replace(SHORT_DAY, is_early=early, past_midnight=midnight)

    texts = [*said(DayEnd(day)), *said(figures(day))]

    assert texts.count(heading) == 2
    assert again in texts
    assert not midnight or "today" not in " ".join(texts).lower()


def test_the_first_day_lays_the_first_layer() -> None:
    first, plain = (
        day_screens(made_levels(), [])[f"day end {name}"] for name in ("first", "plain")
    )

    assert first.details()["lead"] == "The first layer of your hill."
    assert plain.details()["lead"] == "One more layer on your hill."
