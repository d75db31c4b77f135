"""At the foot of the prompt stands how the set went so far, and what the repetition is part of."""

from dataclasses import replace

import pytest

from drills.level import Feedback
from engine.drill.prompt_words import names_level
from engine.drill.repetition_screen import RepetitionScreen
from engine.drill.set import run_set
from engine.kit import theme
from engine.kit.base import Place
from engine.kit.repetition_marks import Mark
from engine.kit.set_marks import DOT, MIDDLE, MOST_DONE, RADIUS, UNDER
from engine.pedals.rig import Means
from engine.stage.headless import ManualClock
from engine.store import History
from tests.engine.drill.sets import SetPlayer
from tests.engine.kit.recording_canvas import RecordingCanvas, recorded, said
from tests.engine.pictures import repeating
from tests.engine.shipped_played import BY_ID
from tests.fakes import Steady

BLIP = BY_ID["blip-1-first"]
CLEAN, MISSED, VOID = Mark.CLEAN, Mark.MISSED, Mark.VOID
EVERY = (CLEAN, VOID, MISSED)


def shown(place: Place) -> RecordingCanvas:
    """Prompt of a first blip with the brake on its target."""
    return recorded(repeating(BLIP, (0.0, 0.0), (57.0, 0.0), place=place))


def row_of(canvas: RecordingCanvas) -> list[float]:
    """Places of the discs at the foot of a prompt, from the left."""
    return sorted(x for (x, y), _ in canvas.discs if y == MIDDLE)


def underlined(canvas: RecordingCanvas) -> float:
    """Middle of the line under the mark of the repetition now."""
    [line] = [box for box in canvas.boxes if box.top == round(MIDDLE + UNDER)]
    return float(line.centerx)


def test_a_void_repetition_has_a_dash_and_is_still_to_come() -> None:
    canvas = shown(Place(3, 10, marks=EVERY))
    dashes = [line for line in canvas.lines if line[0][1] == MIDDLE]

    assert len(row_of(canvas)) == 2 + 8
    assert len(dashes) == 1


@pytest.mark.parametrize("done", range(10))
def test_the_repetition_now_is_underlined_after_those_that_are_done(done: int) -> None:
    canvas = shown(Place(done + 1, 10, marks=(CLEAN,) * done))
    row = row_of(canvas)

    assert len(row) == 10
    assert underlined(canvas) == pytest.approx(row[done], abs=1)


@pytest.mark.parametrize("marks", [(CLEAN,) * 14, (CLEAN,) * 5 + (MISSED,) * 10])
def test_of_a_long_set_the_newest_marks_are_shown(marks: tuple[Mark, ...]) -> None:
    canvas = shown(Place(len(marks) + 1, 0, marks=marks))
    row = row_of(canvas)

    assert len(row) == MOST_DONE
    assert underlined(canvas) > row[-1]


@pytest.mark.parametrize("feedback", Feedback)
def test_only_a_set_with_a_reveal_each_time_has_marks(history: History, feedback: Feedback) -> None:
    clock = ManualClock()
    setting = SetPlayer(Steady(clock, 0.6), clock, history).setting
    scene = next(run_set(replace(BLIP, feedback=feedback), setting, 3))
    assert isinstance(scene.screen, RepetitionScreen)

    assert len(row_of(recorded(scene.screen))) == (3 if feedback is Feedback.EVERY else 0)


def test_a_dot_to_come_is_smaller_than_any_mark() -> None:
    assert 2 * DOT < RADIUS


@pytest.mark.parametrize(
    ("place", "words"),
    [
        (Place(3, 10, marks=EVERY), "First blip"),
        (Place(3, 10), "First blip, 3 of 10"),
        (Place(3, 0), "First blip"),
        (Place(3, 0, why="new: First blip", marks=EVERY), "new: First blip"),
        (
            Place(3, 0, why="check-up: 8 days later", marks=EVERY),
            "First blip, check-up: 8 days later",
        ),
        (
            Place(3, 0, why="still there? 5 weeks later", marks=EVERY),
            "First blip: still there? 5 weeks later",
        ),
    ],
)
def test_it_says_what_the_repetition_is_part_of_and_why(place: Place, words: str) -> None:
    assert words in [text.text for text in shown(place).texts]


@pytest.mark.parametrize(
    ("why", "words"),
    [
        ("steadiness within 20 points", "steadiness within 20 points, shown if outside"),
        ("new: Steadiness", "new: Steadiness, shown if outside"),
        ("for the early roll", "Steadiness, for the early roll, shown if outside"),
        ("", "Steadiness, shown if outside"),
    ],
)
def test_a_staircase_says_when_it_is_shown(why: str, words: str) -> None:
    level = replace(BLIP, title="Steadiness", feedback=Feedback.OUTSIDE)

    assert words in said(repeating(level, (57.0, 0.0), place=Place(3, 0, why=why)))


def test_where_there_is_little_room_the_reason_stays() -> None:
    place = Place(11, 0, why="check-up again: missed 5 days ago")
    level = replace(BLIP, title="The very long name of a level of my own " * 2)

    assert place.why in said(repeating(level, (57.0, 0.0), place=place))


@pytest.mark.parametrize(
    ("reason", "title", "names"),
    [
        ("new: First blip", "First blip", True),
        ("revision: The very long...", "The very long name", True),
        ("nothing shown", "Nothing shown", True),
        ("check-up: 8 days later", "First blip", False),
        ("check-up", "C", False),
        ("", "First blip", False),
    ],
)
def test_a_title_is_not_said_twice(reason: str, title: str, names: bool) -> None:
    assert names_level(reason, title) is names


def test_a_drawn_level_and_a_position_are_named_above_the_target() -> None:
    canvas = shown(Place(3, 10, named="A run of blips"))

    named, asked, target = canvas.texts[:3]

    assert (named.text, asked.text, target.text) == ("A run of blips", "brake", "60")
    assert named.ink.bottom < asked.ink.top < target.ink.top


def test_the_target_is_the_largest_text_by_far() -> None:
    sizes = sorted(text.size for text in shown(Place(3, 10, marks=EVERY)).texts)

    assert sizes[-1] > 4 * sizes[-2]
    assert sizes[0] >= theme.SMALL


@pytest.mark.parametrize(
    ("means", "words"),
    [
        (Means(feet=True), "Brake and throttle, Esc: menu"),
        (Means(), "Esc, right click: menu"),
    ],
)
def test_the_first_prompt_of_a_set_says_how_to_open_the_menu(means: Means, words: str) -> None:
    for number, told in ((1, True), (2, False)):
        screen = repeating(BLIP, (57.0, 0.0), place=Place(number, 10, marks=()))
        screen.on_means(means)

        assert (words in said(screen)) is told
