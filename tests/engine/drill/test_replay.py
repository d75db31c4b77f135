"""Replays in the reveal: by feet, keys and mouse, their sound, and what ends them."""

from collections.abc import Callable, Sequence
from itertools import count

import pygame
import pytest

from drills.score import Reason, Verdict
from drills.trace import Sample, nanoseconds
from engine.drill.replay_words import FAINT, IS_BEST
from engine.drill.replays import Best
from engine.drill.reveal import Reveal
from engine.drill.reveal_of import RevealOf
from engine.kit.base import Place
from engine.kit.looks import Look
from engine.kit.timed_screen import TimedOutcome
from engine.pedals.rig import Means
from engine.stage.actions import Action
from tests.engine.drill.replaying import course_of, replayed, sit
from tests.engine.kit.recording_canvas import recorded
from tests.engine.pictures import BY_ID, shipped_repetitions
from tests.fakes import Loudspeaker
from tests.made import level

FIRST = "blip-1-first"
ONE, OWN, BEST, FIGURES = Look.ONE, Look.OWN, Look.BEST, Look.FIGURES
REPLAY = 9.0
"""Time in which a replay of one blip ends, in s: two seconds at quarter speed, and a bit."""


def a_best() -> Best:
    """A clean repetition, as the best of its level."""
    [clean] = shipped_repetitions(FIRST, 0.95, 3, 1)
    return Best(course_of(clean), "Your best, 12 May")


class Watched:
    """Reveal of a blip with replays, opened with both pedals let go."""

    def __init__(self, best: Callable[[], Best] | None = a_best) -> None:
        self.speaker = Loudspeaker()
        [shown] = shipped_repetitions(FIRST, 0.05, 7, 1)
        self.course = course_of(shown)
        self.screen = replayed(BY_ID[FIRST], shown, best, self.speaker)
        self.screen.on_means(Means(feet=True))
        self.curve = f"curve {self.course.lasts:.1f}"
        """What the speaker records of its replay."""
        self.now = nanoseconds(5.0)

    def sit(self, seconds: float, throttle: float | None = 0.0) -> Look:
        """Let time pass with the throttle at a value; returns what is shown then."""
        self.now = sit(self.screen, self.now, seconds, throttle)
        return self.screen.looks.now


def test_holds_play_this_one_then_the_best_one_and_each_held_on_shows_all_figures() -> None:
    watched, seen = Watched(), []

    watched.sit(0.3)
    for _ in range(3):
        looks = [watched.sit(0.4, 60.0), watched.sit(REPLAY, 60.0), watched.sit(3.0, 60.0)]
        seen.append((*looks, watched.sit(0.5)))

    one = [(look, FIGURES, FIGURES, ONE) for look in (OWN, BEST, OWN)]
    assert seen == one
    assert watched.screen.outcome is None
    watched.sit(4.0)
    assert watched.screen.outcome is TimedOutcome.ON


def test_keys_step_through_replay_best_and_figures_and_back_and_a_replay_stays_at_its_end() -> None:
    watched, seen = Watched(), []

    watched.sit(0.3)
    for _ in range(4):
        watched.screen.on_action(Action.NEXT)
        seen.append((watched.sit(0.1), watched.sit(REPLAY + 2)))

    assert seen[:3] == [(OWN, OWN), (BEST, BEST), (FIGURES, FIGURES)]
    assert seen[3][0] is ONE


def test_clicks_on_the_hint_step_through_the_same_and_one_elsewhere_goes_on() -> None:
    watched, seen = Watched(), []
    watched.screen.on_means(Means())
    watched.sit(1.1, None)

    for _ in range(4):
        hint = watched.screen.hint
        [drawn] = [text for text in recorded(watched.screen).texts if text.text == hint]
        watched.screen.on_pointer(drawn.ink.center, pressed=True)
        seen.append(watched.sit(0.1, None))
    watched.screen.on_action(Action.NEXT)
    watched.screen.on_pointer((300, 300), pressed=True)

    assert seen == [OWN, BEST, FIGURES, ONE]
    assert watched.screen.outcome is TimedOutcome.ON
    assert watched.speaker.heard[-1] == "curve ends"


def test_a_long_click_on_the_hint_asks_once_where_the_button_is_the_throttle_too() -> None:
    watched, seen = Watched(), []
    watched.screen.on_means(Means())
    watched.sit(1.1)

    for _ in range(4):
        hint = watched.screen.hint
        [drawn] = [text for text in recorded(watched.screen).texts if text.text == hint]
        watched.screen.on_pointer(drawn.ink.center, pressed=True)
        seen.append((watched.sit(0.8, 100.0), watched.sit(0.1)))

    assert seen == [(look, look) for look in (OWN, BEST, FIGURES, ONE)]


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


@pytest.mark.parametrize("late", [0.1, 0.5, 3.0])
def test_a_blip_that_goes_on_as_the_reveal_opens_starts_nothing(late: float) -> None:
    watched = Watched()

    looks = watched.sit(late, 90.0), watched.sit(0.2), watched.sit(0.25, 90.0), watched.sit(0.1)
    watched.screen.on_action(Action.NEXT)

    assert looks == (ONE, ONE, ONE, ONE)
    assert watched.screen.looks.now is ONE
    assert watched.speaker.heard == []


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

    assert (held, again) == (ONE, BEST)


def test_the_best_one_is_looked_for_only_by_the_second_hold_and_only_once() -> None:
    asked, best = count(), a_best()

    def find() -> Best:
        next(asked)
        return best

    watched = Watched(find)
    watched.sit(0.3)
    watched.sit(1.0, 60.0)
    watched.sit(0.1)
    before = next(asked)
    for _ in range(4):
        watched.sit(1.0, 60.0)
        watched.sit(0.1)

    assert before == 0
    assert next(asked) == 2


def test_where_this_one_is_the_best_the_second_hold_says_so_above_the_figures() -> None:
    watched = Watched(lambda: Best(None, IS_BEST))
    watched.sit(0.3)
    watched.sit(1.0, 60.0)
    watched.sit(0.1)

    shown = watched.sit(0.4, 60.0)
    held = {text.text for text in recorded(watched.screen).texts}
    watched.sit(0.1)
    third = watched.sit(0.4, 60.0)

    assert (shown, third) == (FIGURES, OWN)
    assert {IS_BEST, "Score"} <= held
    assert IS_BEST not in {text.text for text in recorded(watched.screen).texts}


def test_without_anything_to_compare_with_each_hold_plays_this_one() -> None:
    watched = Watched(None)
    watched.sit(0.3)

    looks = []
    for _ in range(2):
        looks += [watched.sit(0.4, 60.0), watched.sit(0.5)]
    for _ in range(3):
        watched.screen.on_action(Action.NEXT)
        looks.append(watched.screen.looks.now)

    assert looks == [OWN, ONE, OWN, ONE, OWN, FIGURES, ONE]


def test_the_hint_says_at_each_time_what_a_hold_and_a_key_do() -> None:
    watched, hints = Watched(), []

    def note() -> None:
        hints.append(watched.screen.hint)

    watched.sit(0.5, 60.0)
    note()
    watched.sit(0.3)
    note()
    watched.sit(0.5, 60.0)
    note()
    watched.sit(0.1)
    note()
    watched.sit(0.5, 60.0)
    watched.sit(REPLAY, 60.0)
    note()
    watched.sit(0.5)
    for _ in range(3):
        watched.screen.on_action(Action.NEXT)
        note()

    assert hints == [
        "let the throttle go when you are done",
        "hold the throttle, Tab: replay",
        "keep holding: all figures    let go: back",
        "hold the throttle: your best    Tab: replay",
        "let the throttle go when you are done",
        "Tab: your best    Enter: go on",
        "Tab: all figures    Enter: go on",
        "Tab: back    Enter: go on",
    ]


def test_over_the_replay_of_the_best_one_nothing_is_said_of_this_one() -> None:
    watched = Watched()
    own = {text.text for text in recorded(watched.screen).texts}

    watched.screen.on_action(Action.NEXT)
    watched.screen.on_action(Action.NEXT)
    watched.sit(0.1)

    drawn = {text.text for text in recorded(watched.screen).texts}
    assert {"Your best, 12 May", FAINT, "quarter speed"} <= drawn
    assert not drawn & {text for text in own if len(text.split()) > 2}


@pytest.mark.parametrize("reason", [Reason.GAP, Reason.ANTICIPATION])
def test_a_void_repetition_has_nothing_to_ask_for(reason: Reason) -> None:
    screen = Reveal(RevealOf(level(), Verdict(reason), None, (), Place(1, 10)))
    now = sit(screen, nanoseconds(5.0), 0.2)

    sit(screen, now, 1.0, throttle=80.0)
    screen.on_action(Action.NEXT)

    assert screen.looks.now is ONE


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
@pytest.mark.parametrize("steps", [1, 2])
def test_moving_parts_redrawn_look_like_the_whole_screen_drawn(
    size: tuple[int, int], steps: int
) -> None:
    watched = Watched()
    watched.sit(0.3)
    for _ in range(steps):
        watched.screen.on_action(Action.NEXT)
    pygame.font.init()
    surface, whole = pygame.Surface(size), pygame.Surface(size)
    watched.screen.draw(surface, 0.0)

    changed: Sequence[pygame.Rect] = ()
    for _ in range(5):
        watched.sit(1.1)
        changed = watched.screen.draw_moving(surface)
    watched.screen.draw(whole, 0.0)

    assert surface.get_view("2").raw == whole.get_view("2").raw
    assert len(changed) == 2
    assert changed[0].clip(changed[1]).size == (0, 0)


def test_the_player_hears_the_brake_before_the_window_is_drawn_again() -> None:
    watched = Watched()
    watched.sit(0.3)
    watched.screen.on_action(Action.NEXT)
    before = list(watched.speaker.heard)

    watched.screen.on_sample(Sample(watched.now + 1, 0.0, 0.0), watched.now + 1)

    assert (before, watched.speaker.heard) == ([], [watched.curve])
    assert watched.screen.movement() == watched.course.begins
