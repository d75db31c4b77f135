"""Measures of how well the pedals were sampled in a repetition."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from drills.trace import SECOND, Trace

NOTED_GAP = 0.020
"""Longest time between two reads of the pedals that the reveal leaves unmentioned, in s."""
REPORTS_APART = 0.05
"""Largest time in s between pedal changes that is the device's and not a still foot's."""
REPORTS_LEAST = 10
"""Least number of times between changes of the pedals that a report interval is estimated from."""


@dataclass(frozen=True)
class Sampling:
    """How well the pedals were sampled; None where there is too little to tell."""

    rate: float | None
    """Mean rate of samples, in samples per second."""
    gap_p99: float | None
    """99th percentile of the time between reads of the pedals in the measured window, in s."""
    gap_max: float | None
    """Longest time between reads of the pedals in the measured window, in s."""
    resolution: float | None
    """Smallest step between two brake values seen, in points."""
    report_interval: float | None
    """Median time between changes of any pedal that are under 0.05 s apart, in s."""


def measure_sampling(trace: Trace, opens: int) -> Sampling:
    """How well a trace was sampled, as read; its measured window opens at `opens` (ns)."""
    inside = trace.time[trace.time >= opens]
    gaps = np.diff(inside) / SECOND
    steps = np.diff(np.unique(trace.brake))
    span = int(trace.time[-1] - trace.time[0]) / SECOND
    return Sampling(
        rate=(trace.time.size - 1) / span if span > 0 else None,
        gap_p99=float(np.percentile(gaps, 99)) if gaps.size else None,
        gap_max=float(gaps.max()) if gaps.size else None,
        resolution=float(steps.min()) if steps.size else None,
        report_interval=_report_interval(trace),
    )


def _report_interval(trace: Trace) -> float | None:
    """Median time in s between reports of the device, which may be read more often."""
    pedals = [trace.brake, trace.throttle, *([] if trace.clutch is None else [trace.clutch])]
    changed = np.any([np.diff(pedal) != 0 for pedal in pedals], axis=0)
    between = np.diff(trace.time[1:][changed]) / SECOND
    reports = between[between < REPORTS_APART]
    return float(np.median(reports)) if reports.size >= REPORTS_LEAST else None
