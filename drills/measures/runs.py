"""Measures of all runs of blips in a whole recording, each measured by itself."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import TypeVar

import numpy as np

from drills.measures import chord
from drills.measures.blip import (
    BEFORE_TO,
    BRAKE_LEAST,
    OFF,
    ON,
    Candidate,
    Pulse,
    find_braked_blips,
    runs_of,
)
from drills.measures.chord import (
    BEFORE_FROM,
    ChordDisturbance,
    ChordRun,
    Unchorded,
    Unscorable,
    measure_chord_run,
    run_of_chords,
    window_end,
)
from drills.measures.distance import Stop
from drills.measures.disturbance import BAND, Run, Unscored, measure_run, pulses_of
from drills.measures.early import LINE_FROM
from drills.pieces import pieces, points
from drills.recording import LONG_GAP
from drills.trace import STEP, Grid, Times, Trace, nanoseconds

FLOOR = 0.05
"""Share of the braked time in which the throttle is taken to be at its floor or under it."""
FLOOR_WARNED = 3.0
"""Floor of the throttle in % above which a recording is warned of: it may be pressed all the
time."""

T = TypeVar("T")


@dataclass(frozen=True)
class NotScored:
    """A run of blips that has no measures."""

    reason: Unscored
    """Why the run has no measures."""
    blips: tuple[Pulse, ...]
    """Throttle pulses of the run that could still be timed."""


def throttle_floor(trace: Trace) -> float:
    """Throttle in % that counts as none: its 5th percentile while the brake is at 10 % or more.

    0 where the brake never is. Every grid point counts once, interpolated as numpy does.
    """
    at = -((trace.time[0] - trace.time) // STEP)
    held = np.diff(at, append=points(trace))
    braked = (held > 0) & (trace.brake >= BRAKE_LEAST)
    if not braked.any():
        return 0.0
    order = np.argsort(trace.throttle[braked], kind="stable")
    throttle = trace.throttle[braked][order]
    last = np.cumsum(held[braked][order], dtype=np.int64) - 1
    place = FLOOR * float(last[-1])
    low, high = throttle[np.searchsorted(last, [np.floor(place), np.ceil(place)])]
    return float(low + (high - low) * (place - np.floor(place)))


def floor_warning(floor: float) -> str | None:
    """Warning for a recording whose throttle floor is `floor` %; None where that is usual."""
    if floor <= FLOOR_WARNED:
        return None
    return (
        f"the throttle reads {floor:.1f} % at rest, over {FLOOR_WARNED:g}: "
        "blips are counted above it"
    )


def measure_recording(
    trace: Trace, road: Stop | None = None, floor: float | None = None
) -> list[ChordRun | Unscorable]:
    """Every run of blips in a recording without cues, in order, each blip against its chord.

    `floor` is the throttle in % that counts as none; None estimates it. The recording is measured
    in pieces, divided where more than 10 s pass without a sample. Each run is what it would be on
    the grid of the whole, but for a pulse that is still open 5 s into such a silence: it ends
    there.
    """
    stop, rest = road or Stop(), throttle_floor(trace) if floor is None else floor
    measured = _in_pieces(trace, rest, lambda grid, blips: chord_runs(grid, blips, stop))
    return [_chord_from(offset, run) for offset, run in measured]


def measure_held(
    trace: Trace, band: float = BAND, road: Stop | None = None, floor: float | None = None
) -> list[Run | NotScored]:
    """Every run of blips in a recording, against the brake held before it; `band` is in points."""
    rest = throttle_floor(trace) if floor is None else floor
    measured = _in_pieces(trace, rest, lambda grid, blips: held_runs(grid, blips, band, road))
    return [_held_from(offset, run) for offset, run in measured]


def chord_runs(grid: Grid, blips: list[Candidate], road: Stop) -> list[ChordRun | Unscorable]:
    """Runs of blips on a grid, in order, each blip against its chord."""
    groups = runs_of(grid, blips)
    runs: list[ChordRun | Unscorable] = []
    since = 0
    for group, until in zip(groups, _ends(grid, groups, chord.BEFORE_TO), strict=True):
        runs.append(measure_chord_run(grid, group, road, until, since))
        pulses = pulses_of(grid, group)
        if not isinstance(pulses, Unscored):
            since, _ = window_end(grid, pulses[-1], until)
    return runs


def held_runs(
    grid: Grid, blips: list[Candidate], band: float = BAND, road: Stop | None = None
) -> list[Run | NotScored]:
    """Runs of blips on a grid, in order, each against the brake held before it."""
    groups = runs_of(grid, blips)
    runs: list[Run | NotScored] = []
    for group, until in zip(groups, _ends(grid, groups, BEFORE_TO), strict=True):
        run = measure_run(grid, group, band, road, until)
        if isinstance(run, Unscored):
            timed = pulses_of(grid, group)
            runs.append(NotScored(run, () if isinstance(timed, Unscored) else tuple(timed)))
        else:
            runs.append(run)
    return runs


def _ends(grid: Grid, groups: list[list[Candidate]], before: int) -> list[int | None]:
    """Latest grid index of each run's windows: `before` points ahead of the next run's onset."""
    ends: list[int | None] = []
    for following in groups[1:]:
        pulses = pulses_of(grid, following)
        ends.append(None if isinstance(pulses, Unscored) else pulses[0].first - before)
    return [*ends, None] if groups else []


def _in_pieces(
    trace: Trace, floor: float, measure: Callable[[Grid, list[Candidate]], list[T]]
) -> list[tuple[int, T]]:
    """Runs measured in each piece of a recording, with its first point in the whole grid."""
    found: list[tuple[int, T]] = []
    pressed = False
    for offset, grid in pieces(trace):
        blips = find_braked_blips(grid, floor)
        if pressed:
            let_go = np.flatnonzero(grid.throttle < floor + OFF)
            free = int(let_go[0]) if let_go.size else len(grid)
            blips = [blip for blip in blips if blip.start > free]
        found += [(offset, run) for run in measure(grid, blips)]
        pressed = _left_pressed(grid, floor, pressed)
    return found


def _left_pressed(grid: Grid, floor: float, before: bool) -> bool:
    """Whether the throttle is pressed at the end of a grid; `before` if the grid cannot tell."""
    pressed = grid.throttle >= floor + ON
    decided = np.flatnonzero(pressed | (grid.throttle < floor + OFF))
    return bool(pressed[decided[-1]]) if decided.size else before


def _moved(blip: Pulse, offset: int) -> Pulse:
    """A throttle pulse of a piece, its grid indices moved to the grid of the whole recording."""
    return replace(blip, first=blip.first + offset, after=blip.after + offset)


def _chord_from(offset: int, run: ChordRun | Unscorable) -> ChordRun | Unscorable:
    if isinstance(run, Unscorable):
        return replace(run, blips=tuple((_moved(blip, offset), why) for blip, why in run.blips))
    return replace(run, blips=tuple((_moved(blip, offset), done) for blip, done in run.blips))


def _held_from(offset: int, run: Run | NotScored) -> Run | NotScored:
    if isinstance(run, NotScored):
        return replace(run, blips=tuple(_moved(blip, offset) for blip in run.blips))
    return replace(run, blips=tuple((_moved(blip, offset), done) for blip, done in run.blips))


def without_gaps(
    trace: Trace, runs: Sequence[ChordRun | Unscorable]
) -> list[ChordRun | Unscorable]:
    """Runs with blips unscored where a long gap between samples falls into their windows."""
    long = np.flatnonzero(np.diff(trace.time) > nanoseconds(LONG_GAP))
    gaps = trace.time[long], trace.time[long + 1]
    return [_without(run, *gaps) if isinstance(run, ChordRun) else run for run in runs]


def _without(run: ChordRun, begins: Times, ends: Times) -> ChordRun | Unscorable:
    """Run with blips over a gap unscored; `begins` and `ends` are those of the gaps, in ns."""

    def gaping(before: int, onset: float, stop: float) -> bool:
        first, last = nanoseconds(onset) - before * STEP, nanoseconds(stop)
        return bool(np.any((begins < last) & (ends > first)))

    def checked(pulse: Pulse, done: ChordDisturbance | Unchorded) -> ChordDisturbance | Unchorded:
        if isinstance(done, Unchorded) or not gaping(LINE_FROM, pulse.onset, done.stop):
            return done
        if done.is_early or gaping(BEFORE_FROM, pulse.onset, done.stop):
            return Unchorded.GAP
        return replace(done, early=None, ahead=None)

    blips = tuple((pulse, checked(pulse, done)) for pulse, done in run.blips)
    return run if blips == run.blips else run_of_chords(blips)
