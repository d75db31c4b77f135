"""How well the pedals were sampled in a repetition."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from drills.trace import SECOND, Trace

NOTED_GAP = 0.020
"""Time between two reads that the reveal mentions, in s; over 0.050 s nothing is judged."""
REPORTS_APART = 0.05
"""Largest time between two changes, in s, that is of the device and not of a still foot."""
REPORTS_LEAST = 10
"""Least number of such times that a report interval is estimated from."""


@dataclass(frozen=True)
class Sampling:
    """How well the pedals were sampled; None where there is too little to tell."""

    rate: float | None
    """samples per second."""
    gap_p99: float | None
    """s, 99th percentile of the time between reads inside the measured window."""
    gap_max: float | None
    """s, longest time between reads inside the measured window."""
    resolution: float | None
    """%, smallest step between two brake values seen."""
    report_interval: float | None
    """s, median time between changes of any pedal that are under 0.05 s apart."""


def measure_sampling(trace: Trace, opens: int) -> Sampling:
    """Sampling of a trace as it was read, its measured window opening at `opens` (ns)."""
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
    """Median time in s between reports of the device, which is not how often it is read."""
    pedals = [trace.brake, trace.throttle, *([] if trace.clutch is None else [trace.clutch])]
    changed = np.any([np.diff(pedal) != 0 for pedal in pedals], axis=0)
    between = np.diff(trace.time[1:][changed]) / SECOND
    reports = between[between < REPORTS_APART]
    return float(np.median(reports)) if reports.size >= REPORTS_LEAST else None
