"""What the blips of a run did to the brake, against what was held before the run."""

from __future__ import annotations

from dataclasses import dataclass, fields
from enum import StrEnum

import numpy as np

from drills.measures.blip import (
    BEFORE_TO,
    Candidate,
    Pulse,
    measure_blip,
    resting_throttle,
    resting_window,
)
from drills.measures.coupling import couple
from drills.measures.distance import Stop, extra_distance
from drills.trace import Grid, Values

BAND = 5.0
"""Half-width of the band that a brake settles in, in %, unless a level says otherwise."""
AFTER = 1000
"""Length of a window after the pulse, in grid points: 1.0 s."""
RELEASED = 5.0
"""Brake in % under which it is released after the pulse."""
STAY_LEAST = 250
"""Shortest stay in the band of a settled brake, in grid points: 0.25 s."""
REST = 200
"""Grid points at the end of a window that tell where the brake came to rest: 0.2 s."""
BASE_LEAST = 100
"""Least held brake that a base is averaged over, in grid points: 0.1 s."""


class Unscored(StrEnum):
    """Why a run has no measures."""

    NO_BASE = "less than 0.1 s of held brake before the first blip"
    NO_BRAKE = "the brake was not on before the first blip"
    NO_REST = "the throttle was not at rest before the first blip"


@dataclass(frozen=True)
class Disturbance:
    """What one blip did to the brake, against what was held before the run."""

    dip: float
    """%, base - least brake, at least 0."""
    dip_at: float
    """s, time of the first minimum minus onset."""
    rebound: float
    """%, greatest brake from the minimum on - base, at least 0."""
    surge: float
    """%, greatest brake - base, at least 0."""
    surge_at: float
    """s, first maximum minus onset."""
    offset: float
    """%, mean brake over the last 0.2 s of the window - base."""
    swing: float
    """%, greatest - least brake."""
    settle: float | None
    """s from onset until the brake stays in the band; 0 if it never left; None if it never did."""
    shortfall: float
    """%·s, integral of brake under base."""
    excess: float
    """%·s, integral of brake over base."""
    coupling: float | None
    """1, gain of brake on throttle at `lag`; negative when throttle pulls the foot off."""
    lag: float | None
    """s the brake follows the throttle by; both None where brake or throttle never moved."""
    extra_distance: float
    """m, what it would cost on the road."""


@dataclass(frozen=True)
class Run:
    """The blips of one repetition, or of one downshift sequence in a recording."""

    base: float
    """%, mean brake held before the run."""
    dip: float
    """%, worst of the blips."""
    rebound: float
    """%, worst of the blips."""
    surge: float
    """%, worst of the blips."""
    offset: float
    """%, of the last blip."""
    swing: float
    """%, greatest - least brake from the first window's start to the last one's stop."""
    settle: float | None
    """s, of the last blip: the next one cuts the others short."""
    shortfall: float
    """%·s, sum over the blips."""
    excess: float
    """%·s, sum over the blips."""
    extra_distance: float
    """m, sum over the blips."""
    mean_dip: float
    """%, mean over the blips."""
    blips: tuple[tuple[Pulse, Disturbance], ...]
    """Each pulse and what it did, in order."""
    stop: float
    """s, on the time axis of the trace, where the window of the last blip ended."""


OF_A_RUN = tuple(field.name for field in fields(Run) if field.name not in ("blips", "stop"))
"""Names of the measures of a whole run."""


def pulses_of(grid: Grid, blips: list[Candidate]) -> list[Pulse] | Unscored:
    """The pulses of one run, in order; the reason where they cannot be measured from its rest."""
    if blips[0].start <= BEFORE_TO:
        return Unscored.NO_BASE
    rest = resting_throttle(grid, blips[0])
    if any(grid.throttle[blip.top] <= rest for blip in blips):
        return Unscored.NO_REST
    return _distinct([measure_blip(grid, blip, rest) for blip in blips])


def measure_run(
    grid: Grid,
    blips: list[Candidate],
    band: float = BAND,
    stop: Stop | None = None,
    until: int | None = None,
) -> Run | Unscored:
    """Measure the blips of one run; `band` is in %.

    `until` is the grid index where the windows of this run end at the latest: 0.1 s before the
    onset of a next run. The release that ends a window is the first grid point past the end of
    the pulse with under 5 % brake, also where the blip itself took the foot off: what comes after
    is another braking. Returns the reason where the run cannot be scored.
    """
    road = stop or Stop()
    pulses = pulses_of(grid, blips)
    if isinstance(pulses, Unscored):
        return pulses
    rest = resting_throttle(grid, blips[0])
    held = grid.brake[resting_window(pulses[0].first)]
    if held.size < BASE_LEAST:
        return Unscored.NO_BASE
    base = float(held.mean())
    if base <= 0:
        return Unscored.NO_BRAKE
    windows = _windows(grid, pulses, len(grid) if until is None else until)
    speed = road.v0
    measured = []
    for pulse, window in zip(pulses, windows, strict=True):
        cost = extra_distance(grid.brake[window], base, speed, road)
        speed = cost.speed
        done = _disturbance(grid, pulse, window, base, rest, band, cost.distance)
        measured.append((pulse, done))
    whole = grid.brake[windows[0].start : windows[-1].stop]
    parts = [disturbance for _, disturbance in measured]
    return Run(
        base=base,
        dip=max(part.dip for part in parts),
        rebound=max(part.rebound for part in parts),
        surge=max(part.surge for part in parts),
        swing=float(whole.max() - whole.min()),
        settle=parts[-1].settle,
        offset=parts[-1].offset,
        shortfall=sum(part.shortfall for part in parts),
        excess=sum(part.excess for part in parts),
        extra_distance=sum(part.extra_distance for part in parts),
        mean_dip=sum(part.dip for part in parts) / len(parts),
        blips=tuple(measured),
        stop=grid.seconds(windows[-1].stop),
    )


def _distinct(pulses: list[Pulse]) -> list[Pulse]:
    """Pulses with an onset of their own; of two with the same onset the higher one."""
    distinct: list[Pulse] = []
    for pulse in pulses:
        if not distinct or pulse.first > distinct[-1].first:
            distinct.append(pulse)
        elif pulse.peak > distinct[-1].peak:
            distinct[-1] = pulse
    return distinct


def _windows(grid: Grid, pulses: list[Pulse], until: int) -> list[slice]:
    windows = []
    for number, pulse in enumerate(pulses):
        stop = min(pulse.after + AFTER, until)
        if number + 1 < len(pulses):
            stop = min(stop, pulses[number + 1].first - BEFORE_TO)
        released = np.flatnonzero(grid.brake[pulse.after + 1 : stop] < RELEASED)
        if released.size:
            stop = pulse.after + 1 + int(released[0])
        windows.append(slice(max(pulse.first - BEFORE_TO, 0), stop))
    return windows


def _disturbance(
    grid: Grid, pulse: Pulse, window: slice, base: float, rest: float, band: float, metres: float
) -> Disturbance:
    brake = grid.brake[window]
    change = brake - base
    least = int(np.argmin(brake))
    coupling, lag = couple(change, grid.throttle, rest, window.start)
    return Disturbance(
        dip=max(0.0, -float(change[least])),
        dip_at=(window.start + least - pulse.first) / 1000,
        rebound=max(0.0, float(change[least:].max())),
        surge=max(0.0, float(change.max())),
        surge_at=(window.start + int(np.argmax(brake)) - pulse.first) / 1000,
        offset=float(change[-REST:].mean()),
        swing=float(brake.max() - brake.min()),
        settle=_settle(change[pulse.first - window.start :], band),
        shortfall=float(np.sum(np.maximum(-change, 0.0))) / 1000,
        excess=float(np.sum(np.maximum(change, 0.0))) / 1000,
        coupling=coupling,
        lag=lag,
        extra_distance=metres,
    )


def _settle(change: Values, band: float) -> float | None:
    outside = np.flatnonzero(np.abs(change) > band)
    if outside.size == 0:
        return 0.0
    stays = np.diff(outside, append=change.size) > STAY_LEAST
    return (int(outside[stays][0]) + 1) / 1000 if stays.any() else None
