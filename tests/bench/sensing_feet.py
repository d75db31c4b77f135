"""Feet with a known sense of pressure: what they press where a weight is asked from memory."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from drills.level import Level
from drills.score import Verdict
from drills.task import Performance, Task
from drills.trace import Values, nanoseconds
from tests.bench.faulty_feet import FaultyFoot
from tests.bench.faulty_traces import REPORT, reported, unrest

HAND = FaultyFoot(0, skill=0.7)
"""Foot whose wander and tremor the squeezes have."""
PRESSES = 0.07
"""Time constant of a squeeze on its way to its weight, in s."""


@dataclass(frozen=True)
class SensingFoot:
    """A foot that presses `offset + gain * asked`, with an error that grows with the weight."""

    seed: int
    """Seed of all that the foot draws."""
    offset: float = 0.0
    """What it presses where nothing is asked, in points."""
    gain: float = 1.0
    """What it presses more for each point that is asked more, a ratio."""
    noise: float = 0.08
    """Standard deviation of what it presses, as a share of what is asked: 3 to 6 points."""
    day_noise: float = 0.0
    """Standard deviation between days of what it presses, as a share of what is asked."""

    def squeeze(self, level: Level, number: int, day: int) -> tuple[Task, Verdict]:
        """The squeeze with this number in its set, from 1, on a day by its number: as judged."""
        rng = np.random.default_rng((self.seed, 3, day, number))
        of_the_day = float(np.random.default_rng((self.seed, 4, day)).standard_normal())
        task = level.kind.task(level, level.targets.at(number, rng), rng)
        spread = self.noise * float(rng.standard_normal()) + self.day_noise * of_the_day
        pressed = self.offset + (self.gain + spread) * task.target
        return task, level.kind.judge(level, task, press(task, pressed, rng)).verdict


def press(task: Task, pressed: float, rng: np.random.Generator) -> Performance:
    """Pedals in one squeeze that ends at `pressed` (%)."""
    cue = round((task.steady + task.wait) / REPORT) * REPORT
    time = np.arange(0.0, cue + task.lasts + REPORT, REPORT)
    since = np.maximum(time - cue - float(rng.uniform(0.2, 0.4)), 0.0)
    held: Values = pressed * (1 - np.exp(-since / PRESSES) * (1 + since / PRESSES))
    brake = held + unrest(HAND, held, time, rng)
    trace = reported(time, brake, np.zeros_like(time))
    return Performance(trace, nanoseconds(task.steady), (nanoseconds(cue),))
