"""Traces as the device gave them: from percent to axis counts and back, exactly."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from drills.calibration import COUNTS, Calibration, Range
from drills.counts import MARK, Counts, Whole
from drills.trace import STEP, Grid, Trace, Values
from engine.store.cells import Row

LONGEST = 120_000
"""ms, the longest trace that is kept as counts: a sleeping computer can leave hours unread."""


@dataclass(frozen=True)
class RawTrace:
    """Axis counts, and the calibration they were read through."""

    counts: Counts
    """The pedals as their device gave them."""
    calibration: Calibration
    """Scale of each pedal at the time."""

    def trace(self) -> Trace:
        """The trace as it was measured, a sample each grid point."""
        return self.under(self.calibration)

    def under(self, calibration: Calibration) -> Trace:
        """The trace, a sample each grid point, as it reads under any calibration."""
        counts = self.counts
        clutch = None
        if counts.clutch is not None and calibration.clutch is not None:
            clutch = _percent(counts.clutch, calibration.clutch)
        return Trace(
            counts.start + STEP * np.arange(counts.brake.size, dtype=np.int64),
            _percent(counts.brake, calibration.brake),
            _percent(counts.throttle, calibration.throttle),
            clutch,
        )


def raw_of(trace: Trace, calibration: Calibration) -> Counts | None:
    """The counts behind a trace; None where some value is on no count, or it is too long.

    Under the calibration they give exactly the grid of the trace.
    """
    if int(trace.time[-1] - trace.time[0]) > LONGEST * STEP:
        return None
    grid = Grid.of(trace)
    scales = [(grid.brake, calibration.brake), (grid.throttle, calibration.throttle)]
    if trace.clutch is not None:
        if calibration.clutch is None:
            return None
        clutch = Grid.of(Trace(trace.time, trace.clutch, trace.throttle)).brake
        scales.append((clutch, calibration.clutch))
    pedals = [_counts(percent, scale) for percent, scale in scales]
    whole = [pedal for pedal in pedals if pedal is not None]
    return Counts(grid.start, *whole) if len(whole) == len(pedals) else None


def is_raw(packed: bytes) -> bool:
    """Whether a packed trace is counts, which need their calibration to be read."""
    return packed.startswith(MARK)


def calibration_as_json(calibration: Calibration) -> str:
    """A calibration as it is kept: rest and full of brake, throttle and perhaps clutch."""
    ranges = [calibration.brake, calibration.throttle]
    if calibration.clutch is not None:
        ranges.append(calibration.clutch)
    return json.dumps([[scale.rest, scale.full] for scale in ranges])


def calibration_from_json(row: Row, ends: object) -> Calibration:
    """The calibration that was kept. Raises CellError."""
    data = row.json("ends", ends)
    try:
        brake, throttle, *clutch = [_range(pair) for pair in data]
        return Calibration(brake, throttle, *clutch)
    except (ValueError, TypeError) as error:
        raise row.refusal("ends", "rest and full of each pedal", ends) from error


def _range(pair: Sequence[object]) -> Range:
    rest, full = pair
    if not isinstance(rest, int | float) or not isinstance(full, int | float):
        raise TypeError
    return Range(float(rest), float(full))


def _percent(counts: Whole, scale: Range) -> Values:
    """Each count as %, by the very formula that live readings go through."""
    seen, where = np.unique(counts, return_inverse=True)
    return np.array([scale.percent(count / COUNTS) for count in seen.tolist()])[where]


def _counts(percent: Values, scale: Range) -> Whole | None:
    """The count of each %; None where one is on no count that an axis has."""
    if not np.isfinite(percent).all():
        return None
    seen, where = np.unique(percent, return_inverse=True)
    counts = [round(scale.raw(value) * COUNTS) for value in seen.tolist()]
    for count, value in zip(counts, seen.tolist(), strict=True):
        if abs(count) > COUNTS or scale.percent(count / COUNTS) != value:
            return None
    return np.array(counts, dtype=np.int64)[where]
