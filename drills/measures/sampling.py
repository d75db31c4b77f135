"""How well a repetition was sampled, kept with its verdict."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from drills.trace import SECOND, Trace


@dataclass(frozen=True)
class Sampling:
    """How well the pedals were read; None where there is too little to tell."""

    rate: float | None
    """samples per second read."""
    gap_p99: float | None
    """s, 99th percentile of the time between reads inside the measured window."""
    gap_max: float | None
    """s, longest time between reads inside the measured window."""
    resolution: float | None
    """%, smallest step between two brake values seen."""


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
    )
