"""The picture of a repetition: how far the brake was from where it was held, aligned in time."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from drills.measures.blip import Blip
from drills.measures.chord import FROM, ChordDisturbance, chord_of
from drills.measures.disturbance import Run
from drills.trace import SECOND, STEP, Grid, Values

BEFORE = 0.5
"""s shown before the blip."""
AFTER = 1.5
"""s shown after the blip began."""


@dataclass(frozen=True, eq=False)
class Deviation:
    """Deviation of the brake over time, ready to be drawn."""

    time: Values
    """s, shape (n,), 0 where the blip began or the measured hold opened."""
    deviation: Values
    """%, shape (n,), brake minus what was held, or minus the target of a hold."""
    blip: tuple[float, float] | None = None
    """s, where the throttle pulse began and ended; None where there was none."""


def of_window(grid: Grid, start: float, stop: float, target: float) -> Deviation | None:
    """The deviation in one window (s, on the axis of the grid) from a target in %."""
    return _cut(grid, start, 0.0, stop - start, target, None)


def of_blip(grid: Grid, base: float, onset: float, end: float) -> Deviation | None:
    """The deviation around one blip (s, on the axis of the grid) from a base in %."""
    return _cut(grid, onset, -BEFORE, AFTER, base, (0.0, end - onset))


def of_run(grid: Grid, run: Run) -> Deviation | None:
    """The deviation of a run of blips, aligned on the first."""
    first, last = run.blips[0][0], run.blips[-1][0]
    length = max(AFTER, last.end - first.onset + 1.0)
    return _cut(grid, first.onset, -BEFORE, length, run.base, (0.0, first.end - first.onset))


def of_chord(grid: Grid, pulse: Blip, done: ChordDisturbance) -> Deviation:
    """The deviation of one blip of a recording from its chord, over its own window."""
    start, stop = pulse.onset - FROM / 1000, done.stop
    seen = slice(grid.index(round(start * SECOND)), grid.index(round(stop * SECOND)))
    seconds = (grid.start + np.arange(seen.start, seen.stop) * STEP) / SECOND
    change = grid.brake[seen] - chord_of(pulse, done, seconds)
    return Deviation(seconds - pulse.onset, change, (0.0, pulse.end - pulse.onset))


def _cut(
    grid: Grid,
    zero: float,
    start: float,
    stop: float,
    held: float,
    blip: tuple[float, float] | None,
) -> Deviation | None:
    first = grid.index(round((zero + start) * SECOND))
    after = grid.index(round((zero + stop) * SECOND))
    if after - first < 2:
        return None
    time = (grid.start + np.arange(first, after) * STEP) / SECOND - zero
    return Deviation(time, grid.brake[first:after] - held, blip)
