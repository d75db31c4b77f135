"""Repetitions of the feet in faulty_feet.py as traces of pedals, judged as the program does."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy import signal

from drills.braking_zone import Line
from drills.judging import judge_repetition
from drills.level import Level
from drills.measures.blip import OFF
from drills.measures.device import DeviceHistory
from drills.repetition import SETTLING_IN
from drills.score import Verdict
from drills.task import Performance, Signal, Task
from drills.trace import SECOND, Pedal, Times, Trace, Values, nanoseconds
from tests.bench.faulty_feet import Blip, Bump, FaultyFoot, Motion

REPORT = 0.004
"""Time between two reports of the pedals, in s."""
STEPS = 4095
"""Steps of the pedals' converter over their travel: 12 bits."""
STEP_COUNTS = 8
"""Axis counts in a step of the converter."""
TREMBLE = 0.02
"""Least amplitude of the tremor of a foot on any pedal, in %."""
SWAY = 0.5
"""Frequency about which the brake wanders slowly, in Hz."""
FADES = 0.8
"""Time in which the slow wander forgets itself, in s."""
LEG = 0.15
"""How far a foot is behind the line of a braking zone, in s."""
SQUEEZES = 0.25
"""Time that a foot takes from rest to the peak of a zone, in s."""
TRAVEL = 0.08
"""Time that the clutch takes from rest to the floor, in s."""


@dataclass(frozen=True)
class Played:
    """One repetition of a foot, judged."""

    task: Task
    """What was asked."""
    motion: Motion
    """What the foot did."""
    verdict: Verdict
    """What the program says of it."""


class Player:
    """Plays repetitions of any level with blips, one after another, on one set of pedals."""

    def __init__(self, foot: FaultyFoot) -> None:
        self.foot = foot
        self.rng = np.random.default_rng((foot.seed, 1))
        self._pedals = DeviceHistory()

    def play(self, level: Level, number: int) -> Played:
        """The repetition with this number in its set, from 1."""
        task = level.kind.task(level, level.targets.at(number, self.rng), self.rng)
        motion = self.foot.motion(level, len(task.acts) or 1, self.rng)
        done = perform(task, motion, self.foot, self.rng)
        judged, self._pedals = judge_repetition(
            level, task, done, done.began + SETTLING_IN, self._pedals
        )
        return Played(task, motion, judged.verdict)


def perform(task: Task, motion: Motion, foot: FaultyFoot, rng: np.random.Generator) -> Performance:
    """Pedals in one repetition with blips."""
    first = task.steady + task.wait
    cues = [first + cue for cue in task.cues]
    onsets = [cues[act] + _waits(task, blip, rng) for act, blip in _answers(task, motion)]
    ends = onsets[-1] + 3 * motion.blips[-1].width + motion.blips[-1].stays + 0.1
    eases = task.falls > 0
    goes = first + 0.3 + float(rng.uniform(0.0, 0.15))
    until = max(ends, cues[-1] + 2 * LEG, goes + task.falls if eases else 0.0) + task.tail
    time = np.arange(0.0, until, REPORT)
    throttle, pulled = np.zeros_like(time), np.zeros_like(time)
    for blip, onset in zip(motion.blips, onsets, strict=True):
        pulse = throttle_pulse(time - onset, blip, foot.seed % 2 == 0)
        throttle += pulse
        pulled += follow(pulse, blip.dip)
        pulled += sum((bump_at(bump, time - onset) for bump in blip.bumps), np.zeros_like(time))
    drift = motion.drift * np.clip((time - task.steady) / max(task.wait, 0.1), 0, 1)
    held = np.full_like(time, task.target)
    if eases:
        held *= np.clip(1 - (time - goes) / task.falls, 0, 1)
    if task.line:
        held = follow_line(task.line, time - cues[task.signals.index(Signal.FALL)])
    brake = held + (drift + pulled) * (held > 0) + unrest(foot, held, time, rng)
    clutch = None
    if any(move.pedal is Pedal.CLUTCH for move in task.moves):
        down, up = onsets[0] - 0.10 - TRAVEL, _over(throttle, time) + 0.12
        clutch = 100 * (np.clip((time - down) / TRAVEL, 0, 1) - np.clip((time - up) / TRAVEL, 0, 1))
    trace = reported(time, brake, throttle, clutch)
    given = tuple(_at_report(cue) for cue in cues)
    return Performance(trace, _at_report(task.steady), given)


def reported(time: Values, brake: Values, throttle: Values, clutch: Values | None = None) -> Trace:
    """Trace of pedals as the device reports them: in whole steps, none beyond its ends."""
    columns = [brake, throttle] if clutch is None else [brake, throttle, clutch]
    steps = [np.rint(np.clip(one, 0, 100) / 100 * STEPS).astype(np.int64) for one in columns]
    percent: list[Values] = [np.asarray(one * (100.0 / STEPS), dtype=np.float64) for one in steps]
    return Trace(
        np.array([nanoseconds(moment) for moment in time.tolist()], dtype=np.int64),
        percent[0],
        percent[1],
        percent[2] if len(percent) > 2 else None,
        _counts(steps),
    )


def throttle_pulse(time: Values, blip: Blip, is_round: bool) -> Values:
    """Throttle in % at times in s from its onset: a raised cosine, or the shape of a gamma."""
    # Of the third power, a gamma shape is 1.42 times as wide at half its height as its peak is late
    top = blip.width if is_round else blip.width / 1.42
    moving = np.where(time < top, time, np.maximum(time - blip.stays, top))
    if is_round:
        return np.asarray(blip.peak * 0.5 * (1 - np.cos(np.pi * np.clip(moving / top, 0, 2))))
    share = np.maximum(moving, 0.0) / top
    return np.asarray(blip.peak * share**3 * np.exp(3 * (1 - share)))


def follow(throttle: Values, depth: float) -> Values:
    """Brake in points that a throttle pulls along, `depth` deep, a little later than the throttle.

    It comes back a little over, by an eighth of its depth.
    """
    lags = np.arange(0.0, 0.4, REPORT)
    soon, later = lags * np.exp(-lags / 0.03), lags**3 * np.exp(-lags / 0.05)
    pulled = np.convolve(throttle, soon)[: throttle.size]
    over = np.convolve(throttle, later)[: throttle.size]
    both = -pulled / pulled.max() + 0.125 * over / over.max()
    return np.asarray(depth * both / max(-float(both.min()), 1e-9))


def follow_line(line: Line, since: Values) -> Values:
    """Brake in % of a foot that squeezes at the braking point and follows a line LEG behind it.

    `since` is the time from the braking point in s.
    """
    times, brakes = zip(*line, strict=True)
    return np.asarray(_smooth(since / SQUEEZES) * np.interp(since - LEG, times, brakes))


def bump_at(bump: Bump, time: Values) -> Values:
    """A bump in points, at times in s from the onset of the throttle."""
    up = _smooth((time - bump.begins) / bump.rises)
    if np.isinf(bump.falls):
        return bump.height * up
    down = _smooth((time - bump.begins - bump.rises - bump.stays) / bump.falls)
    return bump.height * (up - down)


def unrest(foot: FaultyFoot, held: Values, time: Values, rng: np.random.Generator) -> Values:
    """Slow wander and tremor of a held brake in points; both grow with what is held, in %.

    The wander is an autoregressive process of the second order with complex poles.
    """
    radius, angle = float(np.exp(-REPORT / FADES)), 2 * np.pi * SWAY * REPORT
    first, second = 2 * radius * float(np.cos(angle)), -(radius**2)
    warm = int(5 * FADES / REPORT)
    shocks = rng.standard_normal(time.size + warm)
    wander = np.asarray(signal.lfilter([1.0], [1.0, -first, -second], shocks))[warm:]
    usual = (1 - second) / ((1 + second) * ((1 - second) ** 2 - first**2))
    pitch = rng.uniform(8.5, 10.5) + 0.3 * np.cos(2 * np.pi * 0.7 * time)
    phase = 2 * np.pi * np.cumsum(pitch) * REPORT + rng.uniform(0, 6)
    tremor = np.maximum(foot.tremor * held, TREMBLE * (held > 0)) * np.sin(phase)
    return np.asarray(foot.wander * held * wander / np.sqrt(usual) + tremor)


def _answers(task: Task, motion: Motion) -> Sequence[tuple[int, Blip]]:
    """Each blip with the index of the cue that it answers."""
    return list(zip(task.acts or (0,), motion.blips, strict=True))


def _waits(task: Task, blip: Blip, rng: np.random.Generator) -> float:
    """Time from its cue to the onset of a blip, in s: on a beat that was counted in, about none."""
    if Signal.COUNT in task.signals:
        return float(rng.normal(0.02, 0.02))
    is_shift = any(move.pedal is Pedal.CLUTCH for move in task.moves)
    return blip.waits + (0.10 + TRAVEL if is_shift else 0.0)


def _over(throttle: Values, time: Values) -> float:
    """Time at which the throttle is off for good, in s."""
    return float(time[np.flatnonzero(throttle >= OFF)[-1]])


def _smooth(share: Values) -> Values:
    """Smooth step from 0 to 1."""
    clipped = np.clip(share, 0, 1)
    return np.asarray(clipped**2 * (3 - 2 * clipped))


def _at_report(moment: float) -> int:
    return round(round(moment / REPORT) * REPORT * SECOND)


def _counts(steps: Sequence[Times]) -> Times:
    return np.array(steps, dtype=np.int64) * STEP_COUNTS
