"""Measures of the clutch in a downshift: when it went down and up, and if the blip was under it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from drills.measures.blip import Pulse
from drills.trace import Values

DOWN = 50.0
"""Clutch in % from which it counts as down: it disengages about mid-travel (common practice)."""
UP = 20.0
"""Clutch in % under which it counts as up again."""
TIE = 0.020
"""Least time between a clutch and a throttle movement that are not simultaneous, in s."""


@dataclass(frozen=True)
class ClutchWork:
    """What the left foot did with the clutch, from the cue on."""

    clutch_down: float | None
    """Time from the cue until the clutch was down, in s; None where it never was."""
    clutch_up: float | None
    """Time from the cue until the clutch was up again, in s; None where it never was."""
    under_clutch: float
    """Share of the throttle pulse with the clutch down, from 0 to 1."""
    down_late: float | None
    """Time from the throttle onset to the clutch going down, in s; from a tie on the blip came
    first; None where the clutch never went down."""
    up_early: float | None
    """Time from the clutch coming up to the end of the throttle pulse, in s; from a tie on the
    clutch came first; None where it never came up."""


def measure_clutch(clutch: Values, cue: int, pulse: Pulse, late: float = 0.0) -> ClutchWork:
    """Measures of a clutch of shape (n,), in % on the 1 ms grid, from the cue's grid index on.

    `pulse` is the blip on the same grid; `late` is the time from the cue to its grid point, in s.
    """
    down = _first(clutch[cue:] >= DOWN)
    up = None if down is None else _first(clutch[cue + down :] < UP)
    return ClutchWork(
        clutch_down=None if down is None else late + down / 1000,
        clutch_up=None if down is None or up is None else late + (down + up) / 1000,
        under_clutch=float(np.mean(clutch[pulse.first : pulse.after] >= DOWN)),
        down_late=None if down is None else (cue + down - pulse.first) / 1000,
        up_early=None if down is None or up is None else (pulse.after - cue - down - up) / 1000,
    )


def tie(report_interval: float | None) -> float:
    """Least time between two pedal movements that a device can tell apart, in s."""
    return max(TIE, report_interval or 0.0)


def in_order(late: float, together: float) -> bool:
    """Whether a movement due first came first, or less than `together` s after the other.

    `late` is how long after the other it came, in s; negative where it came before.
    """
    return late < together


def _first(reached: np.ndarray[tuple[int], np.dtype[np.bool_]]) -> int | None:
    """Index of the first true value; None where there is none."""
    return int(np.argmax(reached)) if reached.any() else None
