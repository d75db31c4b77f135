"""Virtual pedals of known bits, rate, jitter and noise, read through the whole course."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from drills.calibration import COUNTS, Range
from drills.health.course import LENGTH, Part, Step, course_of
from drills.health.pedal import BoundPedal, RawCounts
from drills.trace import SECOND, Pedal, Times, Values

READ = 0.001
"""Time between two reads, in s."""
TWO = (Pedal.BRAKE, Pedal.THROTTLE)
ENDS = Range(-0.875, 0.875)
"""Ends of the travel: within those of the axis, which would cut the noise off."""
TREMOR = (0.15, 9.0)
"""Amplitude in % and frequency in Hz of the tremor of the virtual leg."""


@dataclass(frozen=True)
class Virtual:
    """How a virtual pedal set works."""

    bits: int = 16
    rate: float = 1000.0
    noise: float = 0.0  # points of the travel, a standard deviation
    jitter: float = 0.0  # s, a standard deviation
    low: float = 0.0  # % of the pedal's way before the axis follows
    high: float = 0.0  # % of the pedal's way after its axis has ended
    sticks: float = 0.0  # % in which a sticking pedal goes on
    jumps: int = 0
    stall: float = 0.0  # s without a report, again and again
    every: float = 2.0  # s from one stall to the next
    tremor: tuple[float, float] = TREMOR
    let_go: float = 0.0  # s in which a held pedal is let go of; 0 is a leap that no foot makes
    seed: int = 1


@dataclass(frozen=True)
class Known:
    """What was read of a virtual set, and what it really did."""

    raw: RawCounts
    reported: Values
    """Times of the reports of the brake, in s."""
    error: Values
    """Noise that each of these reports really had, in counts, the converter's included."""


def foot(
    parts: Sequence[Part],
    pedal: Pedal,
    at: Values,
    tremor: tuple[float, float],
    let_go: float = 0.0,
) -> Values:
    """Way of a pedal in % at times in s: an even press, a hold at half, three stabs a second.

    Between the hold and the stabs it is let go of over `let_go` s.
    """
    way = np.zeros(at.size)
    for part in parts:
        inside = (at >= part.begins) & (at < part.ends)
        along = at[inside] - part.begins
        if part.pedal is not pedal:
            continue
        if part.step is Step.PRESS:
            way[inside] = 100 * along / part.lasts
        elif part.step is Step.HOLD:
            settled = np.clip(along / 0.5, 0, 1)
            shake = tremor[0] * np.sin(2 * np.pi * tremor[1] * along)
            way[inside] = 100 + (52 - 100) * settled + shake * (settled == 1)
        elif part.step is Step.STABS:
            beat = (along % (1 / 3)) * 3
            way[inside] = 98 * np.sin(np.pi * np.clip(beat / 0.6, 0, 1)) ** 2
            if let_go:
                way[inside] = np.maximum(way[inside], 52 * np.clip(1 - along / let_go, 0, 1))
    return way


def read(virtual: Virtual, pedals: Sequence[Pedal] = TWO, ends: Range = ENDS) -> Known:
    """Read a virtual set every millisecond over the whole course."""
    rng = np.random.default_rng(virtual.seed)
    parts = course_of(pedals)
    wanted = np.arange(0, LENGTH, 1 / virtual.rate)
    shaken = wanted + 0.0003 + virtual.jitter * rng.standard_normal(wanted.size)
    reported = np.maximum.accumulate(np.maximum(shaken, 0.0))
    if virtual.stall:
        reported = reported[(reported + virtual.every / 2) % virtual.every >= virtual.stall]
    reads = np.arange(round(LENGTH / READ), dtype=np.int64) * round(READ * SECOND)
    rows: list[Times] = []
    errors: list[Values] = []
    for pedal in pedals:
        way = foot(parts, pedal, reported, virtual.tremor, virtual.let_go)
        if virtual.sticks:
            way = virtual.sticks * np.floor(way / virtual.sticks)
        way = np.clip((way - virtual.low) / (100 - virtual.low - virtual.high), 0, 1)
        exact = (ends.rest + (ends.full - ends.rest) * way) * COUNTS
        span = abs(ends.full - ends.rest) * COUNTS
        noisy = exact + span * virtual.noise / 100 * rng.standard_normal(exact.size)
        if virtual.low or virtual.high:
            noisy = np.where((way <= 0) | (way >= 1), exact, noisy)
        step = 2 * COUNTS / 2**virtual.bits
        codes = np.floor((noisy + COUNTS) / step)
        counts = np.clip(codes * step - COUNTS, -COUNTS, COUNTS - 1).astype(np.int64)
        errors.append(counts - exact)
        newest = np.searchsorted(reported, reads / SECOND, side="right") - 1
        seen = counts[np.maximum(newest, 0)]
        for number in range(virtual.jumps):
            at = 500 + 400 * number
            seen[at : at + 3] = COUNTS - 1
        rows.append(seen)
    bound = tuple(BoundPedal(pedal, "Virtual", place, ends) for place, pedal in enumerate(pedals))
    return Known(RawCounts(bound, reads, np.array(rows)), reported, errors[0])
