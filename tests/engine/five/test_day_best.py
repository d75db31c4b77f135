"""The end of a day shows one thing: sentence, figure and picture are about the same, by rank."""

from dataclasses import replace
from typing import Any

import numpy as np
import pygame
import pytest

from drills.trace import Sample, nanoseconds
from engine.five.day import BestScore, NewLimit, Part
from engine.five.day_best import Better, DayLead, better_of, lead_of
from engine.five.day_end import HELD, DayEnd
from engine.five.day_words import Line, named_words, rest_line
from engine.kit import shoe, theme
from engine.kit.motion import LONG
from engine.kit.repetition_marks import Mark
from engine.stage.actions import Action
from engine.stage.scene import Pace
from tests.engine.five.day_pictures import PLAIN, day_screens, step, views, with_figures
from tests.engine.five.made_days import DAY, NOTHING, SHORT_DAY
from tests.engine.kit.plots import dipped
from tests.engine.kit.recording_canvas import RecordingCanvas, recorded, said
from tests.engine.ladder.stages import made_levels

LEVELS = made_levels()
CLIMBED = views(LEVELS, 5, 2, 4)
BEST = BestScore(71, LEVELS[4].id, LEVELS[4].title)
CURVES = {BEST.level: [dipped(), dipped()]}
EVERYTHING = replace(
    DAY,
    row=9,
    best=BEST,
    new_limit=NewLimit(0.58, "Closer to the brake"),
    is_longest=True,
    views=replace(CLIMBED, step=step(), curves=CURVES),
)
"""A day on which all went better than ever."""
WITHOUT_STEP = replace(EVERYTHING, views=replace(CLIMBED, curves=CURVES))
DAYS = {
    Better.STEADIER: EVERYTHING,
    Better.PASSED: WITHOUT_STEP,
    Better.LIMIT: replace(WITHOUT_STEP, passed=()),
    Better.RETAINED: replace(WITHOUT_STEP, passed=(), new_limit=None),
    Better.ROW: replace(WITHOUT_STEP, passed=(), retained=(), new_limit=None),
    Better.SCORE: replace(WITHOUT_STEP, passed=(), retained=(), new_limit=None, row=0),
    Better.DAYS: replace(WITHOUT_STEP, passed=(), retained=(), new_limit=None, row=0, best=None),
    Better.NOTHING: replace(PLAIN, views=CLIMBED),
}
"""Days from which one after another of what went better is taken away."""
FIGURES = {
    Better.STEADIER: ("±5.1", "Steadier than on 7 Mar."),
    Better.PASSED: ("5", "Passed: Closer to the brake."),
    Better.RETAINED: ("2", "Retained: Hold it in the dark."),
    Better.LIMIT: ("0.58", "New best personal limit: Closer to the brake."),
    Better.ROW: ("9", "More clean in a row than ever."),
    Better.SCORE: ("71", f"Your best score at {BEST.title}."),
    Better.DAYS: ("5", "More days in a row than ever."),
    Better.NOTHING: ("33", "One more layer on your hill."),
}
"""The large figure of each of these days, and its sentence."""
HAS_MOTION = [better for better in Better if better is not Better.SCORE]
each_better = pytest.mark.parametrize("better", Better)


def shows_climb(canvas: RecordingCanvas) -> bool:
    """Whether the shoe is drawn."""
    return any(len(points) == len(shoe.UPPER) for _, points in canvas.fills)


def shows_row(canvas: RecordingCanvas) -> bool:
    """Whether nine discs side by side are drawn, the newest bright."""
    heights = {centre[1] for centre, _ in canvas.discs}
    bright = [centre for centre, colour in canvas.discs if colour == theme.BRAKE]
    return (
        len({centre for centre, _ in canvas.discs}) == 9 and len(heights) == len(set(bright)) == 1
    )


def shows_curves(canvas: RecordingCanvas) -> bool:
    """Whether brake curves are drawn, the typical one of two."""
    return "typical of 2" in [text.text for text in canvas.texts]


def shows_steadiness(canvas: RecordingCanvas) -> bool:
    """Whether the newest steadiness is drawn with a ring round it."""
    return sum(colour == theme.TEXT for _, colour in canvas.discs) == 1 and "±15.5 on 7 Mar" in [
        text.text for text in canvas.texts
    ]


def shows_hill(canvas: RecordingCanvas) -> bool:
    """Whether weeks of practice are drawn, the newest layer bright."""
    return any("in a week" in text.text for text in canvas.texts)


SHOWS = {
    Better.STEADIER: shows_steadiness,
    Better.PASSED: shows_climb,
    Better.RETAINED: shows_climb,
    Better.LIMIT: shows_hill,
    Better.ROW: shows_row,
    Better.SCORE: shows_curves,
    Better.DAYS: shows_hill,
    Better.NOTHING: shows_hill,
}
"""What tells the picture of each day."""


@each_better
def test_the_greatest_of_what_went_better_is_chosen(better: Better) -> None:
    assert better_of(DAYS[better]) is better


@each_better
def test_sentence_figure_and_picture_are_about_the_same(better: Better) -> None:
    figure, sentence = FIGURES[better]
    canvas = recorded(DayEnd(DAYS[better]))
    texts = [text.text for text in canvas.texts]

    assert sentence in texts
    assert figure not in sentence
    assert [text.text for text in canvas.texts if text.size == theme.FIGURE] == [figure]
    shown = {shows for shows in SHOWS.values() if shows(canvas)}
    assert shown == {SHOWS[better]}


def test_the_figures_of_levels_count_the_marks_of_the_climb() -> None:
    rungs = [rung.state for one in CLIMBED.stages for rung in one.rungs]

    passed, retained = (lead_of(DAYS[better]) for better in (Better.PASSED, Better.RETAINED))

    assert passed.figure is not None
    assert retained.figure is not None
    assert passed.figure.words == f"of {len(rungs)} levels passed"
    assert retained.figure.words == f"of {len(rungs)} levels retained"


def test_a_day_that_was_left_says_that_all_is_saved_and_claims_nothing() -> None:
    day = replace(SHORT_DAY, views=CLIMBED)

    assert better_of(day) is Better.NOTHING
    assert lead_of(day).sentence == "All you did is saved."
    assert lead_of(NOTHING) == DayLead("Nothing was played, and nothing is lost.", None)


def test_a_session_of_void_repetitions_lays_no_layer_and_has_no_figure() -> None:
    parts = (Part("new", (Mark.VOID,) * 3),)
    day = replace(DAYS[Better.NOTHING], parts=parts, counted=0, clean=0)
    screen = DayEnd(day)
    screen.on_motion(allowed=True)
    screen.on_sample(None, 0)

    canvas = recorded(screen)

    assert shows_hill(canvas)
    assert not [text for text in canvas.texts if text.size == theme.FIGURE]
    assert not screen.is_moving


@pytest.mark.parametrize(
    ("titles", "words"),
    [
        (["A"], "Passed: A."),
        (["A", "B"], "Passed: A, B."),
        (["A", "B", "C"], "Passed: A, and 2 more."),
    ],
)
def test_a_day_with_many_levels_names_the_first(titles: list[str], words: str) -> None:
    assert named_words("Passed", titles) == words


@pytest.mark.parametrize(
    ("visit", "is_done", "words"),
    [
        (Line("Tomorrow", "2 check-ups"), True, "Rest now. Tomorrow: 2 check-ups."),
        (Line("Go on tomorrow"), True, "Rest now. Go on tomorrow."),
        (Line("The rest waits here", "all day"), False, "The rest waits here all day."),
        (
            Line("Past midnight", "five minutes are ready"),
            False,
            "Past midnight: five minutes are ready.",
        ),
    ],
)
def test_the_last_line_sends_the_player_to_rest_and_says_what_comes(
    visit: Line, is_done: bool, words: str
) -> None:
    assert rest_line(visit, is_done=is_done) == words


def test_the_last_line_is_on_the_screen_of_every_day() -> None:
    for day in DAYS.values():
        assert day.rest[0] in said(DayEnd(day))
        assert day.rest[0].startswith("Rest now. Tomorrow: 2 of 28 check-ups, steadiness, then ")


def test_all_figures_come_by_their_choice_and_go_by_it() -> None:
    screen = DayEnd(DAYS[Better.PASSED])
    before = said(screen)

    with_figures(screen)
    shown, label = said(screen), "of 25 clean"
    screen.on_action(Action.GO)

    assert label not in before
    assert label in shown
    assert said(screen) == before
    assert screen.outcome is None


@pytest.mark.parametrize("seconds", [0.3, 5.0])
def test_all_figures_are_shown_while_the_throttle_is_held_but_not_by_a_tap(seconds: float) -> None:
    screen, shown = DayEnd(DAYS[Better.PASSED]), []

    for throttle, at in ((0.0, 1.0), (60.0, 2.0), (60.0, 2.0 + seconds), (0.0, 9.0)):
        time = nanoseconds(at)
        screen.on_sample(Sample(time, 0.0, throttle), time)
        shown.append(screen.shows_figures)

    assert shown == [False, False, nanoseconds(seconds) >= HELD, False]


def test_a_throttle_held_since_before_the_end_asks_for_nothing() -> None:
    screen = DayEnd(DAYS[Better.PASSED])

    for at in (1.0, 5.0):
        time = nanoseconds(at)
        screen.on_sample(Sample(time, 0.0, 60.0), time)

    assert not screen.shows_figures


def opened(better: Better, *, moves: bool = True) -> DayEnd:
    """The end of a day as it has just come up."""
    pygame.font.init()
    screen = DayEnd(DAYS[better])
    screen.on_motion(allowed=moves)
    screen.on_sample(None, 0)
    return screen


def pixels(surface: pygame.Surface) -> Any:
    """Colour of every pixel."""
    return pygame.surfarray.array3d(surface)


def drawn(screen: DayEnd, size: tuple[int, int] = (640, 360)) -> Any:
    """Pixels of the whole screen."""
    surface = pygame.Surface(size)
    screen.draw(surface, 0.0)
    return pixels(surface)


@pytest.mark.parametrize("better", HAS_MOTION)
def test_what_changed_moves_for_a_moment_and_then_the_screen_is_still(better: Better) -> None:
    screen, paces, frames = opened(better), [], []

    for share in (0.0, 0.5, 1.0):
        screen.on_sample(None, nanoseconds(share * LONG))
        paces.append(screen.pace)
        frames.append(drawn(screen))

    assert paces == [Pace.SMOOTH, Pace.SMOOTH, Pace.STILL]
    assert not np.array_equal(frames[0], frames[1])
    assert not np.array_equal(frames[1], frames[2])


@each_better
def test_without_motion_the_end_is_drawn_at_once(better: Better) -> None:
    still, moved = opened(better, moves=False), opened(better)
    moved.on_sample(None, nanoseconds(LONG))

    assert not still.is_moving
    assert np.array_equal(drawn(still), drawn(moved))


@pytest.mark.parametrize("size", [(640, 360), (1280, 720), (1366, 768), (1080, 1920)])
@pytest.mark.parametrize("better", HAS_MOTION)
def test_the_picture_redrawn_looks_like_the_whole_screen_drawn(
    better: Better, size: tuple[int, int]
) -> None:
    screen, surface, same = opened(better), pygame.Surface(size), []
    screen.draw(surface, 0.0)

    screen.on_action(Action.NEXT)
    for share in (0.2, 0.7, 1.0):
        screen.on_sample(None, nanoseconds(share * LONG))
        screen.draw_moving(surface)
        same.append(np.array_equal(pixels(surface), drawn(screen, size)))

    assert same == [True] * 3


def test_every_end_of_a_day_is_among_the_pictures() -> None:
    screens = day_screens(LEVELS, CURVES[BEST.level])

    found = {screen.details()["better"] for screen in screens.values()}
    assert found == {better.value for better in Better}
