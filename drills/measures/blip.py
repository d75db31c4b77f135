"""Finder of blips, the throttle pulses of a downshift, and of their timing on the 1 ms grid."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from drills.trace import Grid, Values

ON = 10.0
"""Throttle at which a possible blip starts, in points above its floor."""
OFF = 5.0
"""Throttle under which a possible blip ends, in points above its floor."""
PEAK_LEAST = 15.0
"""Smallest throttle peak that makes a blip, in points above its floor."""
LONGEST = 1000
"""Longest throttle pulse that counts as a blip, in grid points: 1.0 s."""
NARROWEST = 30
"""Least width of a blip at half its height, in grid points: 0.030 s. No foot is quicker (from
memory: a fast tap of the ankle takes 0.1 s); a narrower pulse is a pedal that jumped."""
BRAKE_LEAST = 10.0
"""Least mean brake just before a blip on the road for it to be measured, in % (common practice)."""
JUST_BEFORE = 100
"""Grid points before a blip over which the brake is averaged to see that it is on: 0.1 s."""
BEFORE_FROM = 500
"""Opening of the window of still pedals before a blip, in grid points before its start."""
BEFORE_TO = 100
"""End of the window of still pedals before a blip, in grid points before its start: the foot rolls
before the throttle moves."""
RUN_GAP = 2000
"""Largest distance between the starts of two blips in one run of a recording, in grid points."""
BRAKE_OFF = 5.0
"""Brake in % under which it counts as let go between two blips."""
BRAKE_OFF_FOR = 100
"""Grid points that a brake let go between two blips lasts to make them two runs: 0.1 s."""
ANTICIPATION = 0.100
"""Shortest reaction in s: a faster one is a guess (World Athletics Technical Rules 16.6)."""

_REACH = 256
"""Grid points searched first on either side of a throttle peak; doubled until its edge is found."""


@dataclass(frozen=True)
class Candidate:
    """A stretch of throttle that may be a blip, as grid indices."""

    start: int
    """Grid index at which the throttle reaches 10 points above its floor."""
    stop: int
    """Grid index at which the throttle falls under 5 points above its floor."""
    top: int
    """Grid index of the first greatest throttle."""


@dataclass(frozen=True)
class Pulse:
    """One throttle pulse of a blip, timed."""

    first: int
    """Grid index of the onset of the throttle pulse."""
    after: int
    """Grid index of the first point after the throttle pulse."""
    onset: float
    """Time at which the throttle pulse begins, in s on the time axis of the trace."""
    end: float
    """Time at which the throttle pulse ends, in s on the time axis of the trace."""
    peak: float
    """Greatest throttle of the pulse, in %."""
    width: float
    """Duration of the throttle pulse at half its amplitude, in s."""
    rise: float
    """Time from the onset of the throttle pulse to 90 % of its amplitude, in s."""
    fall: float
    """Time from the last point at 90 % of the pulse's amplitude to its end, in s."""


def find_blips(grid: Grid, floor: float = 0.0) -> list[Candidate]:
    """Stretches of throttle that count as blips, in order of time.

    `floor` is the throttle in % that counts as none: what it reads at rest.
    """
    return [pulse for pulse in _pulses(grid, floor) if not _is_narrow(grid, pulse, floor)]


def find_jumps(grid: Grid, floor: float = 0.0) -> list[Candidate]:
    """Stretches of throttle that would be blips, were they not too narrow for a foot."""
    return [pulse for pulse in _pulses(grid, floor) if _is_narrow(grid, pulse, floor)]


def find_braked_blips(grid: Grid, floor: float = 0.0) -> list[Candidate]:
    """Blips of a recording whose brake was on for a tenth of a second before them.

    Where the trace begins within that tenth, the part that is there decides.
    """

    def is_braked(blip: Candidate) -> bool:
        brake = grid.brake[max(blip.start - JUST_BEFORE, 0) : blip.start]
        return brake.size > 0 and float(brake.mean()) >= BRAKE_LEAST

    return [blip for blip in find_blips(grid, floor) if is_braked(blip)]


def runs_of(grid: Grid, blips: list[Candidate]) -> list[list[Candidate]]:
    """The blips of a recording without cues, grouped into runs.

    Starts up to 2.0 s apart are one run, unless the brake was let go between them.
    """
    runs: list[list[Candidate]] = []
    for blip in blips:
        before = runs[-1][-1] if runs else None
        if (
            before is not None
            and blip.start - before.start <= RUN_GAP
            and not _is_let_go(grid.brake[before.stop : blip.start])
        ):
            runs[-1].append(blip)
        else:
            runs.append([blip])
    return runs


def _is_let_go(brake: Values) -> bool:
    """Whether the brake was off for an unbroken tenth of a second in these grid points."""
    on = np.flatnonzero(brake >= BRAKE_OFF)
    breaks = np.diff(on, prepend=-1, append=brake.size) - 1
    return bool(breaks.max() >= BRAKE_OFF_FOR)


def resting_window(index: int) -> slice:
    """Grid window `[index - 0.5 s, index - 0.1 s)` of still pedals before a blip, cut at grid point
    0."""
    return slice(max(index - BEFORE_FROM, 0), max(index - BEFORE_TO, 0))


def resting_throttle(grid: Grid, first: Candidate) -> float:
    """Mean throttle in % at rest before the first blip of a run."""
    return float(grid.throttle[resting_window(first.start)].mean())


def measure_blip(grid: Grid, blip: Candidate, rest: float) -> Pulse:
    """Timing of one throttle pulse; its reference levels (10, 50, 90 %) follow IEEE Std 181.

    `rest` is the throttle in % that the amplitude is counted from.
    """
    throttle, top = grid.throttle, blip.top
    peak = float(throttle[top])
    amplitude = peak - rest
    first, after = _around(throttle, top, rest + 0.1 * amplitude)
    half_first, half_after = _around(throttle, top, rest + 0.5 * amplitude)
    high = np.flatnonzero(throttle[first:after] >= rest + 0.9 * amplitude)
    return Pulse(
        first=first,
        after=after,
        onset=grid.seconds(first),
        end=grid.seconds(after),
        peak=peak,
        width=(half_after - half_first) / 1000,
        rise=int(high[0]) / 1000,
        fall=(after - first - int(high[-1])) / 1000,
    )


def _pulses(grid: Grid, floor: float) -> list[Candidate]:
    """Stretches of throttle high and short enough for a blip, of any width, in order of time."""
    starts, stops = _stretches(grid.throttle, floor)
    found = []
    for start, stop in zip(starts.tolist(), stops.tolist(), strict=True):
        top = start + int(np.argmax(grid.throttle[start:stop]))
        if stop - start <= LONGEST and grid.throttle[top] >= floor + PEAK_LEAST:
            found.append(Candidate(start, stop, top))
    return found


def _is_narrow(grid: Grid, pulse: Candidate, floor: float) -> bool:
    half = (floor + float(grid.throttle[pulse.top])) / 2
    first, after = _around(grid.throttle, pulse.top, half)
    return after - first < NARROWEST


def _stretches(throttle: Values, floor: float) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
    """Stretches of throttle from reaching ON until falling under OFF; an open end is left out."""
    on = throttle >= floor + ON
    points = np.arange(throttle.size, dtype=np.int64)
    decided = np.where(on | (throttle < floor + OFF), points, 0)
    state = on[np.maximum.accumulate(decided)]
    edges = np.diff(state.astype(np.int8), prepend=np.int8(0))
    starts, stops = np.flatnonzero(edges == 1), np.flatnonzero(edges == -1)
    return starts[: stops.size], stops


def _around(values: Values, top: int, level: float) -> tuple[int, int]:
    """Unbroken stretch about index `top` with values at or past `level`, as [first, after)."""
    reach = _REACH
    while True:
        low = max(top - reach, 0)
        below = np.flatnonzero(values[low:top] < level)
        if below.size or low == 0:
            first = low + int(below[-1]) + 1 if below.size else 0
            break
        reach *= 2
    reach = _REACH
    while True:
        high = min(top + reach, values.size)
        below = np.flatnonzero(values[top:high] < level)
        if below.size or high == values.size:
            after = top + int(below[0]) if below.size else values.size
            break
        reach *= 2
    return first, after
