"""Answers of the simulated foot: the blip of a repetition, and what goes wrong with it.

At most one thing goes wrong at a time. How often each does is chosen so that a beginner slips in
three of ten repetitions and an expert in three of a hundred, and so that a few hundred show all.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from enum import StrEnum

import numpy as np

from drills.habit import Habit
from drills.trace import Values


class Slip(StrEnum):
    """What goes wrong in a repetition of the simulated foot."""

    ROLLED_EARLY = "gave brake before the throttle moved"
    BRACED = "pushed before the blip"
    PUSHED = "pushed the brake with the throttle"
    CAME_BACK_OVER = "overshot as it came back"
    STAYED_LIGHT = "did not come all the way back"
    STAYED_HEAVY = "came to rest heavier"
    CAME_OFF = "came off the brake in the blip"
    EARLY = "blipped before the cue"
    LATE = "blipped late"
    TWICE = "blipped twice"
    NOT_AT_ALL = "did not blip"
    SMALL = "blipped too lightly"
    BIG = "blipped too far"
    LONG = "stayed on the throttle"
    LET_GO_AFTER = "let the brake go after the blip"
    LET_GO_BEFORE = "let the brake go in the dark"


BEGINNER: Mapping[Slip, float] = {
    Slip.ROLLED_EARLY: 0.040,
    Slip.BRACED: 0.025,
    Slip.PUSHED: 0.030,
    Slip.CAME_BACK_OVER: 0.030,
    Slip.STAYED_LIGHT: 0.030,
    Slip.STAYED_HEAVY: 0.010,
    Slip.CAME_OFF: 0.015,
    Slip.EARLY: 0.025,
    Slip.LATE: 0.020,
    Slip.TWICE: 0.015,
    Slip.NOT_AT_ALL: 0.010,
    Slip.SMALL: 0.020,
    Slip.BIG: 0.010,
    Slip.LONG: 0.015,
    Slip.LET_GO_AFTER: 0.010,
    Slip.LET_GO_BEFORE: 0.010,
}
"""Share of a simulated beginner's repetitions that each slip spoils."""
EXPERT = 0.1
"""Share of a beginner's slips that a simulated expert still makes."""
SOONEST = 0.12
"""Shortest reaction of the simulated foot, in s; under 0.100 s is a guess (World Athletics
Technical Rules 16.6)."""
PEAK_LEAST = 25.0
"""Least throttle peak of a blip that the simulated foot intends, in %."""


def rate(slip: Slip, skill: float) -> float:
    """Share of the repetitions that a slip spoils, for a foot of `skill` 0 to 1."""
    return float(BEGINNER[slip] * EXPERT**skill)


@dataclass(frozen=True)
class Swell:
    """A half-sine movement of the simulated foot: a throttle pulse, or a push on the brake."""

    at: float
    """Time at which the pulse or push begins, in s from the onset of the throttle."""
    length: float
    """Duration of the pulse or push, in s."""
    height: float
    """Peak of the pulse or push, in %; negative where brake is given up."""

    @property
    def end(self) -> float:
        """Time at which the pulse or push ends, in s from the onset of the throttle."""
        return self.at + self.length

    def over(self, time: Values) -> Values:
        """Values of the pulse or push in %, at times in s from the onset of the throttle."""
        share = np.clip((time - self.at) / self.length, 0.0, 1.0)
        return self.height * np.sin(math.pi * share)


@dataclass(frozen=True)
class Answer:
    """What the simulated foot will do in one repetition."""

    slip: Slip | None
    """What goes wrong in the repetition; None where nothing does."""
    creep: float
    """Creep of the brake in the dark, in 1/s: its change as a share of what is held."""
    reaction: float
    """Time from a cue to the onset of the throttle, in s."""
    gain: float
    """Brake lost for throttle given (a ratio); negative where the brake is pushed along."""
    pulses: tuple[Swell, ...]
    """Throttle pulses that answer the cue; empty where it goes unanswered."""
    pushes: tuple[Swell, ...] = ()
    """Pushes of the foot on the brake, beside what the throttle pulls along."""
    stays: float = 0.0
    """Offset of the brake that remains after the blip, in points."""
    guess: float | None = None
    """Time in the dark until the foot blips, cue or none, in s; None: it waits for the cue."""
    lets_go: float | None = None
    """Time in the dark until the brake is let go, in s; None: it is held."""
    lets_go_after: float | None = None
    """Time from the throttle onset until the brake is let go, in s; None: it is held."""


@dataclass(frozen=True)
class BlipMotion:
    """A blip of the simulated foot, as values for each step of its model."""

    begins: int
    """Step of the model at which the values of the blip begin."""
    onset: int
    """Step of the model at which the throttle begins to move."""
    throttles: list[float]
    """Throttle in %, one value for each step of the model."""
    drives: list[float]
    """Push or pull on the held brake in points, one value for each step of the model."""
    stays: float
    """Offset of the brake that remains after the blip, in points."""

    @property
    def peak(self) -> int:
        """Step of the model at which the throttle is greatest."""
        return self.begins + self.throttles.index(max(self.throttles))

    @property
    def size(self) -> int:
        """Number of steps of the model that the blip takes."""
        return len(self.drives)

    def is_over(self, step: int) -> bool:
        """Whether a step of the model is the last one of the blip, or later."""
        return step - self.begins >= len(self.drives) - 1


def lay_out(answer: Answer, delay: float, now: int, onset: int, dt: float) -> BlipMotion:
    """Motion of an answer with pulses, from step `now` of the model to its end, `dt` s a step."""
    end = max(swell.end for swell in answer.pulses + answer.pushes)
    until = onset + math.ceil((end + delay) / dt)
    time = np.arange(now - onset, until - onset, dtype=np.float64) * dt
    pulled = _together(answer.pulses, time - delay)
    left = np.where(time >= answer.pulses[0].length / 2, answer.stays, 0.0)
    drive = -answer.gain * pulled + _together(answer.pushes, time) + left
    throttle = _together(answer.pulses, time)
    return BlipMotion(now, onset, throttle.tolist(), drive.tolist(), answer.stays)


def _together(swells: tuple[Swell, ...], time: Values) -> Values:
    whole = np.zeros_like(time)
    for swell in swells:
        whole += swell.over(time)
    return whole


def draw(habit: Habit, rng: np.random.Generator) -> Answer:
    """Random answer of the simulated foot, perhaps with a slip; a foot of any skill takes as many
    numbers from `rng`."""
    return _drawn(habit, rng, _slip(habit.skill, rng.random()))


def plain_answer(habit: Habit, rng: np.random.Generator) -> Answer:
    """A random answer of the simulated foot without a slip."""
    return _drawn(habit, rng, None)


def _drawn(habit: Habit, rng: np.random.Generator, slip: Slip | None) -> Answer:
    normal = rng.standard_normal(5).tolist()
    size, when, more = rng.random(3).tolist()
    peak = min(max(habit.peak + habit.peak_spread * normal[0], PEAK_LEAST), 100.0)
    length = habit.length * math.exp(habit.length_spread * normal[1])
    plain = Answer(
        slip=None,
        # Force eases off more often than it grows once it is not seen (from memory).
        creep=habit.creep * (normal[2] - 0.5),
        reaction=max(habit.reaction * math.exp(habit.reaction_spread * normal[3]), SOONEST),
        gain=habit.gain * max(1 + habit.gain_spread * normal[4], 0.1),
        pulses=(Swell(0.0, length, peak),),
    )
    return plain if slip is None else _spoiled(plain, slip, size, when, more)


def _slip(skill: float, chance: float) -> Slip | None:
    for slip in Slip:
        chance -= rate(slip, skill)
        if chance < 0:
            return slip
    return None


def _spoiled(plain: Answer, slip: Slip, size: float, when: float, more: float) -> Answer:
    """The answer `plain` with a slip, its size and time set by three random numbers from 0 to 1.

    The sizes are chosen so that a person would see them in the picture of a repetition, and the
    times so that they fall into the dark of one (common practice).
    """
    [pulse] = plain.pulses

    def between(low: float, high: float, chance: float = size) -> float:
        return low + (high - low) * chance

    def with_pulse(**changes: float) -> Answer:
        return replace(spoiled, pulses=(replace(pulse, **changes),))

    def with_push(at: float, length: float, height: float) -> Answer:
        return replace(spoiled, pushes=(Swell(at, length, height),))

    spoiled = replace(plain, slip=slip)
    match slip:
        case Slip.ROLLED_EARLY:
            lead = between(0.02, 0.15, when)
            return with_push(-lead, lead + 0.10, -between(8, 25))
        case Slip.BRACED:
            return with_push(-between(0.14, 0.20, when), 0.18, between(12, 30))
        case Slip.PUSHED:
            return replace(spoiled, gain=-between(0.20, 0.45))
        case Slip.CAME_BACK_OVER:
            return with_push(pulse.length - 0.05, between(0.25, 0.40, when), between(12, 32))
        case Slip.STAYED_LIGHT:
            return replace(spoiled, stays=-between(6, 18))
        case Slip.STAYED_HEAVY:
            return replace(spoiled, stays=between(6, 15))
        case Slip.CAME_OFF:
            return with_push(-0.03, pulse.length * between(0.6, 1.1), -90.0)
        case Slip.EARLY:
            return replace(spoiled, guess=between(0.4, 1.6, when))
        case Slip.LATE:
            return replace(spoiled, reaction=plain.reaction + between(0.45, 1.15, when))
        case Slip.TWICE:
            second = Swell(pulse.end + between(0.08, 0.40, when), pulse.length, pulse.height)
            return replace(spoiled, pulses=(pulse, replace(second, height=second.height * 0.7)))
        case Slip.NOT_AT_ALL:
            return replace(spoiled, pulses=())
        case Slip.SMALL:
            return with_pulse(height=between(7, 24))
        case Slip.BIG:
            return with_pulse(height=between(92, 100))
        case Slip.LONG:
            return with_pulse(length=between(0.7, 1.3, more))
        case Slip.LET_GO_AFTER:
            return replace(spoiled, lets_go_after=pulse.end + between(0.05, 0.60, when))
        case Slip.LET_GO_BEFORE:
            return replace(spoiled, lets_go=between(0.3, 1.5, when))
