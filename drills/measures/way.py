"""Measures of easing off with blips: the ramp between them, and each blip against its chord."""

from __future__ import annotations

from dataclasses import dataclass

from drills.measures.blip import find_blips, resting_throttle
from drills.measures.chord import FROM as CHORD_FROM
from drills.measures.chord import ChordRun, Unchorded, measure_chords
from drills.measures.distance import Stop
from drills.measures.disturbance import RELEASED, Unscored, pulses_of
from drills.measures.easing import Easing, Span, measure_easing
from drills.trace import Grid

HELD_FROM, HELD_TO = 0.5, 0.1
"""Window before the cue over which the held brake is averaged, in s."""
AFTER_PULSE = 300
"""Time after a throttle pulse that still counts as its blip, in grid points: 0.3 s."""


@dataclass(frozen=True)
class WayDown:
    """Measures of a brake's way down with blips."""

    held: float
    """Mean brake held before the cue, in %."""
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


def measure_way(grid: Grid, cue: int, seconds: float) -> WayDown | None:
    """Measures of easing off over `seconds` from grid index `cue` on, with any blips in it.

    What was held is the mean brake over the 0.4 s that end 0.1 s before the cue; None where the
    brake was not held.
    """
    before = grid.brake[max(cue - round(1000 * HELD_FROM), 0) : cue - round(1000 * HELD_TO)]
    held = float(before.mean()) if before.size else 0.0
    if held < RELEASED:
        return None
    found = find_blips(grid)
    if not found:
        return WayDown(held, measure_easing(grid.brake, cue, held, seconds), None, None, 0)
    pulses = pulses_of(grid, found)
    if isinstance(pulses, Unscored):
        return WayDown(held, measure_easing(grid.brake, cue, held, seconds), None, pulses, 0)
    left_out = tuple((pulse.first - CHORD_FROM, pulse.after + AFTER_PULSE) for pulse in pulses)
    easing = measure_easing(grid.brake, cue, held, seconds, left_out)
    run = measure_chords(grid, pulses, resting_throttle(grid, found[0]), Stop())
    if not isinstance(run, ChordRun):
        return WayDown(held, easing, None, run.reason, len(pulses), left_out)
    failed = [done for _, done in run.blips if isinstance(done, Unchorded)]
    return WayDown(held, easing, run, failed[0] if failed else None, len(run.blips), left_out)
