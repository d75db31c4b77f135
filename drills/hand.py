"""A simulated hand on the shift button, which presses it about the peak of each blip of a foot.

Its random numbers are its own, so that a foot does the same with a hand and without one. How far
it is off is a choice: no published times of a hand with a blip are known.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from drills.answer import BlipMotion

HANDS = 5
"""Number of the random stream for the hand, apart from those of the foot."""
LAG = (0.10, 0.02)
"""Mean time from the blip's peak to the press, in s: of a beginner and of an expert."""
SPREAD = (0.10, 0.025)
"""Standard deviation of that time, in s: of a beginner and of an expert."""
FORGETS = (0.08, 0.005)
"""Share of the blips without a press: of a beginner and of an expert."""
HELD = 80
"""Steps of the model for which a press holds the button down: 0.08 s."""


class SimulatedHand:
    """A simulated hand on a shift button, stepped 1 ms at a time beside its foot."""

    def __init__(self, skill: float, seed: int) -> None:
        """`skill` is 0 (beginner) to 1 (expert)."""
        self._lag, self._spread, self._forgets = (
            start + skill * (end - start) for start, end in (LAG, SPREAD, FORGETS)
        )
        self._seed = seed
        self._drawn = 0
        self._seen = -1
        self._presses: list[int] = []

    def step(self, now: int, blips: Sequence[BlipMotion]) -> bool:
        """Whether the button is down at step `now` of the model, by the blips planned then."""
        for blip in blips:
            if blip.onset > self._seen:
                self._seen = blip.onset
                self._plan(now, blip.peak)
        self._presses = [press for press in self._presses if now < press + HELD]
        return any(press <= now for press in self._presses)

    def _plan(self, now: int, peak: int) -> None:
        """Plan the press that goes with a blip, whose peak is at a step of the model, or forget."""
        self._drawn += 1
        rng = np.random.default_rng((self._seed, HANDS, self._drawn))
        forgets, off = rng.random(), rng.standard_normal()
        if forgets >= self._forgets:
            late = self._lag + self._spread * off
            self._presses.append(max(peak + round(1000 * late), now + 1))
