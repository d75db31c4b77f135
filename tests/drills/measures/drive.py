"""A made-up hill climb: braking zones whose blips dip by known amounts as the brake eases off."""

from dataclasses import dataclass

import numpy as np

from drills.trace import SECOND, Trace
from tests.drills.shapes import Values

FINE = 1000  # samples a second the drive is made of
MARGIN = 0.1
"""s, room left at both sides where only a part of a drive is looked at, against rounding."""


def part_of(time: Values, first: float, last: float) -> slice:
    """Part of a drive that holds all samples from one time to another (s)."""
    begins, ends = np.searchsorted(time, (first - MARGIN, last + MARGIN))
    return slice(int(begins), int(ends))


@dataclass(frozen=True)
class Drive:
    """A drive and what is true of it."""

    trace: Trace
    """What the pedals reported."""
    onsets: Values
    """s, when each blip began, shape (n,)."""
    dips: Values
    """points, what each took off the brake, shape (n,)."""


@dataclass(frozen=True)
class Blips:
    """How the blips of a drive come."""

    lengths: tuple[float, float] = (0.16, 0.28)
    """s, shortest and longest throttle pulse."""
    apart: tuple[float, float] = (0.55, 1.1)
    """s, least and greatest time from one blip of a run to the next."""


CLOSE = Blips(lengths=(0.12, 0.2), apart=(0.3, 0.5))
"""Runs of a quick foot."""


def drive(
    seed: int, minutes: float, rate: int, noise: float = 0.4, blips: Blips | None = None
) -> Drive:
    """A drive, read `rate` times a second; `noise` is the spread of the foot in points."""
    rng = np.random.default_rng(seed)
    time = np.arange(round(minutes * 60 * FINE)) / FINE
    brake, throttle = np.zeros(time.size), np.full(time.size, 100.0)
    meant: list[tuple[float, float]] = []
    at = 4.0
    while at < time[-1] - 12:
        at = _zone(rng, time, at, brake, throttle, meant, blips or Blips()) + rng.uniform(2.0, 5.0)
    tremor = np.sin(2 * np.pi * 10 * time + rng.uniform(0, 6))
    wander = np.interp(time, time[::700], rng.normal(0, noise, time[::700].size))
    brake += np.where(brake > 1, wander + 0.2 * tremor, 0.0)
    sampled = slice(None, None, FINE // rate)
    trace = Trace(
        np.round(time[sampled] * SECOND).astype(np.int64),
        np.round(np.clip(brake, 0, 100)[sampled], 2),
        np.round(np.clip(throttle, 0, 100)[sampled], 2),
    )
    onsets, dips = np.array(meant).T
    return Drive(trace, onsets, dips)


def _zone(
    rng: np.random.Generator,
    time: Values,
    at: float,
    brake: Values,
    throttle: Values,
    meant: list[tuple[float, float]],
    come: Blips,
) -> float:
    """One braking zone from `at` s on; when the throttle comes back."""
    peak, hold, ease = rng.uniform(55, 95), rng.uniform(0.8, 1.8), rng.uniform(1.0, 3.0)
    squeeze, blips = rng.uniform(0.15, 0.3), int(rng.integers(1, 5))
    ends = at + squeeze + hold + ease
    corners = [at, at + squeeze, at + squeeze + hold, ends]
    part = part_of(time, at - 0.3, ends + 0.3)
    inside = (time[part] >= at - 0.3) & (time[part] < ends + 0.3)
    throttle[part][inside] = 0.0
    heights = [0, peak, peak * rng.uniform(0.85, 1.0), 0]
    brake[part][inside] = np.interp(time[part][inside], corners, heights)
    blip = at + squeeze + rng.uniform(0.25, 0.5)
    for _ in range(blips):
        length, depth = rng.uniform(*come.lengths), rng.uniform(3, 25)
        held = float(np.interp(blip, time, brake))
        if blip > ends - 0.9 or held < depth + 12:
            break
        _add(throttle, time, blip, length, rng.uniform(45, 90))
        _add(brake, time, blip + rng.uniform(0.0, 0.04), length * rng.uniform(0.9, 1.2), -depth)
        meant.append((blip, depth))
        blip += rng.uniform(*come.apart)
    return float(ends + 0.3)


def _add(pedal: Values, time: Values, start: float, length: float, height: float) -> None:
    part = part_of(time, start, start + length)
    share = (time[part] - start) / length
    inside = (share >= 0) & (share < 1)
    pedal[part][inside] += height * np.sin(np.pi * share[inside])
