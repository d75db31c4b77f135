"""The screen of a moment: the shoe steps up, a mark changes, and it goes on by itself."""

from dataclasses import replace

import numpy as np
import pygame
import pytest

from drills.trace import nanoseconds
from engine.drill.moment import STAY, Moment
from engine.drill.moment_picture import AREA
from engine.drill.moment_rules import Achievement, AchievementKind
from engine.kit import theme
from engine.kit.canvas import Canvas, Fonts
from engine.kit.level_marks import draw_closing, draw_passed, draw_retained
from engine.kit.timed_screen import TimedOutcome
from engine.ladder.ladder import State
from engine.ladder.state_marks import draw_state
from engine.stage.actions import Action
from engine.stage.scene import Pace
from tests.engine.drill.pictures import moment, retained_moment
from tests.engine.kit.recording_canvas import RecordingCanvas

PASSED = Achievement(AchievementKind.PASSED, "Passed: Closer to the brake.", level="closer")
ALL = [
    PASSED,
    retained_moment(1),
    retained_moment(2),
    replace(retained_moment(2), is_new_ring=False),
    Achievement(AchievementKind.BEST, "best"),
    Achievement(AchievementKind.ROW, "row"),
]
SIZE = (960, 540)


def pixels(screen: Moment) -> np.ndarray[tuple[int, ...], np.dtype[np.uint8]]:
    """Colours of the pixels of a screen."""
    pygame.font.init()
    surface = pygame.Surface(SIZE)
    screen.draw(surface, 0.0)
    return pygame.surfarray.array3d(surface)


@pytest.mark.parametrize("achievement", ALL)
def test_a_moment_comes_to_rest_and_then_looks_as_it_does_at_once_without_motion(
    achievement: Achievement,
) -> None:
    first, rests = moment(achievement, "", 0.0), moment(achievement, "", 0.8)
    at_once = moment(achievement, "", 0.0, moves=False)

    assert (first.pace, rests.pace, at_once.pace) == (Pace.SMOOTH, Pace.STILL, Pace.STILL)
    assert not np.array_equal(pixels(first), pixels(rests))
    assert np.array_equal(pixels(rests), pixels(at_once))
    assert np.array_equal(pixels(rests), pixels(moment(achievement, "", STAY - 0.1)))


@pytest.mark.parametrize("achievement", ALL)
def test_moving_parts_alone_redrawn_look_like_the_whole_screen(achievement: Achievement) -> None:
    screen, surface = moment(achievement, "Next.", 0.0), pygame.Surface(SIZE)
    screen.draw(surface, 0.0)

    for seconds in (0.2, 0.3, 0.5, 0.6, 0.8):
        screen.on_sample(None, nanoseconds(seconds))
        screen.draw_moving(surface)
        whole = pixels(moment(achievement, "Next.", seconds))
        assert np.array_equal(pygame.surfarray.array3d(surface), whole)


def test_the_shoe_rises_to_the_next_step_and_never_sinks_into_it() -> None:
    (left, top), (width, height) = AREA
    heels: list[tuple[float, float]] = []

    for part in range(45):
        canvas = RecordingCanvas((theme.WIDTH, theme.HEIGHT), Fonts())
        moment(PASSED, "", part / 100).paint_moving(canvas)
        points = [point for _, fill in canvas.fills for point in fill]
        assert all(left <= x <= left + width and top <= y <= top + height for x, y in points)
        heels.append((min(x for x, _ in points), max(y for _, y in points)))

    (x, y), (end, higher) = heels[0], heels[-1]
    assert [heel for heel, _ in heels] == sorted(heel for heel, _ in heels)
    assert (end - x, y - higher) == pytest.approx((480, 130), abs=2)
    assert max(low for _, low in heels) == pytest.approx(y)


@pytest.mark.parametrize(
    ("state", "rings"), [(State.PASSED, 0), (State.RETAINED, 1), (State.WELL_RETAINED, 2)]
)
def test_a_mark_that_has_changed_is_that_of_the_climb(state: State, rings: int) -> None:
    canvases = (pygame.Surface((1920, 1080)), pygame.Surface((1920, 1080)))
    drawn, of_the_climb = (Canvas(surface, Fonts()) for surface in canvases)

    if rings:
        draw_retained(drawn, (100, 100), rings)
    else:
        draw_passed(drawn, (100, 100))
    draw_state(of_the_climb, (100, 100), state)

    first, second = (pygame.surfarray.array3d(surface) for surface in canvases)
    assert first.any()
    assert np.array_equal(first, second)


@pytest.mark.parametrize("rings", [1, 2])
def test_a_ring_begins_at_the_mark_before_it(rings: int) -> None:
    canvases = (pygame.Surface((1920, 1080)), pygame.Surface((1920, 1080)))
    begins, before = (Canvas(surface, Fonts()) for surface in canvases)

    draw_closing(begins, (100, 100), (rings - 1, rings), 0.0)
    if rings == 1:
        draw_passed(before, (100, 100))
    else:
        draw_retained(before, (100, 100), 1)

    first, second = (pygame.surfarray.array3d(surface) for surface in canvases)
    assert np.array_equal(first, second)


def test_a_moment_goes_on_by_itself_after_less_than_two_seconds() -> None:
    screen = moment(PASSED, "", STAY - 0.01)
    assert screen.outcome is None

    screen.on_sample(None, nanoseconds(STAY))

    assert screen.outcome is TimedOutcome.ON
    assert 1 <= STAY <= 2


@pytest.mark.parametrize("action", list(Action))
def test_any_action_ends_a_moment_and_going_back_opens_the_menu(action: Action) -> None:
    screen = moment(PASSED, "", 0.1)

    screen.on_action(action)

    leaves = action in (Action.BACK, Action.MENU)
    assert screen.outcome is (TimedOutcome.MENU if leaves else TimedOutcome.ON)


def test_a_click_ends_a_moment_and_a_mouse_that_only_moves_does_not() -> None:
    screen = moment(PASSED, "", 0.1)

    screen.on_pointer((10, 10), pressed=False)
    assert screen.outcome is None
    screen.on_pointer((10, 10), pressed=True)

    assert screen.outcome is TimedOutcome.ON


def test_a_moment_begins_again_when_the_window_has_the_focus_back() -> None:
    screen = moment(PASSED, "", 1.0)

    screen.on_focus(False, nanoseconds(1.0))
    screen.on_sample(None, nanoseconds(60.0))
    assert screen.outcome is None
    screen.on_focus(True, nanoseconds(60.0))
    screen.on_sample(None, nanoseconds(60.0))

    assert screen.is_moving
    screen.on_sample(None, nanoseconds(60.0 + STAY))
    assert screen.outcome is TimedOutcome.ON


def test_the_events_file_says_what_was_achieved() -> None:
    assert moment(PASSED, "Next: Two downshifts.", 0.0).details() == {
        "what": "passed",
        "level": "closer",
        "words": "Passed: Closer to the brake.",
        "line": "Next: Two downshifts.",
    }
