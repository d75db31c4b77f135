"""The runs of blips in a whole recording, each measured by itself."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from drills.measures.blip import BEFORE_TO, OFF, ON, Blip, Candidate, find_blips, runs_of
from drills.measures.distance import Stop
from drills.measures.disturbance import BAND, Run, Unscored, measure_run, pulses_of
from drills.pieces import pieces
from drills.trace import Grid, Trace


@dataclass(frozen=True)
class NotScored:
    """A run of blips that has no measures."""

    reason: Unscored
    """Why."""
    blips: tuple[Blip, ...]
    """The pulses that could be timed all the same."""


def measure_recording(
    trace: Trace, band: float = BAND, stop: Stop | None = None
) -> list[Run | NotScored]:
    """Every run of blips in a recording without cues, in order; `band` is in %.

    The recording is measured in pieces, parted where more than 10 s pass without a sample, and
    each run is what it would be on the grid of the whole; only a pulse that is still open 5 s
    into such a silence is taken to end there.
    """
    found: list[Run | NotScored] = []
    pressed = False
    for offset, grid in pieces(trace):
        blips = find_blips(grid)
        if pressed:
            let_go = np.flatnonzero(grid.throttle < OFF)
            free = int(let_go[0]) if let_go.size else len(grid)
            blips = [blip for blip in blips if blip.start > free]
        found += [_from(offset, run) for run in measure_runs(grid, blips, band, stop)]
        pressed = _left_pressed(grid, pressed)
    return found


def measure_runs(
    grid: Grid, blips: list[Candidate], band: float = BAND, stop: Stop | None = None
) -> list[Run | NotScored]:
    """The runs that the blips of a grid make, in order; `band` is in %."""
    groups = runs_of(blips)
    pulses = [pulses_of(grid, group) for group in groups]
    runs: list[Run | NotScored] = []
    for number, group in enumerate(groups):
        following = pulses[number + 1] if number + 1 < len(groups) else Unscored.NO_REST
        until = None
        if not isinstance(following, Unscored):
            until = following[0].first - BEFORE_TO
        run = measure_run(grid, group, band, stop, until)
        timed = pulses[number]
        if isinstance(run, Unscored):
            runs.append(NotScored(run, () if isinstance(timed, Unscored) else tuple(timed)))
        else:
            runs.append(run)
    return runs


def _left_pressed(grid: Grid, before: bool) -> bool:
    """Whether the throttle, once at 10 %, has not been under 5 % again by the end of a grid."""
    told = np.flatnonzero((grid.throttle >= ON) | (grid.throttle < OFF))
    return bool(grid.throttle[told[-1]] >= ON) if told.size else before


def _from(offset: int, run: Run | NotScored) -> Run | NotScored:
    """A run of a piece, its indices those of the grid of the whole recording."""

    def moved(blip: Blip) -> Blip:
        return replace(blip, first=blip.first + offset, after=blip.after + offset)

    if isinstance(run, NotScored):
        return replace(run, blips=tuple(moved(blip) for blip in run.blips))
    return replace(run, blips=tuple((moved(blip), done) for blip, done in run.blips))
