"""Simulated foot that plays the game by its events, as a person plays by looking at the screen."""

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

TAP = 80.0
"""Percent of throttle in a tap."""
TAPPING = (nanoseconds(2.0), nanoseconds(2.2))
"""Nanoseconds from a new screen to the begin and the end of a tap on it."""
ANY_SEED = 1
"""Seed of what a task draws but the foot never reads, such as the wait."""


class EventDrivenFoot:
    """Simulated foot that is fed the events of the game one by one.

    It takes the first choice of a menu with the brake, and plays on where the game advises a rest.
    It cannot play levels that draw their number of blips.
    """

    def __init__(self, clock: Clock, skill: float, seed: int) -> None:
        self._clock = clock
        self._levels = {level.id: level for level in (*load_levels([SHIPPED]), load_band())}
        self._living = SimulatedPedals(SimulatedFoot(skill, seed), clock)
        self._pedals = CalibratedPedals(self._living, SIMULATED_TRAVEL)
        self._guard = threading.Lock()  # events come in one thread, the pedals move in another
        self._screen: Mapping[str, Any] = {}
        self._shown_at = 0
        self._cues = 0

    def hear(self, event: Mapping[str, Any]) -> None:
        """React to one event."""
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
        """Brake, throttle and clutch now, in percent."""
        with self._guard:
            sample = self._pedals.sample()
            assert isinstance(sample, Sample)
            return [sample.brake, max(sample.throttle, self._tap()), sample.clutch or 0.0]

    def _begin(self) -> None:
        level, self._cues = self._levels[self._screen["level"]], 0
        rng = np.random.default_rng(ANY_SEED)
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
        """Percent of throttle; a tap takes the second choice where the first would end the set."""
        begins, ends = TAPPING
        tapping = begins <= self._clock() - self._shown_at < ends
        return TAP if tapping and self._screen.get("name") == "tires" else 0.0
