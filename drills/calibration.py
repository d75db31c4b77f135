"""Calibration of the pedals: from raw axis values to percent of a pedal's travel, and back.

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
"""Axis counts in a raw value of 1: SDL's axes are 16-bit, and every source gives whole counts."""
SPAN_LEAST = 0.2
"""Least distance between the raw values at rest and at full pressure: a tenth of an axis."""


class CalibrationError(ValueError):
    """Raw values at rest and at full pressure are no numbers, or too close to make a scale."""

    def __init__(self, rest: float, full: float) -> None:
        self.expected = f"rest and full at least {SPAN_LEAST:g} apart"
        self.found = f"{rest:g} and {full:g}"
        super().__init__(one_line("", self.expected, self.found))


@dataclass(frozen=True)
class Range:
    """The raw values of one pedal at its two ends; an inverted axis has rest above full."""

    rest: float
    """Raw axis value with the foot off the pedal."""
    full: float
    """Raw axis value at full pressure on the pedal."""

    def __post_init__(self) -> None:
        if not abs(self.full - self.rest) >= SPAN_LEAST:
            raise CalibrationError(self.rest, self.full)

    def percent(self, raw: float) -> float:
        """A raw axis value as % of the pedal's travel; beyond the ends it passes 0 and 100."""
        return 100.0 * (raw - self.rest) / (self.full - self.rest)

    def raw(self, percent: float) -> float:
        """The raw axis value at a % of the pedal's travel."""
        return self.rest + (self.full - self.rest) * percent / 100.0


@dataclass(frozen=True)
class Calibration:
    """The raw values of each pedal at rest and at full pressure."""

    brake: Range
    """Raw values of the brake pedal at rest and at full pressure."""
    throttle: Range
    """Raw values of the throttle pedal at rest and at full pressure."""
    clutch: Range | None = None
    """Raw values of the clutch pedal at rest and at full pressure; None: no clutch pedal."""

    def trace(self, counts: Counts) -> Trace:
        """Trace in % that axis counts give under this calibration: one sample for each grid point.

        Without a clutch where the counts or the calibration have none. The shift button is taken
        over as it is.
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
            None if counts.shift is None else counts.shift.astype(np.float64),
        )


UNIT = Calibration(Range(0.0, 1.0), Range(0.0, 1.0))
"""Calibration for a source that gives every pedal as 0 (at rest) to 1 (full)."""


def counts_of(raw: Sequence[float]) -> tuple[int, ...] | None:
    """Raw axis values as whole axis counts; None where one is between counts or off the axis."""
    counts = []
    for value in raw:
        count = value * COUNTS
        if not count.is_integer() or abs(count) > COUNTS:
            return None
        counts.append(int(count))
    return tuple(counts)


def _percent(counts: Whole, scale: Range) -> Values:
    """Axis counts as % of a pedal's travel, by the very formula that live readings go through."""
    seen, where = np.unique(counts, return_inverse=True)
    return np.array([scale.percent(count / COUNTS) for count in seen.tolist()])[where]
