"""Windows of the base: grid points over which the brake was held before the foot could answer."""

from __future__ import annotations

from drills.measures.blip import resting_window
from drills.trace import STEP, Grid

CUE_FROM, CUE_TO = -400, 100
"""Window of the base about a cue, in grid points from it: nothing done earlier than 0.1 s after a
cue answers it."""
BEAT_FROM, BEAT_TO = -900, -400
"""Window of the base before a beat that was counted in, in grid points from it: the foot knows when
the beat will come, and may roll before it."""
BASE_LEAST = 100
"""Least held brake before a run over which a base is averaged, in grid points: 0.1 s."""


def base_at_cue(grid: Grid, cue: int) -> slice:
    """Window of the base where a cue, given at `cue` (ns), asks for the first blip."""
    return _about(grid, cue, CUE_FROM, CUE_TO)


def base_before_beat(grid: Grid, beat: int) -> slice:
    """Window of the base where the first blip is due on a counted-in beat, at `beat` (ns)."""
    return _about(grid, beat, BEAT_FROM, BEAT_TO)


def base_before(first: int, asked: slice | None) -> slice:
    """Window of the base of a run whose first throttle onset is at grid index `first`.

    `asked` is the window before the cue or beat of its first blip. Without one, or where the onset
    came before that window ends and so answers nothing, it is `[first - 0.5 s, first - 0.1 s)`.
    """
    return asked if asked is not None and asked.stop <= first else resting_window(first)


def _about(grid: Grid, time: int, first: int, after: int) -> slice:
    """Grid points from `first` to `after` about a time in ns, cut where the trace begins."""
    zero = -((grid.start - time) // STEP)
    return slice(max(zero + first, 0), max(zero + after, 0))
