"""Measures of how well the pedals were sampled in a repetition."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from drills.measures.blip import Pulse
from drills.trace import SECOND, Trace, nanoseconds

NOTED_GAP = 0.020
"""Longest time between two reads of the pedals that the reveal leaves unmentioned, in s."""
IN_PULSES_LEAST = 3
"""Least number of times between changes inside throttle pulses that an interval is estimated from:
a device that reports 20 times a second has no more of them in a short blip."""
REPORTS_APART = 0.25
"""Time in s between changes of any pedal from which it was the foot that kept still."""
REPORTS_LEAST = 10
"""Least number of times between changes of any pedal that a report interval is estimated from."""


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
    """Median time between changes of the throttle inside its pulses, or else of any pedal, in s."""


def measure_sampling(trace: Trace, opens: int, pulses: Sequence[Pulse] = ()) -> Sampling:
    """How well a trace was sampled, as read; its measured window opens at `opens` (ns).

    `pulses` are its throttle pulses, in which a pedal surely moves.
    """
    inside = trace.time[trace.time >= opens]
    gaps = np.diff(inside) / SECOND
    steps = np.diff(np.unique(trace.brake))
    span = int(trace.time[-1] - trace.time[0]) / SECOND
    return Sampling(
        rate=(trace.time.size - 1) / span if span > 0 else None,
        gap_p99=float(np.percentile(gaps, 99)) if gaps.size else None,
        gap_max=float(gaps.max()) if gaps.size else None,
        resolution=float(steps.min()) if steps.size else None,
        report_interval=report_interval(trace, pulses),
    )


def report_interval(trace: Trace, pulses: Sequence[Pulse]) -> float | None:
    """Time in s between reports of the device, which may be read more often; None: cannot tell.

    It is that inside the throttle pulses; without enough of them, the median time between changes
    of any pedal.
    """
    in_pulses = interval_in_pulses(trace, pulses)
    if in_pulses is not None:
        return in_pulses
    pedals = [trace.brake, trace.throttle, *([] if trace.clutch is None else [trace.clutch])]
    changed = np.any([np.diff(pedal) != 0 for pedal in pedals], axis=0)
    between = np.diff(trace.time[1:][changed]) / SECOND
    reports = between[between < REPORTS_APART]
    return float(np.median(reports)) if reports.size >= REPORTS_LEAST else None


def interval_in_pulses(trace: Trace, pulses: Sequence[Pulse]) -> float | None:
    """Median time between changes of the throttle inside its pulses, in s; None for too few."""
    found = [np.empty(0)]
    for pulse in pulses:
        first, after = np.searchsorted(
            trace.time, [nanoseconds(pulse.onset), nanoseconds(pulse.end)]
        ).tolist()
        inside = slice(max(first - 1, 0), after)
        time = trace.time[inside][1:][np.diff(trace.throttle[inside]) != 0]
        found.append(np.diff(time) / SECOND)
    between = np.concatenate(found)
    return float(np.median(between)) if between.size >= IN_PULSES_LEAST else None
