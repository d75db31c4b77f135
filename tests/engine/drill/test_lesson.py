"""Lessons: what moves, what ends them, and how long they stay."""

import pygame
import pytest

from drills.trace import Sample, nanoseconds
from engine.drill.lesson import Lesson, lesson_time
from engine.drill.lesson_moves import LASTS, MOVES
from engine.drill.lesson_words import (
    EXPLAINED,
    SLOWED,
    WORDS,
    Term,
    skip_hint,
)
from engine.drill.reveal import READ_EACH
from engine.kit.canvas import Fonts
from engine.kit.foot_pose import Way
from engine.pedals.gestures import Gestures
from engine.pedals.rig import Means
from engine.stage.actions import Action, actions_of_gesture
from engine.stage.scene import Pace
from tests.engine.drill.pictures import lesson
from tests.engine.kit.recording_canvas import RecordingCanvas

STEP = nanoseconds(0.010)
SIZES = [(640, 360), (1280, 720), (1080, 1920)]


class Sat:
    """Lesson fed every 10 ms, with the gestures of the feet as the loop hears them."""

    def __init__(self, screen: Lesson) -> None:
        self.screen = screen
        self.now = nanoseconds(100.0)
        self._gestures = Gestures()

    def sit(self, seconds: float, throttle: float = 0.0, brake: float = 0.0) -> None:
        """Feed the screen for some time with the pedals at these values."""
        for _ in range(round(seconds * 100)):
            self.now += STEP
            sample = Sample(self.now, brake, throttle)
            self.screen.on_sample(sample, self.now)
            gesture = self._gestures.feed(sample)
            if gesture is not None:
                for action in actions_of_gesture(gesture):
                    self.screen.on_action(action)

    def ends_after(self) -> float:
        """Seconds until the screen ends by itself."""
        began = self.now
        while self.screen.outcome is None:
            self.sit(0.01)
        return (self.now - began) / 1e9


def blip_lesson(*terms: Term) -> Lesson:
    """The lesson of one blip, which may move."""
    screen = Lesson("blip", "One blip", Way.ROLL, terms)
    screen.on_motion(allowed=True)
    return screen


def written(screen: Lesson) -> list[str]:
    """Lines of text on a lesson, the moving ones too."""
    pygame.font.init()
    canvas = RecordingCanvas((1920, 1080), Fonts())
    screen.draw_on(canvas, 0.0)
    return [text.text for text in canvas.texts]


def test_a_lesson_without_terms_takes_six_seconds() -> None:
    assert Sat(blip_lesson()).ends_after() == pytest.approx(LASTS, abs=0.05)


def test_a_lesson_with_terms_stays_as_long_as_reading_takes() -> None:
    read = sum(len(EXPLAINED[term]) for term in Term) / READ_EACH

    lasted = Sat(blip_lesson(*Term)).ends_after()

    assert read + 3 < lasted < 20
    assert lesson_time("x" * 30) == LASTS
    assert lesson_time("x" * 300) > 300 / READ_EACH


def test_a_tap_of_the_throttle_ends_a_lesson() -> None:
    sat = Sat(blip_lesson(*Term))

    sat.sit(1.0)
    sat.sit(0.1, throttle=80.0)
    pressed = sat.screen.outcome
    sat.sit(0.1)

    assert (pressed, sat.screen.outcome) == (None, True)


def test_the_go_gesture_ends_a_lesson() -> None:
    sat = Sat(blip_lesson(*Term))

    sat.sit(1.0)
    sat.sit(1.0, brake=75.0)

    assert sat.screen.outcome is True


def test_a_late_blip_ends_no_lesson() -> None:
    sat = Sat(blip_lesson(*Term))

    sat.sit(0.2, throttle=80.0, brake=60.0)
    sat.sit(0.2, brake=60.0)

    assert sat.screen.outcome is None


def test_holding_the_throttle_keeps_a_lesson_which_moves_on_and_on() -> None:
    sat = Sat(blip_lesson())

    sat.sit(0.5)
    sat.sit(3 * LASTS, throttle=80.0)
    held, moving = sat.screen.outcome, sat.screen.movement()
    sat.sit(0.02, throttle=80.0)
    later = sat.screen.movement()
    sat.sit(0.05)

    assert held is None
    assert moving != later
    assert sat.screen.outcome is True


@pytest.mark.parametrize("action", Action)
def test_every_key_that_does_something_ends_a_lesson(action: Action) -> None:
    screen = blip_lesson(*Term)

    screen.on_action(action)

    assert screen.outcome is True


@pytest.mark.parametrize(("after", "outcome"), [(0.5, None), (1.1, True)])
def test_a_click_ends_a_lesson_once_it_cannot_be_a_late_blip(
    after: float, outcome: bool | None
) -> None:
    sat = Sat(blip_lesson(*Term))
    sat.sit(after)

    sat.screen.on_pointer((5, 5), pressed=True)

    assert sat.screen.outcome is outcome


@pytest.mark.parametrize(("allowed", "pace"), [(True, Pace.SMOOTH), (False, Pace.STILL)])
def test_a_lesson_moves_only_where_motion_is_allowed(allowed: bool, pace: Pace) -> None:
    screen = lesson("blip", moves=allowed, seconds=1.0)

    assert screen.pace is pace
    assert (screen.movement() is not None, bool(screen.moving_areas)) == (allowed, allowed)


def test_a_lesson_stops_without_the_focus() -> None:
    screen = lesson("blip", moves=True, seconds=1.0)

    screen.on_focus(False, nanoseconds(1.0))

    assert screen.pace is Pace.STILL


@pytest.mark.parametrize("name", MOVES)
@pytest.mark.parametrize("moves", [True, False])
def test_a_lesson_says_its_line_its_signs_and_the_word_of_the_moment(
    name: str, moves: bool
) -> None:
    stages, words = MOVES[name].stages, WORDS[name]
    said = set[str]()

    for index, stage in enumerate(stages):
        texts = written(lesson(name, moves=moves, seconds=stage.begins + 0.02))
        word = words.stage(index, Way.ROLL)
        assert words.effect in texts
        assert {*words.signs} <= {*texts}
        said |= {word} if word in " ".join(texts) else set()

    posed = {words.stage(index, Way.ROLL) for index, one in enumerate(stages) if moves or one.pose}
    assert said >= posed


@pytest.mark.parametrize("seen", [(), tuple(MOVES)])
def test_terms_are_written_only_where_they_are_explained(seen: tuple[str, ...]) -> None:
    texts = written(lesson("blip", moves=True, seen=seen))

    assert [term.value in texts for term in Term] == [not seen] * len(Term)


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("name", MOVES)
def test_the_moving_parts_alone_look_like_the_whole_lesson(
    name: str, size: tuple[int, int]
) -> None:
    pygame.font.init()
    screen, surface, whole = lesson(name, moves=True), pygame.Surface(size), pygame.Surface(size)

    screen.draw(surface, 0.0)
    for seconds in (1.3, 3.3, 5.5):
        screen.on_sample(Sample(nanoseconds(seconds), 0.0, 0.0), nanoseconds(seconds))
        screen.draw_moving(surface)
    lesson(name, moves=True, seconds=5.5).draw(whole, 0.0)

    areas = screen.draw_moving(surface)
    for area in areas:
        assert surface.subsurface(area).get_buffer().raw == whole.subsurface(area).get_buffer().raw


def test_no_moving_areas_of_a_lesson_overlap() -> None:
    pygame.font.init()
    for name in MOVES:
        for seen in ((), tuple(MOVES)):
            areas = lesson(name, moves=True, seen=seen).moving_areas
            rects = [pygame.Rect(*corner, *size) for corner, size in areas]
            assert [rect.collidelistall(rects) for rect in rects] == [[0], [1], [2]]


@pytest.mark.parametrize("means", [Means(), Means(feet=True), Means(feet=True, buttons=True)])
def test_the_hint_names_only_the_input_methods_at_hand(means: Means) -> None:
    hint = skip_hint(means)

    assert ("throttle" in hint.lower()) == means.feet
    assert ("button 1" in hint) == means.buttons
    assert "Enter" in hint


def test_the_hint_says_how_to_stay_and_while_it_stays_or_nobody_looks_how_to_go_on() -> None:
    sat, hints = Sat(blip_lesson()), []
    sat.screen.on_means(Means(feet=True))

    for throttle in (0.0, 80.0, 0.0):
        sat.sit(0.1, throttle=throttle)
        hints.append(sat.screen.hint)
    sat.screen.on_focus(False, sat.now)

    skip = skip_hint(Means(feet=True))
    assert hints == [skip, "let the throttle go when you are done", skip]
    assert sat.screen.hint == "Click here to go on"


@pytest.mark.parametrize("name", MOVES)
def test_a_lesson_says_that_its_blips_are_slowed_where_they_move(name: str) -> None:
    moving, still = (lesson(name, moves=moves) for moves in (True, False))

    assert written(moving).count(SLOWED) == bool(MOVES[name].blips)
    assert SLOWED not in written(still)
