"""Measures of easing off with blips: the ramp between them, and each blip against its chord."""

from __future__ import annotations

from dataclasses import dataclass

from drills.measures.base import BASE_LEAST, CUE_FROM, CUE_TO
from drills.measures.blip import find_blips, resting_throttle
from drills.measures.chord import FROM as CHORD_FROM
from drills.measures.chord import ChordRun, Unchorded, measure_chords
from drills.measures.distance import Stop
from drills.measures.disturbance import RELEASED, Unscored, pulses_of
from drills.measures.easing import Easing, Ramp, Span, measure_easing, ramp_of
from drills.trace import Grid

AFTER_PULSE = 300
"""Time after a throttle pulse that still counts as its blip, in grid points: 0.3 s."""


@dataclass(frozen=True)
class WayDown:
    """Measures of a brake's way down with blips."""

    held: float
    """Mean brake held before the foot could answer the cue, in %."""
    ramp: Ramp | None
    """Ramp that the easing off is compared with; None where the foot never began."""
    easing: Easing
    """Measures of the easing off between the blips."""
    run: ChordRun | None
    """The blips measured against their chords; None where there are none."""
    cut: Unchorded | Unscored | None
    """Why a blip is not measured; None where all are."""
    blips: int
    """Number of blips on the way down, measured or not."""
    left_out: tuple[Span, ...] = ()
    """Stretches of the grid taken by blips, in which the ramp is not judged."""


def measure_way(
    grid: Grid, cue: int, asked: float, seconds: float, late: float = 0.0
) -> WayDown | None:
    """Measures of easing off `asked` (%) over `seconds` from grid index `cue` on, with its blips.

    What was held is the mean brake from 0.4 s before the cue to 0.1 s after it; None where the
    brake was not held. `late` is the time from the cue to its grid point, in s.
    """
    before = grid.brake[max(cue + CUE_FROM, 0) : cue + CUE_TO]
    held = float(before.mean()) if before.size >= BASE_LEAST else 0.0
    if held < RELEASED:
        return None
    found = find_blips(grid)
    pulses = pulses_of(grid, found) if found else []
    timed = [] if isinstance(pulses, Unscored) else pulses
    left_out = tuple((pulse.first - CHORD_FROM, pulse.after + AFTER_PULSE) for pulse in timed)
    ramp = ramp_of(grid.brake, cue, held, asked, seconds, left_out)
    easing = measure_easing(grid.brake, cue, ramp, left_out, late)
    if isinstance(pulses, Unscored):
        return WayDown(held, ramp, easing, None, pulses, 0)
    if not pulses:
        return WayDown(held, ramp, easing, None, None, 0)
    run = measure_chords(grid, pulses, resting_throttle(grid, found[0]), Stop())
    if not isinstance(run, ChordRun):
        return WayDown(held, ramp, easing, None, run.reason, len(pulses), left_out)
    failed = [done for _, done in run.blips if isinstance(done, Unchorded)]
    cut = failed[0] if failed else None
    return WayDown(held, ramp, easing, run, cut, len(run.blips), left_out)
