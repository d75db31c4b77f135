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

from drills.braking_zone import Line, at_line
from drills.measures.blip import Candidate, Pulse, resting_throttle
from drills.measures.chord import (
    AFTER,
    FROM,
    ChordDisturbance,
    ChordRun,
    Unchorded,
    Unscorable,
)
from drills.measures.distance import Stop
from drills.measures.disturbance import RELEASED, Unscored, pulses_of
from drills.measures.easing import JUDGED_LEAST, TURN, Span, reversals_of
from drills.measures.joined import measure_joined
from drills.trace import Grid, Values

BEGUN = 0.1
"""Share of the peak asked at which the brake counts as on (IEEE Std 181, as for a squeeze)."""
REACHED = 0.9
"""Share of the peak asked at which the rise of the squeeze ends (IEEE Std 181)."""
SQUEEZE = 500
"""Grid points from the brake's start in which its peak is looked for: 0.5 s, or up to the first
blip."""
SQUEEZE_LEAST = 200
"""Grid points from the brake's start in which its peak is looked for though a blip comes: 0.2 s."""
TOPPED = 100
"""Grid points from the end of the rise to the start of the line: the last tenth of a squeeze takes
up to 0.1 s, and is no distance from the line."""
LAGS = range(0, 301, 10)
"""Delays of the foot behind the asked line that are tried, in grid points: up to a reaction."""


@dataclass(frozen=True)
class ZoneWork:
    """Measures of one braking zone, and what its picture is drawn from.

    The *braking point* is the first grid point at or after the start of the tone, *turn-in* the end
    of the asked line. The *peak* is the brake that the line begins at.
    """

    brake_on: float
    """Time from the braking point until the brake was on, in s: at 10 % of the peak. It is the
    start of the unbroken stretch that is on at the braking point, or else the first after it, and
    negative where that began before; a touch that was over by then is none."""
    rise: float | None
    """Time from 10 % to 90 % of the peak, in s; None where that was not reached before the window
    of the first blip, which opens 0.1 s before its onset (but 0.2 s after the brake was on), or
    before turn-in."""
    peak_error: float
    """Greatest brake of the squeeze minus the peak, in points. The squeeze lasts from the brake
    being on for 0.5 s, or up to the window of the first blip, but for 0.2 s at the least."""
    line_lag: float
    """Delay of the brake behind the asked line, in s: of 0 to 0.3 s in steps of 0.01 s the one of
    the least `line_error`, of equal ones the smallest."""
    line_error: float | None
    """Root mean square of the brake minus the asked line `line_lag` s before, in points.

    Compared from 0.1 s after 90 % of the peak was reached (where it was not, from the end of the
    squeeze) to turn-in, or to where the brake was off after it, for 0.3 s at most. Windows of the
    blips, from 0.1 s before the onset to 0.3 s after the end, are left out. Past its ends the line
    asks what it does there. None where under 0.3 s are left.
    """
    line_worst: float | None
    """Brake minus that line where it is farthest from it, over the same, in points."""
    reversals: int | None
    """Number of times that the brake turned upward by more than 2 points, over the same, counted
    once it has come down by more than 2 points."""
    off_at: float | None
    """Time from turn-in until the brake was off, under 5 %, in s; negative before it.

    The first such point after the last blip or, without one, after the start of the line; where the
    brake is off there already, the start of that stretch. None where it stays on.
    """
    run: ChordRun | Unscorable | Unscored | None
    """The blips, each against its chord along the line asked `line_lag` s before, or why none is
    measured; None where there are none."""
    judged: NDArray[np.int64]
    """Grid indices at which the brake is compared with its line, shape (n,)."""
    squeeze: Span
    """Stretch of the grid in which the peak of the squeeze is looked for."""

    @property
    def blips(self) -> tuple[tuple[Pulse, ChordDisturbance | Unchorded], ...]:
        """Every blip that could be timed, and what it did to the brake or why that is not measured,
        in order."""
        return self.run.blips if isinstance(self.run, ChordRun | Unscorable) else ()

    @property
    def pulses(self) -> list[Pulse]:
        """Throttle pulses of all blips that could be timed, in order."""
        return [pulse for pulse, _ in self.blips]


def measure_zone(
    grid: Grid, start: int, point: int, line: Line, blips: Sequence[Candidate], road: Stop
) -> ZoneWork | None:
    """Measures of a braking zone; None where the brake was not on between its two ends.

    `start` is the grid index of the first knock, `point` that of the braking point, `line` the
    asked brake from there. `road` is what the blips' dips are priced on.
    """
    brake, peak = grid.brake, line[0][1]
    turn_in = point + round(1000 * line[-1][0])
    begins = _braked_from(brake[start:turn_in] >= BEGUN * peak, point - start)
    if begins is None:
        return None
    begins += start
    pulses = pulses_of(grid, list(blips)) if blips else []
    timed = [] if isinstance(pulses, Unscored) else pulses
    opens = [max(pulse.first - FROM, begins + SQUEEZE_LEAST) for pulse in timed]
    later = [at for at, pulse in zip(opens, timed, strict=True) if pulse.first > begins]
    until = min([*later[:1], turn_in, brake.size])
    squeeze = (begins, min(begins + SQUEEZE, until))
    high = np.flatnonzero(brake[begins:until] >= REACHED * peak)
    comes_down = min(begins + int(high[0]) + TOPPED if high.size else squeeze[1], brake.size)
    off = _off_from(brake, begins, max([comes_down, *(pulse.after for pulse in timed[-1:])]))
    latest = min(turn_in + LAGS[-1], brake.size)
    ends = latest if off is None else min(max(off, turn_in), latest)
    left_out = [(pulse.first - FROM, pulse.after + AFTER) for pulse in timed]
    judged = _kept(comes_down, ends, left_out)
    lag, away = _best_fit(brake, judged, point, line)
    run: ChordRun | Unscorable | Unscored | None = None
    if isinstance(pulses, Unscored):
        run = pulses
    elif pulses:
        asked = asked_at(line, np.arange(brake.size, dtype=np.int64), point, lag)
        rest = resting_throttle(grid, blips[0])
        run = measure_joined(grid, pulses, rest, road, comes_down, asked)
    is_judged = judged.size >= JUDGED_LEAST
    return ZoneWork(
        brake_on=(begins - point) / 1000,
        rise=int(high[0]) / 1000 if high.size else None,
        peak_error=float(brake[slice(*squeeze)].max()) - peak,
        line_lag=lag / 1000,
        line_error=math.sqrt(float(np.mean(away**2))) if is_judged else None,
        line_worst=float(away[np.argmax(np.abs(away))]) if is_judged else None,
        reversals=_turns_of(brake[judged]) if is_judged else None,
        off_at=None if off is None else (off - turn_in) / 1000,
        run=run,
        judged=judged,
        squeeze=squeeze,
    )


def asked_at(line: Line, points: NDArray[np.int64] | Values, point: int, lag: int = 0) -> Values:
    """Brake that a line asks at grid indices, in %; `point` is the braking point, a grid index.

    `lag` is how many grid points behind it the foot is.
    """
    return at_line(line, (points - point - lag) / 1000)


def _braked_from(on: NDArray[np.bool_], point: int) -> int | None:
    """Start of the stretch in which the brake is on at index `point`, or else of the next one."""
    later = np.flatnonzero(on[point:])
    if not later.size:
        return None
    first = point + int(later[0])
    before = np.flatnonzero(~on[:first])
    return int(before[-1]) + 1 if before.size else 0


def _off_from(brake: Values, begins: int, after: int) -> int | None:
    """First grid index from `after` on at which the brake is off; None where there is none.

    Where it is off at `after` already, where that stretch began, at `begins` at the earliest.
    """
    off = np.flatnonzero(brake[after:] < RELEASED)
    if not off.size:
        return None
    if off[0]:
        return after + int(off[0])
    on = np.flatnonzero(brake[begins:after] >= RELEASED)
    return begins + (int(on[-1]) + 1 if on.size else 0)


def _best_fit(
    brake: Values, judged: NDArray[np.int64], point: int, line: Line
) -> tuple[int, Values]:
    """Delay behind the line that fits best, in grid points, and the brake minus the line then.

    Of equal ones the smallest delay.
    """
    fits = [(lag, brake[judged] - asked_at(line, judged, point, lag)) for lag in LAGS]
    return min(fits, key=lambda fit: float(fit[1] @ fit[1]))


def _turns_of(brake: Values) -> int:
    """Number of times that a brake turned upward, once it had first come down."""
    down = np.flatnonzero(np.maximum.accumulate(brake) - brake > TURN)
    return reversals_of(brake[down[0] :]) if down.size else 0


def _kept(first: int, after: int, left_out: Sequence[Span]) -> NDArray[np.int64]:
    """Grid indices of [first, after) that lie in no span left out."""
    points = np.arange(first, max(after, first), dtype=np.int64)
    kept = np.ones(points.size, dtype=bool)
    for begins, ends in left_out:
        kept &= (points < begins) | (points >= ends)
    return points[kept]
