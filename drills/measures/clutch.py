"""The clutch of a downshift: when it went down and came up, and whether the blip lay under it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from drills.measures.blip import Pulse
from drills.trace import Values

DOWN = 50.0
"""Least clutch in % that is down: it disengages about the middle of its travel (common
practice)."""
UP = 20.0
"""Clutch in % under which it is up."""
TIE = 0.020
"""Least time between two movements in s: closer ones count as simultaneous."""


@dataclass(frozen=True)
class ClutchWork:
    """What the left foot did, from the cue on."""

    clutch_down: float | None
    """s from the cue until the clutch was down; None where it never was."""
    clutch_up: float | None
    """s from the cue until it was up again; None where it never was."""
    under_clutch: float
    """1, share of the pulse with the clutch down."""
    down_late: float | None
    """s, clutch down minus onset; from a tie on the blip came first; None if never down."""
    up_early: float | None
    """s, end of the pulse minus clutch up; from a tie on the clutch came first; None if not up."""


def measure_clutch(clutch: Values, cue: int, pulse: Pulse) -> ClutchWork:
    """Measure a clutch of shape (n,), in % on the 1 ms grid, from the grid index of the cue.

    `pulse` is the blip on the same grid.
    """
    down = _first(clutch[cue:] >= DOWN)
    up = None if down is None else _first(clutch[cue + down :] < UP)
    return ClutchWork(
        clutch_down=None if down is None else down / 1000,
        clutch_up=None if down is None or up is None else (down + up) / 1000,
        under_clutch=float(np.mean(clutch[pulse.first : pulse.after] >= DOWN)),
        down_late=None if down is None else (cue + down - pulse.first) / 1000,
        up_early=None if down is None or up is None else (pulse.after - cue - down - up) / 1000,
    )


def tie(report_interval: float | None) -> float:
    """Least time in s between two movements that a device can tell apart."""
    return max(TIE, report_interval or 0.0)


def in_order(late: float, together: float) -> bool:
    """Whether a movement that was due first came first, or less than `together` s later.

    `late` is how long after the other it came, in s; negative where it came before.
    """
    return late < together


def _first(reached: np.ndarray[tuple[int], np.dtype[np.bool_]]) -> int | None:
    """Index of the first true value; None where there is none."""
    return int(np.argmax(reached)) if reached.any() else None
