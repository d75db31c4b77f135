"""A simulated foot on virtual pedals: it reads the events file as a person looks at the game."""

import threading
from collections.abc import Mapping
from typing import Any

import numpy as np

from drills.foot import SimulatedFoot
from drills.phases import Event, Phase, Transition
from drills.trace import SECOND, Sample, nanoseconds
from engine.ladder.level_files import SHIPPED, load_band, load_levels
from engine.pedals.port import CalibratedPedals, Clock
from engine.pedals.simulated import SIMULATED_TRAVEL, SimulatedPedals

TAP = 80.0  # %, throttle of a tap
TAPPING = (nanoseconds(2.0), nanoseconds(2.2))  # ns from a screen to a tap on it, and to its end
ANY_CHANCE = 1  # seed of what a task draws that the foot does not ask for, such as the wait


class Feet:
    """What a simulated foot does at the game, told of it event by event.

    It goes on from screens with choices by the brake, and does not stop where it is said to tire.
    Levels whose number of blips is drawn are beyond it.
    """

    def __init__(self, clock: Clock, skill: float, seed: int) -> None:
        self._clock = clock
        self._levels = {one.id: one for one in (*load_levels([SHIPPED]), load_band())}
        self._living = SimulatedPedals(SimulatedFoot(skill, seed), clock)
        self._pedals = CalibratedPedals(self._living, SIMULATED_TRAVEL)
        self._guard = threading.Lock()  # one thread hears while another moves the pedals
        self._screen: Mapping[str, Any] = {}
        self._shown_at = 0
        self._cues = 0

    def hear(self, event: Mapping[str, Any]) -> None:
        """Take in one event."""
        with self._guard:
            match event["event"]:
                case "screen":
                    self._screen, self._shown_at = event, self._clock()
                    if event["name"] != "repetition":
                        self._living.on_menu()
                case "phase" if "by" not in event:
                    self._begin()
                case "phase":
                    self._follow(event)

    def percent(self) -> list[float]:
        """All pedals now, in %."""
        with self._guard:
            sample = self._pedals.sample()
            assert isinstance(sample, Sample)
            return [sample.brake, max(sample.throttle, self._tap()), sample.clutch or 0.0]

    def _begin(self) -> None:
        level, self._cues = self._levels[self._screen["level"]], 0
        rng = np.random.default_rng(ANY_CHANCE)
        self._task = level.kind.task(level, self._screen["target"], rng)
        self._living.on_task(self._task)

    def _follow(self, event: Mapping[str, Any]) -> None:
        phase, by, time = Phase(event["phase"]), Event(event["by"]), round(event["t"] * SECOND)
        if by is not Event.CUE:
            self._living.on_transition(Transition(by, phase, time))
            return
        cue = self._cues
        self._cues += 1
        self._living.on_transition(Transition(by, phase, time, cue, self._task.signal(cue)))

    def _tap(self) -> float:
        """%, throttle that goes on to the next choice where the first is to stop."""
        begins, ends = TAPPING
        tapping = begins <= self._clock() - self._shown_at < ends
        return TAP if tapping and self._screen.get("name") == "tires" else 0.0
