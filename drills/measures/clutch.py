"""The clutch of a downshift: when it went down and came up, and whether the blip lay under it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from drills.measures.blip import Pulse
from drills.trace import Values

DOWN = 50.0
"""%, clutch at this or more is down: the drive is parted from about the middle of the travel on
(common practice)."""
UP = 20.0
"""%, clutch under this is up."""
TIE = 0.020
"""s, two movements closer than this came together."""


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
    """s, clutch down minus onset: a tie or more, the blip came first; None where it never was."""
    up_early: float | None
    """s, end of the pulse minus clutch up: a tie or more, the clutch came first; None likewise."""


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
    """s, times closer than this are a tie: the device cannot tell them apart any better."""
    return max(TIE, report_interval or 0.0)


def in_order(late: float, together: float) -> bool:
    """Whether a movement that was due before another came before it, or closer than a tie.

    `late` is how long after the other it came, in s; negative where it came before it.
    """
    return late < together


def _first(reached: np.ndarray[tuple[int], np.dtype[np.bool_]]) -> int | None:
    """Index of the first true one; None where there is none."""
    return int(np.argmax(reached)) if reached.any() else None
