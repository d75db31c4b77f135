"""A replay as it plays: its playhead, its sound, its drawing, and what ends it."""

from collections.abc import Callable

import pygame
import pytest

from drills.trace import Sample
from engine.drill.replay_picture import ReplayPicture
from engine.kit import theme
from engine.kit.canvas import Fonts
from engine.kit.foot_pose import Way
from engine.kit.timed_screen import TimedOutcome
from engine.stage.actions import Action
from tests.engine.drill.replaying import course_of
from tests.engine.drill.watched_replay import BEST, FIRST, MAIN, REPLAY, Watched
from tests.engine.kit.recording_canvas import RecordingCanvas
from tests.engine.shipped_played import shipped_repetitions


def test_the_playhead_moves_at_a_quarter_of_real_time_and_ends_where_the_picture_ends() -> None:
    watched = Watched()
    watched.sit(0.3)
    watched.screen.on_action(Action.NEXT)
    watched.sit(0.01)
    places, moving = [], []

    for _ in range(2):
        places.append(watched.screen.movement())
        moving.append(watched.screen.is_moving)
        watched.sit(4.0)
    watched.sit(0.5)
    places.append(watched.screen.movement())
    moving.append(watched.screen.is_moving)

    begins, ends = watched.course.begins, watched.course.ends
    assert places == pytest.approx([begins, begins + 1.0, ends], abs=0.011)
    assert moving == [True, True, False]


def test_a_replay_is_heard_once_from_its_begin_to_its_end() -> None:
    watched = Watched()

    watched.sit(0.3)
    watched.sit(0.32, 60.0)
    begun = list(watched.speaker.heard)
    watched.sit(4.0, 60.0)
    midway = list(watched.speaker.heard)
    watched.sit(REPLAY, 60.0)

    assert begun == midway == [watched.curve]
    assert watched.speaker.heard == [watched.curve, "curve ends"]


def let_go(watched: Watched) -> None:
    """Let the throttle go."""
    watched.sit(0.02)


def unplug(watched: Watched) -> None:
    """Lose the pedals."""
    watched.sit(0.02, None)


def lose_focus(watched: Watched) -> None:
    """Switch to another window."""
    watched.screen.on_focus(False, watched.now)


def close(watched: Watched) -> None:
    """Close the window."""
    watched.screen.on_closing()


def press(action: Action) -> Callable[[Watched], None]:
    """Press a key."""
    return lambda watched: watched.screen.on_action(action)


@pytest.mark.parametrize(
    ("end", "outcome"),
    [
        (let_go, None),
        (unplug, None),
        (lose_focus, None),
        (close, None),
        (press(Action.GO), TimedOutcome.ON),
        (press(Action.BACK), TimedOutcome.MENU),
        (press(Action.MENU), TimedOutcome.MENU),
    ],
)
def test_whatever_ends_a_replay_ends_its_sound_and_its_motion(
    end: Callable[[Watched], None], outcome: TimedOutcome | None
) -> None:
    watched = Watched()
    watched.sit(0.3)
    watched.sit(2.0, 60.0)

    end(watched)

    assert watched.speaker.heard == [watched.curve, "curve ends"]
    assert not watched.screen.is_moving
    assert watched.screen.movement() is None
    assert watched.screen.outcome is outcome


def test_after_the_focus_was_lost_the_throttle_must_be_let_go_before_it_plays_again() -> None:
    watched = Watched()
    watched.sit(0.3)
    watched.sit(1.0, 60.0)

    watched.screen.on_focus(False, watched.now)
    watched.screen.on_focus(True, watched.now)
    held = watched.sit(2.0, 60.0)
    watched.sit(0.1)
    again = watched.sit(0.5, 60.0)

    assert (held, again) == (MAIN, BEST)


@pytest.mark.parametrize("allowed", [True, False])
def test_a_replay_plays_even_where_motion_is_off_as_the_player_asked_for_it(
    allowed: bool,
) -> None:
    watched = Watched()
    watched.screen.on_motion(allowed=allowed)
    watched.sit(0.3)

    watched.sit(2.0, 60.0)

    assert watched.screen.is_moving
    assert watched.screen.movement() == pytest.approx(watched.course.begins + 0.42, abs=0.02)


@pytest.mark.parametrize("size", [(640, 360), (1280, 720)])
@pytest.mark.parametrize(
    ("name", "steps"), [(FIRST, 1), (FIRST, 2), ("still-2a-squeeze", 1), ("clutch-1-order", 1)]
)
def test_moving_parts_redrawn_look_like_the_whole_screen_drawn(
    size: tuple[int, int], name: str, steps: int
) -> None:
    watched = Watched(name=name)
    watched.sit(0.3)
    for _ in range(steps):
        watched.screen.on_action(Action.NEXT)
    pygame.font.init()
    surface, whole = pygame.Surface(size), pygame.Surface(size)
    watched.screen.draw(surface, 0.0)

    for _ in range(12):
        watched.sit(0.61)
        first, second = watched.screen.draw_moving(surface)
        watched.screen.draw(whole, 0.0)

        assert surface.get_view("2").raw == whole.get_view("2").raw
        assert first.clip(second).size == (0, 0)


def test_the_player_hears_the_brake_before_the_window_is_drawn_again() -> None:
    watched = Watched()
    watched.sit(0.3)
    watched.screen.on_action(Action.NEXT)
    before = list(watched.speaker.heard)

    watched.screen.on_sample(Sample(watched.now + 1, 0.0, 0.0), watched.now + 1)

    assert (before, watched.speaker.heard) == ([], [watched.curve])
    assert watched.screen.movement() == watched.course.begins


@pytest.mark.parametrize("name", [FIRST, "still-2-firm", "run-2-three", "ease-3-one"])
def test_the_playhead_runs_on_the_curve_that_is_drawn(name: str) -> None:
    [shown] = shipped_repetitions(name, 0.05, 7, 1)
    course = course_of(shown)
    replay = ReplayPicture(course, Way.ROLL)
    pygame.font.init()
    canvas = RecordingCanvas((theme.WIDTH, theme.HEIGHT), Fonts())
    replay.paint(canvas, 150.0, 250.0, 850.0)
    [curve] = [points for colour, points in canvas.curves if colour == theme.BRAKE]
    across = [x for x, _ in curve]

    for share in (0.0, 0.1, 0.37, 0.5, 0.92, 1.0):
        replay.paint_moving(canvas, course.begins + share * (course.ends - course.begins))

        x, y = canvas.discs[-1][0]
        assert x == pytest.approx(across[0] + share * (across[-1] - across[0]), abs=1.0)
        near = [height for at, height in curve if abs(at - x) < 4]
        assert min(near) - 1 <= y <= max(near) + 1
