"""Measures of easing off a held brake at a cue: when it began, how long it took, how straight.

The foot answers late and that is no fault, so the ramp begins where the foot did.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from drills.trace import Values

EASED = 0.95
"""Share of the held brake under which it counts as being eased off."""
STAYS = 100
"""Grid points that the brake must stay under that share to count as being eased off: 0.1 s."""
LET_GO = 5.0
"""Brake in % under which it counts as off."""
TURN = 2.0
"""Largest rise of the brake on its way down that is no reversal, in points."""

Span = tuple[int, int]
"""A stretch of grid points, [first, after)."""


@dataclass(frozen=True)
class Easing:
    """Measures of one easing off of the brake, from the cue on; None where it never began."""

    release_start: float | None
    """Time from the cue until the foot began to ease off the brake, in s."""
    release_time: float | None
    """Time from the start of easing off until the brake was off, in s; None where it never was."""
    ramp_error: float | None
    """Root mean square of brake minus its ramp, in points."""
    ramp_worst: float | None
    """Largest distance of the brake from its ramp, in points."""
    reversals: int | None
    """Number of times that the brake turned upward by more than 2 points on its way down."""


def measure_easing(
    brake: Values, cue: int, held: float, seconds: float, left_out: Sequence[Span] = ()
) -> Easing:
    """Measures of easing `held` (%) off to nothing over `seconds`, from grid index `cue` on.

    `brake` has shape (n,), in % on the 1 ms grid. The ramp leaves out the spans
    `left_out` (grid indices), those of the blips. Raises ValueError unless held and seconds are
    above 0.
    """
    if held <= 0 or seconds <= 0:
        raise ValueError(f"expected something held and some time, found {held:g} and {seconds:g}")
    start = release_start(brake, cue, held)
    if start is None:
        return Easing(None, None, None, None, None)
    off = np.flatnonzero(brake[start:] < LET_GO)
    after = min(start + round(1000 * seconds), brake.size)
    points = ramp_points(start, after, left_out)
    away = brake[points] - ramp(points, start, float(brake[start]), seconds)
    return Easing(
        release_start=(start - cue) / 1000,
        release_time=int(off[0]) / 1000 if off.size else None,
        ramp_error=math.sqrt(float(np.mean(away**2))) if points.size else None,
        ramp_worst=float(np.abs(away).max()) if points.size else None,
        reversals=reversals_of(brake[points]),
    )


def release_start(brake: Values, cue: int, held: float) -> int | None:
    """Grid index from which the brake stays under 95 % of `held` for 0.1 s; None: never."""
    under = brake[cue:] < EASED * held
    edges = np.flatnonzero(np.diff(under.astype(np.int8), prepend=np.int8(0), append=np.int8(0)))
    begins, ends = edges[::2], edges[1::2]
    long = np.flatnonzero(ends - begins >= STAYS)
    return cue + int(begins[long[0]]) if long.size else None


def ramp(points: NDArray[np.int64], start: int, held: float, seconds: float) -> Values:
    """Straight ramp of brake in % at grid points, from `held` at `start` to 0 over some seconds."""
    line: Values = held * (1 - (points - start) / (1000 * seconds))
    return line


def ramp_points(start: int, after: int, left_out: Sequence[Span]) -> NDArray[np.int64]:
    """Grid points of [start, after) that the ramp is judged at: those in no span left out."""
    inside = np.ones(max(after - start, 0), dtype=bool)
    for first, end in left_out:
        inside[max(first - start, 0) : max(end - start, 0)] = False
    return start + np.flatnonzero(inside)


@dataclass(frozen=True)
class Release:
    """How closely the brake of a recording followed a ramp down."""

    ramp_error: float
    """Root mean square of brake minus its ramp, in points."""
    ramp_worst: float
    """Largest distance of the brake from its ramp, in points."""
    reversals: int
    """Number of times that the brake turned upward by more than 2 points on its way down."""


def measure_release(brake: Values, start: float) -> Release:
    """Measures of a window of brake on the 1 ms grid, from the cue on, against a ramp as long.

    `brake` has shape (n,), in %; the ramp goes from `start` (%) at the first point to 0 one step
    after the last. After a reversal the next counts once the brake has come down by more than
    2 points again. Raises ValueError for an empty window.
    """
    if brake.size == 0:
        raise ValueError("a release needs a window of at least one grid point, found none")
    away = brake - start * (1 - np.arange(brake.size, dtype=np.int64) / brake.size)
    return Release(
        ramp_error=math.sqrt(float(np.mean(away**2))),
        ramp_worst=float(np.abs(away).max()),
        reversals=reversals_of(brake),
    )


def reversals_of(brake: Values) -> int:
    """Number of times that a brake turned upward by more than 2 points on its way down."""
    count, rest = 0, brake
    while True:
        up = np.flatnonzero(rest - np.minimum.accumulate(rest) > TURN)
        if not up.size:
            return count
        count, rest = count + 1, rest[up[0] :]
        down = np.flatnonzero(np.maximum.accumulate(rest) - rest > TURN)
        if not down.size:
            return count
        rest = rest[down[0] :]
