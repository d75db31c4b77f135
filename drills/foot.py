"""A simulated right foot, from beginner to expert, all from one seed.

It holds a brake target with slow wander that grows with the target (Jones, Hamilton & Wolpert
2002: the spread of a force grows with the force), an 8-12 Hz tremor (Novak & Newell 2017), and
answers a cue with a throttle pulse that pulls the brake along through a delayed, underdamped
second-order coupling: the dip and the rebound that practice is for.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

DT = 0.001
"""s, one step of the model."""


@dataclass(frozen=True)
class Habit:
    """The constants of one foot."""

    wander: float
    """1, standard deviation of the slow wander as a share of the target."""
    wander_time: float
    """s, how long the wander remembers."""
    tremor: float
    """1, amplitude of the tremor as a share of the target."""
    gain: float
    """1, brake lost for throttle given, once settled."""
    gain_spread: float
    """1, standard deviation of the gain from blip to blip, as a share of it."""
    delay: float
    """s, from throttle to brake."""
    damping: float
    """1, damping ratio of the return."""
    frequency: float
    """rad/s, natural frequency of the return."""
    reaction: float
    """s, middle of the reaction time."""
    reaction_spread: float
    """1, standard deviation of the logarithm of the reaction time."""
    peak: float
    """%, middle of the throttle peak."""
    peak_spread: float
    """%, standard deviation of the throttle peak."""
    width: float
    """s, length of the throttle pulse from foot down to foot up."""
    squeeze: float
    """s, time constant of bringing the brake to a level."""

    @classmethod
    def of(cls, skill: float) -> Habit:
        """The habit of a foot of skill 0 (beginner) to 1 (expert).

        Raises ValueError outside that range.
        """
        if not 0 <= skill <= 1:
            raise ValueError(f"skill: expected 0 to 1, found {skill:g}")

        def between(beginner: float, expert: float) -> float:
            return beginner + (expert - beginner) * skill

        return cls(
            wander=between(0.045, 0.010),
            wander_time=1.5,
            tremor=between(0.010, 0.003),
            gain=between(0.42, 0.05),
            gain_spread=between(0.35, 0.20),
            delay=between(0.030, 0.015),
            damping=between(0.30, 0.65),
            frequency=between(16.0, 26.0),
            reaction=between(0.34, 0.24),
            reaction_spread=between(0.22, 0.10),
            peak=between(62.0, 70.0),
            peak_spread=between(16.0, 5.0),
            width=between(0.34, 0.22),
            squeeze=0.16,
        )


class Foot:
    """One foot on its pedals, stepped 1 ms at a time; percentages as the pedals would read."""

    def __init__(self, skill: float, seed: int) -> None:
        self._habit = Habit.of(skill)
        self._rng = np.random.default_rng(seed)
        self._steps = 0
        self._aim = 0.0
        self._level = 0.0
        self._wander = 0.0
        self._phase = self._rng.random() * math.tau
        self._pitch = 10.0
        self._pull = 0.0
        self._pull_speed = 0.0
        self._past = [0.0]
        self._gain = 0.0
        self._pulse: tuple[int, int, float] | None = None

    def press(self, level: float) -> None:
        """Bring the brake to `level` (%) and keep it there; 0 lets go."""
        self._aim = level

    def blip(self) -> None:
        """See a cue: after the reaction time, stab the throttle once."""
        habit, rng = self._habit, self._rng
        reaction = max(habit.reaction * math.exp(rng.normal(0, habit.reaction_spread)), 0.12)
        peak = min(max(rng.normal(habit.peak, habit.peak_spread), 25.0), 100.0)
        width = habit.width * math.exp(rng.normal(0, 0.12))
        first = self._steps + round(reaction / DT)
        self._pulse = (first, first + round(width / DT), peak)
        self._gain = habit.gain * max(rng.normal(1, habit.gain_spread), 0.1)
        self._past = [0.0] * max(round(habit.delay / DT), 1)

    def step(self) -> tuple[float, float]:
        """Live one more millisecond; brake and throttle, each 0 to 100 %."""
        throttle = self._throttle()
        self._past.append(throttle)
        self._couple(self._past.pop(0))
        brake = self._hold() + self._pull
        self._steps += 1
        return min(max(brake, 0.0), 100.0), throttle

    def _throttle(self) -> float:
        if self._pulse is None:
            return 0.0
        first, after, peak = self._pulse
        if self._steps >= after:
            self._pulse = None
            return 0.0
        if self._steps < first:
            return 0.0
        return peak * math.sin(math.pi * (self._steps - first) / (after - first))

    def _couple(self, throttle: float) -> None:
        habit = self._habit
        stiffness = habit.frequency**2
        push = -self._gain * throttle * stiffness
        damped = 2 * habit.damping * habit.frequency * self._pull_speed
        self._pull_speed += (push - damped - stiffness * self._pull) * DT
        self._pull += self._pull_speed * DT

    def _hold(self) -> float:
        habit, rng = self._habit, self._rng
        self._level += (self._aim - self._level) * DT / habit.squeeze
        kick = rng.normal(0, math.sqrt(2 * DT / habit.wander_time))
        self._wander += kick - self._wander * DT / habit.wander_time
        self._pitch += rng.normal(0, 0.02) + (10.0 - self._pitch) * DT
        self._phase += math.tau * self._pitch * DT
        share = habit.wander * self._wander + habit.tremor * math.sin(self._phase)
        return self._level * (1 + share)
