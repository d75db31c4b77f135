"""What the blips of a run did to the brake, against the base: the brake held before the run."""

from __future__ import annotations

from dataclasses import dataclass, fields
from enum import StrEnum

import numpy as np

from drills.measures.base import BASE_LEAST, base_before
from drills.measures.blip import BEFORE_TO, Candidate, Pulse, measure_blip, resting_throttle
from drills.measures.coupling import couple
from drills.measures.distance import Stop, extra_distance
from drills.trace import Grid, Values

BAND = 5.0
"""Half-width of the band of a settled brake, in points, unless a level sets its own."""
AFTER = 1000
"""Length of a blip's window after its throttle pulse, in grid points: 1.0 s."""
RELEASED = 5.0
"""Brake in % under which it counts as let go after the throttle pulse."""
STAY_LEAST = 250
"""Shortest stay in the band of a brake that counts as settled, in grid points: 0.25 s."""
REST = 200
"""Grid points at the end of a blip's window that tell where the brake came to rest: 0.2 s."""
LEFT = 3.0
"""Depth under its base from which the brake counts as having left it, in points."""
LEAD_LEAST = 5.0
"""Least depth of a minimum for which it is told when the brake left, in points."""
LEAD_AFTER = 100
"""How long after its throttle pulse the minimum is looked for that tells when the brake left, in
grid points: 0.1 s."""
HALF = 50.0
"""Throttle peak in % that a dip is brought to, to compare it with the dips of other peaks."""


class Unscored(StrEnum):
    """Why a run of blips has no measures."""

    NO_BASE = "less than 0.1 s of held brake before the first blip"
    NO_BRAKE = "the brake was not on before the first blip"
    NO_REST = "the throttle was not at rest before the first blip"


@dataclass(frozen=True)
class Disturbance:
    """What one blip did to the brake, against its base: the brake held before the run."""

    dip: float
    """Greatest depth of the brake under its base, in points, at least 0."""
    dip_at: float
    """Time from the throttle onset to the first minimum of the brake, in s."""
    dip_at_50: float
    """Dip times 50 / peak of the throttle, in points: that of a blip of half throttle, as dips grow
    with the throttle; for comparing blips of unlike size only."""
    rebound: float
    """Greatest height of the brake over its base from its minimum on, in points, at least 0."""
    surge: float
    """Greatest height of the brake over its base, in points, at least 0."""
    surge_at: float
    """Time from the throttle onset to the first maximum of the brake, in s."""
    offset: float
    """Mean brake over the last 0.2 s of the blip's window minus its base, in points."""
    swing: float
    """Greatest minus least brake in the blip's window, in points."""
    settle: float | None
    """Time from the throttle onset until the brake stays in its band, in s; 0 if it never left;
    None if it never stayed."""
    shortfall: float
    """Brake missing under its base, integrated over the blip's window, in points·s."""
    excess: float
    """Brake over its base, integrated over the blip's window, in points·s."""
    coupling: float | None
    """Gain of the brake on the throttle `lag` s before (a ratio); negative: the throttle pulls the
    foot off; None as `lag` is."""
    lag: float | None
    """Delay of the brake behind the throttle, in s; None where either never moved."""
    extra_distance: float
    """Estimated extra braking distance that the dip would cost on the road, in m."""


@dataclass(frozen=True)
class Run:
    """The blips of one repetition, or of one downshift sequence in a recording, measured."""

    base: float
    """Mean brake held before the run, in %."""
    dip: float
    """Deepest dip under the base among the blips of the run, in points."""
    rebound: float
    """Greatest rebound over the base among the blips of the run, in points."""
    surge: float
    """Greatest surge over the base among the blips of the run, in points."""
    offset: float
    """Brake minus its base at the end of the last blip's window, in points."""
    swing: float
    """Greatest minus least brake from the first blip's window to the last one's, in points."""
    settle: float | None
    """Time from the last throttle onset until the brake stays in its band, in s; None: never."""
    shortfall: float
    """Brake missing under its base, integrated over time and summed over the blips, in points·s."""
    excess: float
    """Brake over its base, integrated over time and summed over the blips, in points·s."""
    extra_distance: float
    """Estimated extra braking distance on the road, summed over the blips, in m."""
    mean_dip: float
    """Mean dip under the base over the blips of the run, in points."""
    lead: float | None
    """How long before the first throttle onset the brake left its base, in s: the onset minus the
    first point after the last one at 3 points or less under the base before the minimum of the
    first window up to 0.1 s after the pulse; negative where the brake follows the throttle; None
    where that minimum is under 5 points deep. It reads 0.03 to 0.05 s short."""
    blips: tuple[tuple[Pulse, Disturbance], ...]
    """Each throttle pulse of the run and what it did to the brake, in order."""
    start: float
    """Start of the first blip's window, in s on the time axis of the trace."""
    stop: float
    """End of the last blip's window, in s on the time axis of the trace."""


OF_A_RUN = tuple(
    field.name for field in fields(Run) if field.name not in ("blips", "start", "stop")
)
"""Names of the measures of a whole run of blips."""


def pulses_of(grid: Grid, blips: list[Candidate]) -> list[Pulse] | Unscored:
    """Throttle pulses of one run, in order, or the reason why they cannot be measured."""
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
    base: slice | None = None,
) -> Run | Unscored:
    """Measures of the blips of one run, each against its base; `band` is in points.

    `until` is the grid index where the windows of this run end at the latest: 0.1 s before the
    onset of a next run. `base` holds the grid points before the cue or beat of the first blip over
    which the base is averaged; None where nothing asked for it. The first window begins where
    those end. The release that ends a window is the first grid point past the end of
    the pulse with under 5 % brake, also where the blip itself took the foot off: what comes after
    is another braking. Returns the reason where the run cannot be scored.
    """
    road = stop or Stop()
    pulses = pulses_of(grid, blips)
    if isinstance(pulses, Unscored):
        return pulses
    rest = resting_throttle(grid, blips[0])
    before = base_before(pulses[0].first, base)
    if grid.brake[before].size < BASE_LEAST:
        return Unscored.NO_BASE
    held = float(grid.brake[before].mean())
    if held <= 0:
        return Unscored.NO_BRAKE
    windows = _windows(grid, pulses, before.stop, len(grid) if until is None else until)
    speed = road.v0
    measured = []
    for pulse, window in zip(pulses, windows, strict=True):
        cost = extra_distance(grid.brake[window], held, speed, road)
        speed = cost.speed
        done = _disturbance(grid, pulse, window, held, rest, band, cost.distance)
        measured.append((pulse, done))
    whole = grid.brake[windows[0].start : windows[-1].stop]
    parts = [disturbance for _, disturbance in measured]
    return Run(
        base=held,
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
        lead=_lead(grid, pulses[0], windows[0], held),
        blips=tuple(measured),
        start=grid.seconds(windows[0].start),
        stop=grid.seconds(windows[-1].stop),
    )


def _distinct(pulses: list[Pulse]) -> list[Pulse]:
    """Throttle pulses with an onset of their own; of two with the same onset the higher one."""
    distinct: list[Pulse] = []
    for pulse in pulses:
        if not distinct or pulse.first > distinct[-1].first:
            distinct.append(pulse)
        elif pulse.peak > distinct[-1].peak:
            distinct[-1] = pulse
    return distinct


def _windows(grid: Grid, pulses: list[Pulse], begins: int, until: int) -> list[slice]:
    """Grid points over which each blip is measured; those of the first begin at `begins`.

    A window in which no point is left, as the next onset comes at once, has its last one.
    """
    windows = []
    for number, pulse in enumerate(pulses):
        stop = min(pulse.after + AFTER, until)
        if number + 1 < len(pulses):
            stop = min(stop, pulses[number + 1].first - BEFORE_TO)
        released = np.flatnonzero(grid.brake[pulse.after + 1 : stop] < RELEASED)
        if released.size:
            stop = pulse.after + 1 + int(released[0])
        start = pulse.first - BEFORE_TO if number else begins
        windows.append(slice(min(start, stop - 1), stop))
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
        dip_at_50=max(0.0, -float(change[least])) * HALF / pulse.peak,
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


def _lead(grid: Grid, pulse: Pulse, window: slice, base: float) -> float | None:
    change = grid.brake[window.start : min(window.stop, pulse.after + LEAD_AFTER)] - base
    least = int(np.argmin(change))
    if change[least] > -LEAD_LEAST:
        return None
    held = np.flatnonzero(change[:least] >= -LEFT)
    left: int = window.start + (int(held[-1]) + 1 if held.size else 0)
    return (pulse.first - left) / 1000


def _settle(change: Values, band: float) -> float | None:
    outside = np.flatnonzero(np.abs(change) > band)
    if outside.size == 0:
        return 0.0
    stays = np.diff(outside, append=change.size) > STAY_LEAST
    return (int(outside[stays][0]) + 1) / 1000 if stays.any() else None
