"""Easing off a held brake in answer to a cue: when the foot began, how long it took, how straight.

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
"""Share of what was held under which the brake is being eased off."""
STAYS = 100
"""Grid points that it must stay under that share: 0.1 s."""
LET_GO = 5.0
"""Brake in % under which it is off."""
TURN = 2.0
"""Largest rise in % on the way down that is no reversal."""

Span = tuple[int, int]
"""Grid points [first, after)."""


@dataclass(frozen=True)
class Easing:
    """A release from the cue on; None wherever the foot never began."""

    release_start: float | None
    """s from the cue until the foot began to ease off."""
    release_time: float | None
    """s from there until the brake was off; None where it never was."""
    ramp_error: float | None
    """%, root mean square of brake - ramp."""
    ramp_worst: float | None
    """%, largest distance from the ramp."""
    reversals: int | None
    """count of upward turns by more than 2 %."""


def measure_easing(
    brake: Values, cue: int, held: float, seconds: float, left_out: Sequence[Span] = ()
) -> Easing:
    """Measure a release of `held` (%) to nothing over `seconds`, from grid index `cue` on.

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
    """Grid index from which the brake stays under 95 % of `held` for 0.1 s; None where never."""
    under = brake[cue:] < EASED * held
    edges = np.flatnonzero(np.diff(under.astype(np.int8), prepend=np.int8(0), append=np.int8(0)))
    begins, ends = edges[::2], edges[1::2]
    long = np.flatnonzero(ends - begins >= STAYS)
    return cue + int(begins[long[0]]) if long.size else None


def ramp(points: NDArray[np.int64], start: int, held: float, seconds: float) -> Values:
    """The straight line in % at grid points, from `held` at `start` to 0 over so many seconds."""
    line: Values = held * (1 - (points - start) / (1000 * seconds))
    return line


def ramp_points(start: int, after: int, left_out: Sequence[Span]) -> NDArray[np.int64]:
    """The grid points of [start, after) that are in none of the spans left out."""
    inside = np.ones(max(after - start, 0), dtype=bool)
    for first, end in left_out:
        inside[max(first - start, 0) : max(end - start, 0)] = False
    return start + np.flatnonzero(inside)


@dataclass(frozen=True)
class Release:
    """How closely the brake of a recording followed a ramp."""

    ramp_error: float
    """%, root mean square of brake - ramp."""
    ramp_worst: float
    """%, largest distance from the ramp."""
    reversals: int
    """count of upward turns by more than 2 %."""


def measure_release(brake: Values, start: float) -> Release:
    """Measure a window of brake on the 1 ms grid that begins at the cue and lasts as the ramp.

    `brake` has shape (n,), in %; the ramp goes from `start` (%) at the first point to 0 one step
    after the last. After a reversal the next counts once the brake has come down by more than
    2 % again. Raises ValueError for an empty window.
    """
    if brake.size == 0:
        raise ValueError("a release needs a window of at least one grid point, found none")
    away = brake - start * (1 - np.arange(brake.size) / brake.size)
    return Release(
        ramp_error=math.sqrt(float(np.mean(away**2))),
        ramp_worst=float(np.abs(away).max()),
        reversals=reversals_of(brake),
    )


def reversals_of(brake: Values) -> int:
    """Number of times that a brake turned upward by more than 2 % on its way down."""
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
