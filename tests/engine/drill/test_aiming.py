"""Tones heard while the player finds the target, and silence in the dark."""

import pytest

from drills.level import Aid
from drills.trace import SECOND
from engine.pedals.port import Reading
from engine.stage.headless import ManualClock
from tests.drills.test_zone_task import ZONE
from tests.fakes import Steady
from tests.made import BLIP_TASK, level
from tests.running_repetition import RunningRepetition

FREE = 0.3  # s that the brake is free at first
TARGET = BLIP_TASK.target


class Pressed(Steady):
    """Pedals whose brake is free at first, then at each value in turn for half a second."""

    def __init__(self, clock: ManualClock, *values: float, throttle: float = 0.0) -> None:
        super().__init__(clock, 0.0, lambda _: throttle)
        self._values = values

    def read(self) -> Reading:
        """Reading of the pedals at the time of the clock."""
        step = int((self._clock() / SECOND - FREE) // 0.5)
        begun = self._clock() >= FREE * SECOND
        last = len(self._values) - 1
        self._brake = self._values[min(step, last)] / 100 if begun else 0.0
        return super().read()


def heard(seconds: float, *values: float, throttle: float = 0.0, aid: Aid = Aid.TONE) -> list[str]:
    """Tones heard while the brake goes to some values, in %."""
    clock = ManualClock()
    pressed = Pressed(clock, *values, throttle=throttle)
    session = RunningRepetition(level(aid=aid), BLIP_TASK, pressed, clock)
    session.run(seconds)
    return [sound for sound in session.speaker.heard if sound.startswith("tone")]


def test_without_an_aid_only_the_tone_on_target_is_heard() -> None:
    sounds = heard(1.7, TARGET - 20, TARGET + 20, TARGET, aid=Aid.NONE)

    assert sounds == ["tone silent", "tone on"]


@pytest.mark.parametrize("aid", [Aid.BUBBLE, Aid.TONE])
def test_light_on_and_heavy_tones_are_heard_while_the_target_is_searched(aid: Aid) -> None:
    sounds = heard(1.7, TARGET - 20, TARGET + 20, TARGET, aid=aid)

    assert sounds == ["tone silent", "tone light", "tone heavy", "tone on"]


def test_the_dark_is_silent() -> None:
    sounds = heard(2.0, TARGET)

    assert sounds[-2:] == ["tone on", "tone silent"]


def test_a_brake_that_was_not_released_first_hears_no_tone() -> None:
    clock = ManualClock()
    session = RunningRepetition(level(), BLIP_TASK, Steady(clock, TARGET / 100), clock)

    session.run(1.0)

    assert session.speaker.heard == ["tone silent"]


def test_a_throttle_that_must_be_released_first_silences_the_tone() -> None:
    assert heard(1.0, TARGET, throttle=0.3) == ["tone silent"]


def test_a_zone_has_no_weight_to_find_before_it_and_so_no_tone() -> None:
    clock = ManualClock()
    session = RunningRepetition(level(aid=Aid.TONE), ZONE, Pressed(clock, 2.0), clock)

    session.run(2.0)

    assert [sound for sound in session.speaker.heard if sound.startswith("tone")] == ["tone silent"]
    assert session.speaker.heard.count("count") == 1
