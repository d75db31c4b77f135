"""A set says between repetitions that a pedal no longer rests, or ends, where it was set up."""

from dataclasses import replace

import pytest

from drills.calibration import UNIT
from drills.foot import SimulatedFoot
from drills.phases import Transition
from drills.score import Reason
from drills.task import Task
from drills.trace import SECOND, Pedal
from engine.drill.attempt import Setting
from engine.pedals.moved_ends import End, MovedEnd
from engine.pedals.port import CalibratedPedals, Reading
from engine.pedals.simulated import SIMULATED_TRAVEL, SimulatedPedals
from engine.stage.headless import ManualClock
from engine.stage.scene import Flow
from engine.store import History, Record
from tests.engine.drill.sets import SetPlayer, reasons
from tests.made import BLIP


class Creeping:
    """Simulated feet on pedals whose throttle rests further from 0 with each repetition."""

    name = "pedals"
    is_feet = True
    counts = True
    label = ""

    def __init__(self, clock: ManualClock, creep: float) -> None:
        """`creep` is how far the rest moves in each repetition, as a share of the travel."""
        self._feet = SimulatedPedals(SimulatedFoot(0.9, 7), clock)
        self._creep = creep
        self.off = 0.0

    def read(self) -> Reading:
        """Reading of the feet, with the throttle's rest added."""
        reading = self._feet.read()
        scaled = SIMULATED_TRAVEL.throttle.percent(reading.throttle) / 100
        brake = SIMULATED_TRAVEL.brake.percent(reading.brake) / 100
        return Reading(reading.time, brake, scaled + self.off)

    def on_menu(self) -> None:
        """Pass on that a menu is shown."""
        self._feet.on_menu()

    def on_task(self, task: Task) -> None:
        """Pass on the task of a repetition, before which the rest creeps on."""
        self.off += self._creep
        self._feet.on_task(task)

    def on_transition(self, transition: Transition) -> None:
        """Pass on a step of the repetition."""
        self._feet.on_transition(transition)

    def on_record(self, place: int, record: Record) -> None:
        """Pass on a verdict."""
        self._feet.on_record(place, record)


class Notices:
    """Flow that takes what a set noticed, and sets the rest anew if told so."""

    def __init__(self, feet: Creeping, *, agrees: bool) -> None:
        self.moved: list[tuple[float, MovedEnd]] = []
        self.feet = feet
        self._agrees = agrees

    def __call__(self, moved: MovedEnd) -> Flow[bool]:
        """Note what moved; where the player agrees, it rests at 0 again."""
        self.moved.append((self.feet.off, moved))
        if self._agrees:
            self.feet.off = 0.0
        return self._agrees
        yield


def creeping(history: History, creep: float, *, agrees: bool) -> tuple[SetPlayer, Notices]:
    """Player whose throttle creeps, and what the sets notice of it."""
    clock = ManualClock()
    feet = Creeping(clock, creep)
    player = SetPlayer(feet, clock, history)
    player.stage = replace(player.stage, listeners=(*player.stage.listeners, feet))
    player.rig.play_with(CalibratedPedals(feet, UNIT))
    notices = Notices(feet, agrees=agrees)
    player.setting = replace(player.setting, stage=player.stage, renew_end=notices)
    return player, notices


@pytest.mark.parametrize("creep", [0.003, 0.005])
def test_a_creeping_rest_is_noticed_before_a_repetition_cannot_begin(
    history: History, creep: float
) -> None:
    player, notices = creeping(history, creep, agrees=True)

    records = player.walk(replace(BLIP, repetitions=24))

    assert Reason.NO_TARGET not in reasons(records)
    assert len(notices.moved) >= 1
    for off, moved in notices.moved:
        assert (moved.pedal, moved.end) == (Pedal.THROTTLE, End.REST)
        assert moved.percent == pytest.approx(100 * off, abs=0.3)
        assert off < 0.05


def test_a_rest_too_far_off_to_begin_is_noticed_after_seconds(history: History) -> None:
    player, notices = creeping(history, 0.0, agrees=True)
    notices.feet.off = 0.06
    begun = player.clock()

    records = player.walk(replace(BLIP, repetitions=1))

    [(_, moved)] = notices.moved
    assert reasons(records)[0] is Reason.NO_TARGET
    assert (moved.pedal, moved.end) == (Pedal.THROTTLE, End.REST)
    assert moved.percent == pytest.approx(6.0, abs=0.3)
    assert player.clock() - begun < 60 * SECOND


def test_without_pedals_that_were_set_up_nothing_is_offered(history: History) -> None:
    player, notices = creeping(history, 0.005, agrees=True)
    setting: Setting = replace(player.setting, renew_end=None)
    player.setting = setting

    player.walk(replace(BLIP, repetitions=8))

    assert notices.moved == []
