"""A simulated right foot, from beginner to expert, all from one seed.

It holds a brake target with slow wander that grows with the target (Jones, Hamilton & Wolpert
2002: the spread of a force grows with the force), an 8-12 Hz tremor (Novak & Newell 2017), and
creeps away from it in the dark. It answers a cue with a throttle pulse that pulls the brake along
through a delayed, underdamped second-order coupling: the dip and the rebound that practice is
for. What it will do in a repetition, slips included, is drawn as that begins.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from drills.answer import Answer, Swell, draw
from drills.habit import Habit
from drills.trace import Values

DT = 0.001
"""s, one step of the model."""
ANSWERS = 2
"""Number of the random stream that answers come from: one apart from the wander's."""
DRIFT_OF_PITCH = 0.02
"""Hz, standard deviation of what the tremor's pitch changes by in a step."""
PITCH = 10.0
"""Hz, middle of the 8 to 12 Hz of the tremor."""
_BLOCK = 4096
"""count of numbers drawn at once, for speed alone."""


class Foot:
    """One foot on its pedals, stepped 1 ms at a time; percentages as the pedals would read."""

    def __init__(self, skill: float, seed: int) -> None:
        self._habit = Habit.of(skill)
        self._seed = seed
        self._answered = 0
        rng = np.random.default_rng(seed)
        self._phase = rng.random() * math.tau
        self._noise = _noise(rng)
        self._steps = 0
        self._aim = 0.0
        self._level = 0.0
        self._level_speed = 0.0
        self._wander = 0.0
        self._pitch = PITCH
        self._creep = 0.0
        self._crept = 0.0
        self._pull = 0.0
        self._pull_speed = 0.0
        self._answer: Answer | None = None
        self._guessed: int | None = None
        self._lets_go_at: int | None = None
        self._begins, self._onset = 0, 0
        self._throttles: list[float] = []
        self._drives: list[float] = []
        self._rest = 0.0

    def press(self, level: float) -> None:
        """Bring the brake to `level` (%), seeing it, and keep it there; 0 lets go."""
        self.see()
        self._aim = level

    def see(self) -> None:
        """The light comes back: what crept away is put right, and what was still to come is not."""
        self._answer = self._guessed = self._lets_go_at = None
        self._creep = self._crept = self._rest = 0.0
        if self._steps < self._onset:
            self._throttles = self._drives = []

    def darken(self, *, cued: bool) -> None:
        """See nothing from here on; `cued` where a cue is to be answered."""
        answer = self._answer = self._drawn()
        self._creep = answer.creep
        if answer.lets_go is not None:
            self._lets_go_at = self._after(answer.lets_go)
        if cued and answer.guess is not None:
            self._guessed = self._after(answer.guess)
            self._plan(answer, self._guessed)

    def blip(self) -> None:
        """See a cue: after the reaction time, stab the throttle, or what the foot takes for it."""
        answer = self._answer or self._drawn()
        guessed, onset = self._guessed, self._after(answer.reaction)
        self._answer = self._guessed = None
        if guessed is None or onset < guessed:
            self._plan(answer, onset)

    def step(self) -> tuple[float, float]:
        """Live one more millisecond; brake and throttle, each 0 to 100 %."""
        if self._steps == self._lets_go_at:
            self._aim = 0.0
        since = self._steps - self._begins
        planned = since < len(self._drives)
        self._couple(self._drives[since] if planned else self._rest)
        brake = self._hold() + self._pull
        self._steps += 1
        return min(max(brake, 0.0), 100.0), self._throttles[since] if planned else 0.0

    def _drawn(self) -> Answer:
        self._answered += 1
        return draw(self._habit, np.random.default_rng((self._seed, ANSWERS, self._answered)))

    def _after(self, seconds: float) -> int:
        return self._steps + round(seconds / DT)

    def _plan(self, answer: Answer, onset: int) -> None:
        """Lay out throttle and drive, both in %, a value a step from now until all is done."""
        if not answer.pulses:
            return
        end = max(swell.end for swell in answer.pulses + answer.pushes)
        until = onset + math.ceil((end + self._habit.delay) / DT)
        time = np.arange(self._steps - onset, until - onset, dtype=np.float64) * DT
        pulled = _together(answer.pulses, time - self._habit.delay)
        left = np.where(time >= answer.pulses[0].length / 2, answer.stays, 0.0)
        drive = self._rest - answer.gain * pulled + _together(answer.pushes, time) + left
        self._drives = drive.tolist()
        self._throttles = _together(answer.pulses, time).tolist()
        self._begins, self._onset = self._steps, onset
        self._rest += answer.stays
        if answer.lets_go_after is not None:
            self._lets_go_at = onset + round(answer.lets_go_after / DT)

    def _couple(self, drive: float) -> None:
        """The brake follows what the foot does to it as a damped mass on a spring does."""
        habit = self._habit
        stiffness = habit.frequency**2
        damped = 2 * habit.damping * habit.frequency * self._pull_speed
        self._pull_speed += (stiffness * (drive - self._pull) - damped) * DT
        self._pull += self._pull_speed * DT

    def _hold(self) -> float:
        habit, noise = self._habit, self._noise
        self._crept += self._creep * DT
        short = self._aim * (1 + self._crept) - self._level
        self._level_speed += (short / habit.squeeze - 2 * self._level_speed) * DT / habit.squeeze
        self._level += self._level_speed * DT
        kick = next(noise) * math.sqrt(2 * DT / habit.wander_time)
        self._wander += kick - self._wander * DT / habit.wander_time
        self._pitch += next(noise) * DRIFT_OF_PITCH + (PITCH - self._pitch) * DT
        self._phase += math.tau * self._pitch * DT
        share = habit.wander * self._wander + habit.tremor * math.sin(self._phase)
        return self._level * (1 + share)


def _together(swells: tuple[Swell, ...], time: Values) -> Values:
    whole = np.zeros_like(time)
    for swell in swells:
        whole += swell.over(time)
    return whole


def _noise(rng: np.random.Generator) -> Iterator[float]:
    """Standard normal numbers without end."""
    while True:
        yield from rng.standard_normal(_BLOCK).tolist()
