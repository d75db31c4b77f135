"""A simulated foot with one fault in a share of its blips, for the bench of the diagnosis.

It has the skill of a simulated foot, and no slip beside its fault. The sizes of the faults are
those that a person would see in the picture of a repetition.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

import numpy as np

from drills.answer import Answer, Swell, plain_answer
from drills.fault import Fault
from drills.foot import ANSWERS, SimulatedFoot

Between = Callable[[float, float], float]
"""Draws a number between two others."""


class FaultyFoot(SimulatedFoot):
    """A simulated foot with one fault in a share of its blips, and good ones between."""

    def __init__(self, skill: float, seed: int, fault: Fault | None, share: float = 1.0) -> None:
        super().__init__(skill, seed)
        self._fault = fault
        self._share = share

    def _drawn(self, *, plain: bool = False) -> Answer:
        self._answered += 1
        rng = np.random.default_rng((self._seed, ANSWERS, self._answered))
        answer = plain_answer(self._intended, rng)
        if self._fault is None or rng.random() >= self._share:
            return answer

        def between(low: float, high: float) -> float:
            return low + (high - low) * float(rng.random())

        return SPOILED[self._fault](answer, between)


def _pushed(answer: Answer, at: float, length: float, height: float) -> Answer:
    return replace(answer, pushes=(Swell(at, length, height),))


def _early(answer: Answer, between: Between) -> Answer:
    lead = between(0.15, 0.30)
    return _pushed(answer, -lead, lead + 0.15, -between(8, 20))


def _braced(answer: Answer, between: Between) -> Answer:
    pushed = _pushed(answer, -0.22, 0.2, between(8, 18))
    return replace(pushed, gain=answer.gain + between(0.0, 0.15))


def _dipped(answer: Answer, between: Between) -> Answer:
    return replace(answer, gain=between(10, 22) / max(answer.pulses[0].height, 30.0))


def _came_over(answer: Answer, between: Between) -> Answer:
    return _pushed(answer, answer.pulses[0].end - 0.05, between(0.25, 0.4), between(10, 22))


def _big(answer: Answer, between: Between) -> Answer:
    [pulse] = answer.pulses
    return replace(answer, pulses=(replace(pulse, height=between(90, 100)),))


def _slow(answer: Answer, between: Between) -> Answer:
    [pulse] = answer.pulses
    return replace(answer, pulses=(replace(pulse, length=between(0.75, 1.3)),))


def _lost(answer: Answer, between: Between) -> Answer:
    side = -1 if between(0, 1) < 0.7 else 1
    return replace(answer, creep=side * between(0.06, 0.14))


SPOILED: Mapping[Fault, Callable[[Answer, Between], Answer]] = {
    Fault.EARLY_ROLL: _early,
    Fault.BRACING: _braced,
    Fault.DIP: _dipped,
    Fault.OVERSHOOT: _came_over,
    Fault.LIGHT: lambda answer, between: replace(answer, stays=-between(6, 14)),
    Fault.HEAVY: lambda answer, between: replace(answer, stays=between(6, 14)),
    Fault.BIG: _big,
    Fault.SLOW: _slow,
    Fault.LOST: _lost,
}
"""What a fault makes of a good answer to a cue."""
