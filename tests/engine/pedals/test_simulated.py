"""Simulated pedals: how the foot reacts to what a player would see in a repetition."""

from dataclasses import replace

import numpy as np
import pytest

from drills.answer import Slip, draw
from drills.calibration import Calibration, Range
from drills.foot import ANSWERS, SimulatedFoot
from drills.habit import Habit
from drills.phases import Event, Phase, Transition
from drills.task import Signal, Task
from drills.trace import SECOND
from engine.pedals.port import CalibratedPedals
from engine.pedals.simulated import SIMULATED_TRAVEL, SimulatedPedals
from engine.stage.headless import STEP, ManualClock
from tests.made import BLIP_TASK, HOLD_TASK

BEGINNER = 0.0


def seed_with(slip: Slip | None) -> int:
    """First seed whose beginner makes a slip, or none, in the first repetition."""
    habit = Habit.of(BEGINNER)
    return next(
        seed
        for seed in range(10_000)
        if draw(habit, np.random.default_rng((seed, ANSWERS, 1))).slip is slip
    )


class Played:
    """Beginner's foot that a test leads through a repetition."""

    def __init__(self, slip: Slip | None, task: Task) -> None:
        self._clock = ManualClock()
        self.foot = SimulatedPedals(SimulatedFoot(BEGINNER, seed_with(slip)), self._clock)
        self._pedals = CalibratedPedals(self.foot, SIMULATED_TRAVEL)
        self.foot.on_task(task)

    def happens(self, event: Event, phase: Phase) -> None:
        """Pass a phase transition to the foot."""
        given = (0, Signal.CUE) if event is Event.CUE else (None, None)
        self.foot.on_transition(Transition(event, phase, self._clock(), *given))

    def lives(self, seconds: float) -> tuple[list[float], list[float]]:
        """Brake and throttle in % for each millisecond of some seconds."""
        brakes, throttles = [], []
        for _ in range(round(seconds * SECOND) // STEP):
            self._clock.advance(STEP)
            sample = self._pedals.sample()
            assert sample is not None
            brakes.append(sample.brake)
            throttles.append(sample.throttle)
        return brakes, throttles

    def goes_dark(self) -> None:
        """Lead the foot through release, approach and hold."""
        self.lives(0.5)
        self.happens(Event.FREED, Phase.APPROACH)
        self.lives(1.0)
        self.happens(Event.READY, Phase.HELD)
        self.lives(0.6)
        self.happens(Event.STEADY, Phase.WAIT)


def test_the_foot_presses_to_its_target_only_after_releasing_the_brake() -> None:
    played = Played(None, BLIP_TASK)

    before = played.lives(1.0)[0]
    played.happens(Event.FREED, Phase.APPROACH)
    after = played.lives(1.0)[0]

    assert max(before) < 5
    assert after[-1] == pytest.approx(BLIP_TASK.target, abs=12)


def test_a_foot_that_guesses_blips_in_the_dark_before_any_cue() -> None:
    played = Played(Slip.EARLY, BLIP_TASK)

    played.goes_dark()

    assert max(played.lives(2.5)[1]) > 20


def test_a_foot_that_awaits_no_cue_guesses_none() -> None:
    played = Played(Slip.EARLY, HOLD_TASK)

    played.goes_dark()

    assert max(played.lives(2.5)[1]) == 0


def test_a_cue_that_comes_before_the_guess_is_answered_once() -> None:
    played = Played(Slip.EARLY, BLIP_TASK)

    played.goes_dark()
    played.happens(Event.CUE, Phase.ACT)
    throttle = np.array(played.lives(2.5)[1])

    assert np.count_nonzero(np.diff((throttle > 5).astype(int)) == 1) == 1


def test_a_foot_lets_the_brake_go_in_the_dark() -> None:
    played = Played(Slip.LET_GO_BEFORE, HOLD_TASK)

    played.goes_dark()

    assert played.lives(2.5)[0][-1] < 1


@pytest.mark.parametrize("ending", [Phase.DONE, Phase.VOID])
def test_a_blip_not_begun_before_the_light_comes_back_is_dropped(ending: Phase) -> None:
    played = Played(Slip.LATE, BLIP_TASK)

    played.goes_dark()
    played.happens(Event.CUE, Phase.ACT)
    waiting = played.lives(0.4)[1]
    played.happens(Event.LATE, ending)

    assert max(waiting + played.lives(2.0)[1]) == 0


def test_if_the_wait_is_lit_the_dark_begins_with_the_cue() -> None:
    lit = Played(Slip.LET_GO_BEFORE, replace(BLIP_TASK, dark=False))
    lit.goes_dark()
    waiting = lit.lives(2.0)[0]

    lit.happens(Event.CUE, Phase.ACT)
    acting = lit.lives(2.0)[0]

    assert min(waiting) > 30
    assert acting[-1] < 1


def test_a_knock_of_the_second_task_moves_no_pedal() -> None:
    feet = [Played(None, BLIP_TASK) for _ in range(2)]
    for one in feet:
        one.goes_dark()

    feet[0].happens(Event.KNOCK, Phase.WAIT)

    assert feet[0].lives(1.0) == feet[1].lives(1.0)


def test_a_foot_without_a_task_does_not_move() -> None:
    clock = ManualClock()
    pedals = SimulatedPedals(SimulatedFoot(BEGINNER, 1), clock)
    feet = CalibratedPedals(pedals, Calibration(Range(0.0, 1.0), Range(0.0, 1.0)))

    pedals.on_transition(Transition(Event.CUE, Phase.ACT, 0, 0, Signal.CUE))
    clock.advance(2 * SECOND)
    sample = feet.sample()

    assert sample is not None
    assert (sample.brake, sample.throttle) == (0.0, 0.0)
