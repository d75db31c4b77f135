"""From a raw axis value to percent of a pedal's travel: a pure function of two raw values.

Nothing is clamped and there is no dead zone, so the raw value can always be had back.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from drills.checks import one_line
from drills.counts import Counts, Whole
from drills.trace import STEP, Trace, Values

COUNTS = 32768
"""counts in a raw value of 1: SDL's axes are 16-bit, and every source gives whole counts."""
SPAN_LEAST = 0.2
"""raw, least distance from rest to full that a pedal can be told apart by (a tenth of an axis)."""


class CalibrationError(ValueError):
    """Rest and full are no numbers, or too close together to make a scale."""

    def __init__(self, rest: float, full: float) -> None:
        self.expected = f"rest and full at least {SPAN_LEAST:g} apart"
        self.found = f"{rest:g} and {full:g}"
        super().__init__(one_line("", self.expected, self.found))


@dataclass(frozen=True)
class Range:
    """The raw values of one pedal at its two ends; an inverted axis has rest above full."""

    rest: float
    """raw axis value with the foot off."""
    full: float
    """raw axis value at full pressure."""

    def __post_init__(self) -> None:
        if not abs(self.full - self.rest) >= SPAN_LEAST:
            raise CalibrationError(self.rest, self.full)

    def percent(self, raw: float) -> float:
        """A raw value as % of the travel; outside the ends it goes on past 0 and 100."""
        return 100.0 * (raw - self.rest) / (self.full - self.rest)

    def raw(self, percent: float) -> float:
        """The raw value at a % of the travel."""
        return self.rest + (self.full - self.rest) * percent / 100.0


@dataclass(frozen=True)
class Calibration:
    """The range of each pedal."""

    brake: Range
    """Ends of the brake."""
    throttle: Range
    """Ends of the throttle."""
    clutch: Range | None = None
    """Ends of the clutch; None where there is none."""

    def trace(self, counts: Counts) -> Trace:
        """What axis counts read under this calibration: a sample each grid point.

        Without a clutch where the counts or the calibration have none.
        """
        ranges = [self.brake, self.throttle] + ([] if self.clutch is None else [self.clutch])
        both = list(zip(counts.pedals, ranges, strict=False))
        time = counts.start + STEP * np.arange(counts.brake.size, dtype=np.int64)
        percents = [_percent(pedal, scale) for pedal, scale in both]
        return Trace(
            time,
            percents[0],
            percents[1],
            percents[2] if len(both) > 2 else None,
            np.array([pedal for pedal, _ in both]),
        )


UNIT = Calibration(Range(0.0, 1.0), Range(0.0, 1.0))
"""For sources whose travel is 0 to 1."""


def counts_of(raw: Sequence[float]) -> tuple[int, ...] | None:
    """Raw axis values as whole counts; None where one lies between counts or beyond an axis."""
    counts = [value * COUNTS for value in raw]
    if all(value.is_integer() and abs(value) <= COUNTS for value in counts):
        return tuple(map(int, counts))
    return None


def _percent(counts: Whole, scale: Range) -> Values:
    """Each count as %, by the very formula that live readings go through."""
    seen, where = np.unique(counts, return_inverse=True)
    return np.array([scale.percent(count / COUNTS) for count in seen.tolist()])[where]
