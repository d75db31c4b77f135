"""Measures of the hand that shifts: when its button was pressed, against the peak of each blip.

Gear, clutch and blip follow each other in one order: clutch down, blip, the lower gear while the
engine speeds up, clutch up. A paddle or a sequential lever shifts at the blip's peak (common
practice).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from drills.measures.blip import Pulse
from drills.measures.catalogue import PLACES
from drills.measures.clutch import DOWN, UP
from drills.measures.tempo import farthest
from drills.trace import Grid, Values

SHIFT = "shift_at"
"""Name of the measure of the shift in a repetition: of several, the one farthest off."""
SHIFT_BY_PLACE = tuple(f"{SHIFT}_{place}" for place in PLACES)
"""Names of the measures of the shift at each blip of several, from the first."""
REACH = 500
"""Grid points before the onset and after the end of a blip in which its press may come: 0.5 s."""


@dataclass(frozen=True)
class Shift:
    """One press of the shift button, with the blip that it belongs to."""

    shift_at: float
    """Time from the peak of the blip to the press, in s; negative where the press came first. The
    peak is the first grid point of the greatest throttle."""
    peak: float
    """Time of the blip's peak, in s on the time axis of the trace."""
    before_blip: float
    """Time from the press to the onset of the blip, in s; negative where the blip came first."""
    after_clutch: float | None
    """Time from the clutch coming up to the press, in s; negative where the press came first. None
    where the clutch was not down under the blip, or never came up."""


def is_told(grid: Grid) -> bool:
    """Whether the shift button of a trace can tell of shifts: there is one, up at some time.

    One that is down all along is stuck, or the gate of a gear that the lever never left.
    """
    return grid.shift is not None and bool((grid.shift < 0.5).any())


def presses_of(grid: Grid) -> NDArray[np.int64]:
    """Grid indices at which the shift button goes down, shape (n,); empty without a button.

    One that is down as the trace begins was pressed before it.
    """
    if grid.shift is None:
        return np.zeros(0, dtype=np.int64)
    down = grid.shift >= 0.5
    pressed: NDArray[np.int64] = np.flatnonzero(down[1:] & ~down[:-1]) + 1
    return pressed


def measure_shifts(grid: Grid, pulses: Sequence[Pulse]) -> list[Shift | None]:
    """Press of the shift button for each throttle pulse of a run, in order; None where none came.

    It is the press nearest to the peak, the first of two as near, from 0.5 s before the onset to
    0.5 s after the end of the blip, and not past the middle between it and its neighbour: no press
    is taken twice.
    """
    presses = presses_of(grid)
    edges = [(before.after + following.first) // 2 for before, following in pairwise(pulses)]
    found: list[Shift | None] = []
    for pulse, opens, closes in zip(pulses, [0, *edges], [*edges, len(grid)], strict=False):
        first, after = max(opens, pulse.first - REACH), min(closes, pulse.after + REACH)
        own = presses[(presses >= first) & (presses < after)]
        found.append(_shift(grid, pulse, own) if own.size else None)
    return found


def farthest_shift(shifts: Sequence[Shift | None]) -> float | None:
    """Time of the press farthest from its blip's peak, in s with its sign.

    None where a blip had no press, or where there is no blip.
    """
    times = [shift.shift_at for shift in shifts if shift is not None]
    return farthest(times) if times and len(times) == len(shifts) else None


def _shift(grid: Grid, pulse: Pulse, presses: NDArray[np.int64]) -> Shift:
    top = pulse.first + int(np.argmax(grid.throttle[pulse.first : pulse.after]))
    press = int(presses[np.argmin(np.abs(presses - top))])
    up = None if grid.clutch is None else _clutch_up(grid.clutch, pulse)
    return Shift(
        shift_at=(press - top) / 1000,
        peak=grid.seconds(top),
        before_blip=(pulse.first - press) / 1000,
        after_clutch=None if up is None else (press - up) / 1000,
    )


def _clutch_up(clutch: Values, pulse: Pulse) -> int | None:
    """Grid index at which the clutch (%) that was down under a blip came up; None for never."""
    under = np.flatnonzero(clutch[pulse.first : pulse.after] >= DOWN)
    if not under.size:
        return None
    last = pulse.first + int(under[-1])
    up = np.flatnonzero(clutch[last:] < UP)
    return last + int(up[0]) if up.size else None
