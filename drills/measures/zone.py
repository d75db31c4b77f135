"""Measures of a braking zone, part by part: the squeeze, the line down, its blips, the end.

Times are counted from the braking point. The foot may answer the tone late, and that alone is no
fault, so the brake is compared with the asked line at the delay that fits it best.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from drills.braking_zone import Line
from drills.measures.blip import Candidate, resting_throttle
from drills.measures.chord import AFTER, FROM, ChordRun, Unscorable
from drills.measures.distance import Stop
from drills.measures.disturbance import RELEASED, Unscored, pulses_of
from drills.measures.easing import JUDGED_LEAST, Span, reversals_of
from drills.measures.joined import measure_joined
from drills.trace import Grid, Values

BEGUN = 0.1
"""Share of the peak asked at which the brake counts as on (IEEE Std 181, as for a squeeze)."""
REACHED = 0.9
"""Share of the peak asked at which the squeeze is over and the line begins."""
SQUEEZE = 500
"""Grid points from the brake's start in which its peak is looked for: 0.5 s, or up to the first
blip."""
LAGS = range(0, 301, 10)
"""Delays of the foot behind the asked line that are tried, in grid points: up to a reaction."""


@dataclass(frozen=True)
class ZoneWork:
    """Measures of one braking zone, and what its picture is drawn from."""

    brake_on: float
    """Time from the braking point until the brake was on, in s; negative where it came before."""
    rise: float | None
    """Time from 10 % to 90 % of the peak asked, in s; None where that was never reached."""
    peak_error: float
    """Greatest brake of the squeeze minus the peak asked, in points."""
    line_lag: float
    """Delay of the brake behind the asked line that fits best, in s."""
    line_error: float | None
    """Root mean square of brake minus its line, blips left out, in points; None for under 0.3 s."""
    line_worst: float | None
    """Brake minus its line where it is farthest from it, over the same, in points."""
    reversals: int | None
    """Number of times that the brake turned upward by more than 2 points, over the same."""
    off_at: float | None
    """Time from turn-in until the brake was off, in s; negative before it, None for never."""
    run: ChordRun | Unscorable | Unscored | None
    """The blips, each against its chord, or why none is measured; None where there are none."""
    judged: NDArray[np.int64]
    """Grid indices at which the brake is compared with its line, shape (n,)."""
    squeeze: Span
    """Stretch of the grid in which the peak of the squeeze is looked for."""


def measure_zone(
    grid: Grid, start: int, point: int, line: Line, blips: Sequence[Candidate], road: Stop
) -> ZoneWork | None:
    """Measures of a braking zone; None where the brake was never on.

    `start` is the grid index of the first knock, `point` that of the braking point, `line` the
    asked brake from there. `road` is what the blips' dips are priced on.
    """
    brake, peak = grid.brake, line[0][1]
    turn_in = point + round(1000 * line[-1][0])
    on = start + np.flatnonzero(brake[start:turn_in] >= BEGUN * peak)
    if not on.size:
        return None
    begins = int(on[0])
    pulses = pulses_of(grid, list(blips)) if blips else []
    timed = [] if isinstance(pulses, Unscored) else pulses
    first = min([begins + SQUEEZE, *(max(p.first - FROM, begins + 1) for p in timed[:1])])
    squeeze = (begins, min(first, brake.size))
    high = np.flatnonzero(brake[begins:turn_in] >= REACHED * peak)
    reached = begins + int(high[0]) if high.size else squeeze[1]
    run: ChordRun | Unscorable | Unscored | None = None
    if isinstance(pulses, Unscored):
        run = pulses
    elif pulses:
        run = measure_joined(grid, pulses, resting_throttle(grid, blips[0]), road, reached)
    over = timed[-1].after if timed else reached
    off = over + np.flatnonzero(brake[over:] < RELEASED)
    until = int(off[0]) if off.size else min(turn_in + LAGS[-1], brake.size)
    left_out = [(pulse.first - FROM, pulse.after + AFTER) for pulse in timed]
    judged = _kept(reached, until, left_out)
    lag, away = _best_fit(brake, judged, point, line)
    is_judged = judged.size >= JUDGED_LEAST
    return ZoneWork(
        brake_on=(begins - point) / 1000,
        rise=(reached - begins) / 1000 if high.size else None,
        peak_error=float(brake[slice(*squeeze)].max()) - peak,
        line_lag=lag / 1000,
        line_error=math.sqrt(float(np.mean(away**2))) if is_judged else None,
        line_worst=float(away[np.argmax(np.abs(away))]) if is_judged else None,
        reversals=reversals_of(brake[judged]) if is_judged else None,
        off_at=(int(off[0]) - turn_in) / 1000 if off.size else None,
        run=run,
        judged=judged,
        squeeze=squeeze,
    )


def asked_at(line: Line, points: NDArray[np.int64], point: int, lag: int = 0) -> Values:
    """Brake that a line asks at grid indices, in %; `point` is the braking point, a grid index.

    `lag` is how many grid points behind it the foot is.
    """
    times, brakes = zip(*line, strict=True)
    asked: Values = np.interp((points - point - lag) / 1000, times, brakes)
    return asked


def _best_fit(
    brake: Values, judged: NDArray[np.int64], point: int, line: Line
) -> tuple[int, Values]:
    """Delay behind the line that fits best, in grid points, and the brake minus the line then.

    Of equal ones the smallest delay.
    """
    fits = [(lag, brake[judged] - asked_at(line, judged, point, lag)) for lag in LAGS]
    return min(fits, key=lambda fit: float(fit[1] @ fit[1]))


def _kept(first: int, after: int, left_out: Sequence[Span]) -> NDArray[np.int64]:
    """Grid indices of [first, after) that lie in no span left out."""
    points = np.arange(first, max(after, first), dtype=np.int64)
    kept = np.ones(points.size, dtype=bool)
    for begins, ends in left_out:
        kept &= (points < begins) | (points >= ends)
    return points[kept]
