"""Measures of easing off a held brake at a cue: when it began, how long it took, how straight.

The foot answers late and that is no fault, so the ramp begins where the foot did, at the slope that
was asked.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from drills.trace import STEP, Values, nanoseconds

EASED = 0.05
"""Share of the brake asked by which the brake must be under its base to count as eased off."""
EASED_LEAST = 3.0
"""Least depth under its base at which the brake counts as eased off, in points."""
STAYS = 100
"""Grid points that the brake must stay as deep to count as eased off: 0.1 s."""
JUDGED_LEAST = 300
"""Fewest grid points, blips left out, from which a way down is compared with its ramp: 0.3 s."""
LET_GO = 5.0
"""Brake in % under which it counts as off."""
TURN = 2.0
"""Largest rise of the brake on its way down that is no reversal, in points."""

Span = tuple[int, int]
"""A stretch of grid points, [first, after)."""


@dataclass(frozen=True)
class Ramp:
    """Straight way down that an easing off is compared with: it begins where the foot began."""

    start: int
    """Grid index at which the ramp begins."""
    after: int
    """Grid index of the first point after the ramp has come down to nothing."""
    begins: float
    """Brake at which the ramp begins, in %."""
    slope: float
    """Brake that the ramp comes down by, in points a second."""

    def brake(self, points: NDArray[np.int64]) -> Values:
        """Brake on the ramp's line in %, at grid indices of any shape; under 0 after its end."""
        line: Values = self.begins - self.slope * (points - self.start) / 1000
        return line

    def points(self, size: int, left_out: Sequence[Span]) -> NDArray[np.int64]:
        """Grid indices of the ramp in a grid of `size` points, without the spans left out."""
        after = min(self.after, size)
        kept = _kept(after, left_out)
        return self.start + np.flatnonzero(kept[self.start : after])


@dataclass(frozen=True)
class Easing:
    """Measures of one easing off of the brake, from the cue on; None where it never began."""

    release_start: float | None
    """Time from the cue until the foot began to ease off the brake, in s."""
    release_time: float | None
    """Time from the start of easing off until the brake was off, in s; None where it never was."""
    ramp_error: float | None
    """Root mean square of brake minus its ramp, in points; None for under 0.3 s to judge."""
    ramp_worst: float | None
    """Largest distance of the brake from its ramp, in points; None for under 0.3 s to judge."""
    reversals: int | None
    """Number of times that the brake turned upward by more than 2 points on its way down; None for
    under 0.3 s to judge."""


def ramp_of(
    brake: Values,
    cue: int,
    base: float,
    asked: float,
    seconds: float,
    left_out: Sequence[Span] = (),
) -> Ramp | None:
    """Ramp of easing off from grid index `cue` on; None where the foot never began.

    `brake` has shape (n,), in % on the 1 ms grid; `base` (%) is what was held, and `asked` (%) was
    to come down to nothing over `seconds`. The foot begins where the brake goes under its base by 3
    points and 5 % of what was asked, and stays there for 0.1 s; the spans `left_out` (grid
    indices), those of the blips, are skipped. Raises ValueError unless asked and seconds are above
    0.
    """
    if asked <= 0 or seconds <= 0:
        raise ValueError(f"expected something asked and some time, found {asked:g} and {seconds:g}")
    points = cue + np.flatnonzero(_kept(brake.size, left_out)[cue:])
    under = brake[points] < base - max(EASED_LEAST, EASED * asked)
    edges = np.flatnonzero(np.diff(under.astype(np.int8), prepend=np.int8(0), append=np.int8(0)))
    opens, closes = edges[::2], edges[1::2]
    long = np.flatnonzero(closes - opens >= STAYS)
    if not long.size:
        return None
    start = int(points[opens[long[0]]])
    begins = float(brake[start])
    lasts = -(-nanoseconds(seconds * begins / asked) // STEP)
    return Ramp(start, start + lasts, begins, asked / seconds)


def measure_easing(
    brake: Values,
    cue: int,
    ramp: Ramp | None,
    left_out: Sequence[Span] = (),
    late: float = 0.0,
) -> Easing:
    """Measures of easing off along a ramp from grid index `cue` on; all None without a ramp.

    `brake` has shape (n,), in % on the 1 ms grid. The spans `left_out` (grid indices), those of the
    blips, are not compared with the ramp. `late` is the time from the cue to its grid point, in s.
    """
    if ramp is None:
        return Easing(None, None, None, None, None)
    off = np.flatnonzero(brake[ramp.start :] < LET_GO)
    points = ramp.points(brake.size, left_out)
    away = brake[points] - ramp.brake(points)
    is_judged = points.size >= JUDGED_LEAST
    return Easing(
        release_start=late + (ramp.start - cue) / 1000,
        release_time=int(off[0]) / 1000 if off.size else None,
        ramp_error=math.sqrt(float(np.mean(away**2))) if is_judged else None,
        ramp_worst=float(np.abs(away).max()) if is_judged else None,
        reversals=reversals_of(brake[points]) if is_judged else None,
    )


def _kept(size: int, left_out: Sequence[Span]) -> NDArray[np.bool_]:
    """Which of `size` grid points lie in no span left out, shape (size,)."""
    kept = np.ones(size, dtype=bool)
    for first, after in left_out:
        kept[max(first, 0) : max(after, 0)] = False
    return kept


@dataclass(frozen=True)
class Release:
    """How closely the brake of a recording followed a ramp down."""

    ramp_error: float
    """Root mean square of brake minus its ramp, in points."""
    ramp_worst: float
    """Largest distance of the brake from its ramp, in points."""
    reversals: int
    """Number of times that the brake turned upward by more than 2 points on its way down."""


def measure_release(
    brake: Values, start: float, seconds: float | None = None, late: float = 0.0
) -> Release:
    """Measures of a window of brake on the 1 ms grid, from the cue on, against a ramp as long.

    `brake` has shape (n,), in %; the ramp goes from `start` (%) at the cue to 0 `seconds` after it,
    None for as long as the window. `late` is the time from the cue to the first point, in s. After
    a reversal the next counts once the brake has come down by more than 2 points again. Raises
    ValueError for an empty window.
    """
    if brake.size == 0:
        raise ValueError("a release needs a window of at least one grid point, found none")
    points = brake.size if seconds is None else 1000 * seconds
    away = brake - start * (1 - (1000 * late + np.arange(brake.size, dtype=np.int64)) / points)
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
