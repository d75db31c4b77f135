"""Foot gestures with calibrated pedals."""

import pytest

from drills.trace import Sample, nanoseconds
from engine.pedals.gestures import Gesture, Gestures
from engine.pedals.identity import Axis

PEDAL = Axis(0, 0)
SECOND_PEDAL = Axis(1, 2)


class Feet:
    """Feeds a gesture detector every 5 ms and records each gesture with its time in s."""

    def __init__(self, gestures: Gestures | None = None) -> None:
        self.gestures = gestures or Gestures()
        self.said: list[tuple[Gesture, float]] = []
        self._ms = 0

    def keep(self, seconds: float, brake: float = 0.0, throttle: float = 0.0) -> None:
        """Hold the pedals at some values for some seconds."""
        for _ in range(round(seconds * 200)):
            self._ms += 5
            now = self._ms / 1000
            gesture = self.gestures.feed(Sample(nanoseconds(now), brake, throttle))
            if gesture is not None:
                self.said.append((gesture, now))


def test_a_brake_held_past_half_chooses_once() -> None:
    feet = Feet()

    feet.keep(0.5)
    feet.keep(3.0, brake=50.0)

    assert feet.said == [(Gesture.GO, 1.305)]


@pytest.mark.parametrize(("seconds", "brake"), [(0.8, 90.0), (5.0, 49.9)])
def test_a_short_press_or_a_light_one_chooses_nothing(seconds: float, brake: float) -> None:
    feet = Feet()

    feet.keep(0.5)
    feet.keep(seconds, brake=brake)
    feet.keep(0.5)

    assert feet.said == []


def test_a_brake_pressed_as_the_screen_opens_chooses_nothing_until_released() -> None:
    feet = Feet()

    feet.keep(3.0, brake=80.0)
    feet.keep(0.5, brake=30.0)
    feet.keep(2.0, brake=80.0)
    before = list(feet.said)
    feet.keep(0.5, brake=24.9)
    feet.keep(1.0, brake=80.0)

    assert before == []
    assert feet.said == [(Gesture.GO, 6.805)]


def test_a_brake_that_slips_under_half_starts_its_time_over() -> None:
    feet = Feet()

    feet.keep(0.1)
    feet.keep(0.7, brake=60.0)
    feet.keep(0.1, brake=45.0)
    feet.keep(0.7, brake=60.0)

    assert feet.said == []


def test_progress_grows_with_the_press_and_is_0_once_it_has_chosen() -> None:
    feet = Feet()
    feet.keep(0.5)
    seen = []

    for _ in range(4):
        feet.keep(0.2, brake=60.0)
        seen.append(feet.gestures.progress)
    feet.keep(0.1, brake=60.0)

    assert seen == pytest.approx([0.24375, 0.49375, 0.74375, 0.99375])
    assert feet.gestures.progress == 0.0
    assert [gesture for gesture, _ in feet.said] == [Gesture.GO]


def test_a_tap_of_the_throttle_selects_the_next_choice_on_release() -> None:
    feet = Feet()

    feet.keep(0.5)
    feet.keep(0.2, throttle=40.0)
    feet.keep(0.2)

    assert feet.said == [(Gesture.NEXT, 0.705)]


@pytest.mark.parametrize(("seconds", "throttle"), [(0.8, 90.0), (0.2, 39.9)])
def test_a_long_press_or_a_light_one_is_no_tap(seconds: float, throttle: float) -> None:
    feet = Feet()

    feet.keep(0.1)
    feet.keep(seconds, throttle=throttle)
    feet.keep(0.2)

    assert feet.said == []


def test_a_throttle_pressed_when_the_screen_opens_is_no_tap() -> None:
    feet = Feet()

    feet.keep(0.3, throttle=90.0)
    feet.keep(0.5)
    before = list(feet.said)
    feet.keep(0.2, throttle=90.0)
    feet.keep(0.2)

    assert before == []
    assert [gesture for gesture, _ in feet.said] == [Gesture.NEXT]


@pytest.mark.parametrize(
    ("between", "second"), [(0.2, Gesture.TWICE), (0.34, Gesture.TWICE), (0.4, Gesture.NEXT)]
)
def test_two_quick_taps_go_back_and_two_slow_ones_are_two_choices(
    between: float, second: Gesture
) -> None:
    feet = Feet()

    feet.keep(0.5)
    for _ in range(2):
        feet.keep(0.1, throttle=70.0)
        feet.keep(between)

    assert [gesture for gesture, _ in feet.said] == [Gesture.NEXT, second]


def test_a_tap_of_the_clutch_selects_the_previous_choice() -> None:
    gestures = Gestures()
    course = [(0.0, 0.0), (0.5, 0.0), (0.6, 60.0), (0.7, 0.0)]

    said = [gestures.feed(Sample(nanoseconds(time), 0.0, 0.0, clutch)) for time, clutch in course]

    assert said == [None, None, None, Gesture.PREVIOUS]


@pytest.mark.parametrize(("free", "heard"), [(0.39, False), (0.41, True)])
@pytest.mark.parametrize("pedal", ["brake", "throttle"])
def test_gestures_count_only_after_both_pedals_were_released_for_0_4_s(
    pedal: str, free: float, heard: bool
) -> None:
    feet = Feet()

    feet.keep(1.0, **{pedal: 60.0})
    feet.keep(free)
    feet.keep(0.2, throttle=70.0)
    feet.keep(0.2)

    assert bool(feet.said) == heard


def test_a_late_blip_on_a_brake_that_is_still_held_chooses_nothing() -> None:
    feet = Feet()

    feet.keep(0.3, brake=60.0)
    feet.keep(0.2, brake=55.0, throttle=80.0)
    feet.keep(2.0, brake=60.0)

    assert feet.said == []


def test_brake_and_throttle_held_past_half_together_open_the_menu_once() -> None:
    feet = Feet()

    feet.keep(0.1)
    feet.keep(0.3, brake=60.0)
    feet.keep(3.0, brake=60.0, throttle=50.0)
    feet.keep(0.2)

    assert feet.said == [(Gesture.MENU, 1.405)]


@pytest.mark.parametrize(
    ("seconds", "brake", "throttle"), [(0.99, 90.0, 90.0), (3.0, 49.9, 90.0), (3.0, 90.0, 49.9)]
)
def test_both_for_a_moment_or_not_both_past_half_open_nothing(
    seconds: float, brake: float, throttle: float
) -> None:
    feet = Feet()

    feet.keep(0.5)
    feet.keep(seconds, brake=brake, throttle=throttle)
    feet.keep(0.5)

    assert feet.said == []


def test_both_pressed_as_the_screen_opens_open_nothing_until_released() -> None:
    feet = Feet()

    feet.keep(3.0, brake=80.0, throttle=80.0)

    assert feet.said == []


def said(*samples: tuple[float, float, float]) -> list[Gesture | None]:
    """Gesture after each of some samples of (s, brake %, throttle %)."""
    gestures = Gestures()
    return [
        gestures.feed(Sample(nanoseconds(time), brake, throttle))
        for time, brake, throttle in samples
    ]


@pytest.mark.parametrize(
    ("before", "brake", "seconds", "gesture"),
    [
        (24.999, 50.0, 0.8, Gesture.GO),
        (24.999, 49.999, 0.8, None),
        (24.999, 50.0, 0.799, None),
        (25.0, 50.0, 0.8, None),
    ],
)
def test_a_choice_takes_a_brake_released_under_25_then_held_at_50_for_0_8_s(
    before: float, brake: float, seconds: float, gesture: Gesture | None
) -> None:
    assert said((0.0, before, 0.0), (1.0, brake, 0.0), (1.0 + seconds, brake, 0.0)) == [
        None,
        None,
        gesture,
    ]


@pytest.mark.parametrize(
    ("before", "throttle", "seconds", "after", "gesture"),
    [
        (24.999, 40.0, 0.7, 24.999, Gesture.NEXT),
        (25.0, 40.0, 0.7, 24.999, None),
        (24.999, 39.999, 0.7, 24.999, None),
        (24.999, 40.0, 0.701, 24.999, None),
        (24.999, 40.0, 0.7, 25.0, None),
    ],
)
def test_a_tap_takes_a_throttle_pressed_to_40_and_released_within_0_7_s(
    before: float, throttle: float, seconds: float, after: float, gesture: Gesture | None
) -> None:
    assert said((0.0, 0.0, before), (1.0, 0.0, throttle), (1.0 + seconds, 0.0, after)) == [
        None,
        None,
        gesture,
    ]


def test_a_brake_that_was_released_may_be_pressed_slowly() -> None:
    course = [(0.0, 0.0, 0.0), (0.5, 30.0, 0.0), (1.0, 49.0, 0.0), (1.5, 60.0, 0.0)]

    assert said(*course, (2.3, 60.0, 0.0))[-1] is Gesture.GO


def test_a_tap_is_timed_from_when_it_was_pressed() -> None:
    assert said((0.0, 0.0, 0.0), (1.0, 0.0, 50.0), (1.5, 0.0, 90.0), (1.8, 0.0, 0.0)) == [None] * 4


def test_progress_is_0_at_first_and_when_the_brake_slips_under_half() -> None:
    feet = Feet()
    first = feet.gestures.progress

    feet.keep(0.5)
    feet.keep(0.4, brake=60.0)
    pressed = feet.gestures.progress
    feet.keep(0.1, brake=49.0)

    assert (first, pressed > 0.4, feet.gestures.progress) == (0.0, True, 0.0)


@pytest.mark.parametrize("apart", [0.08, 0.15, 0.3, 0.6])
def test_where_taps_are_counted_each_of_them_counts_however_quick(apart: float) -> None:
    feet = Feet(Gestures(double_taps=False))

    feet.keep(0.5)
    for _ in range(7):
        feet.keep(0.08, throttle=70.0)
        feet.keep(apart)
    feet.keep(1.0, brake=70.0)

    assert [gesture for gesture, _ in feet.said] == [*[Gesture.NEXT] * 7, Gesture.GO]
