"""What the pedals did in a repetition, judged before what the foot did.

`device_fault` tells a repetition whose pedals told too little of the foot; `DeviceHistory` is what
it has to know of the repetitions before.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

import numpy as np

from drills.measures.blip import Pulse
from drills.measures.jumps import Jump
from drills.measures.sampling import interval_in_pulses, report_interval
from drills.measures.stalls import stalls
from drills.trace import Pedal, Trace, Values, nanoseconds

SELDOM = 0.040
"""Longest time between reports of pedals that can be judged, in s."""
FINE = 0.3
"""Step of a brake, in points, from which a still foot may well leave it on one value."""
STOOD = nanoseconds(0.1)
"""Time that a brake stands at its highest value where its axis ends, in ns: a foot trembles, and
stays at its own highest value for less."""
TOPS = 3
"""Number of repetitions in a row in which the highest value of the brake is the same where its axis
ends."""
STILL = nanoseconds(1.0)
"""Time in which a foot surely moves the brake by a step, in ns: the window after a blip. Simulated,
the stillest foot keeps one value for 0.3 s."""
RESTING = 5.0
"""Brake in % under which it may be at rest, where nothing moves it."""
MOST_JUMPS = 2
"""Most jumps of the pedals in a repetition that is judged."""
INTERVALS = 5
"""Number of latest repetitions whose least report interval is that of the session."""


class FaultKind(StrEnum):
    """What pedals may do that keeps a repetition from being judged, in the order of testing."""

    SELDOM = "pedals report too seldom"
    AT_END = "brake at its end"
    NOT_MOVED = "brake did not move"
    STALLED = "pedals stalled"
    JUMPED = "pedal jumped"


@dataclass(frozen=True)
class DeviceFault:
    """What the pedals did in a repetition that cannot be judged for it."""

    kind: FaultKind
    """What the pedals did."""
    pedal: Pedal | None = None
    """Pedal that did it; None for all of them."""


@dataclass(frozen=True)
class DeviceHistory:
    """What is known of the pedals from the repetitions before, played in one session."""

    tops: tuple[float, ...] = ()
    """Highest brake of each of the latest repetitions, in %, oldest first."""
    step: float | None = None
    """Smallest change of the brake seen, in points; None: it has never moved."""
    intervals: tuple[float, ...] = ()
    """Time between reports in each of the latest repetitions that tell it, in s, oldest first."""

    @property
    def report_interval(self) -> float:
        """Time between reports of the pedals in this session, in s; 0 where not known yet.

        The least of the latest: a foot that is still, or a coarse pedal, reports less often.
        """
        return min(self.intervals, default=0.0)

    def after(self, trace: Trace, interval: float | None) -> DeviceHistory:
        """What is known after a repetition with this trace and time between reports (s)."""
        tops = (*self.tops, float(trace.brake.max()))[-TOPS + 1 :]
        step = _least(self.step, smallest_change(trace.brake))
        return replace(self.with_interval(interval), tops=tops, step=step)

    def with_interval(self, interval: float | None) -> DeviceHistory:
        """What is known after a repetition that tells no more than a time between reports (s)."""
        if interval is None:
            return self
        return replace(self, intervals=(*self.intervals, interval)[-INTERVALS:])


@dataclass(frozen=True)
class Watched:
    """What the pedals of a repetition are judged by."""

    trace: Trace
    """Trace of the repetition without jumps."""
    opens: int
    """Start of the measured window, in ns."""
    closes: int
    """End of the measured window, in ns."""
    pulses: tuple[Pulse, ...] = ()
    """Throttle pulses of the trace, in order."""
    jumps: tuple[Jump, ...] = ()
    """Jumps that were taken out of the trace."""
    asked: float = math.inf
    """Brake that the repetition's line asks at its peak, in %: an axis that reaches it is not at
    its end too soon, though a foot went on to its stop. Infinite where there is no line."""


def device_fault(watched: Watched, before: DeviceHistory) -> DeviceFault | None:
    """What the pedals did that keeps a repetition from being judged; None where it can be."""
    trace = watched.trace
    often = interval_in_pulses(trace, watched.pulses)
    if often is not None and often > SELDOM:
        return DeviceFault(FaultKind.SELDOM)
    step = _least(before.step, smallest_change(trace.brake))
    if step is not None and step < FINE:
        if _is_at_end(watched, before.tops):
            return DeviceFault(FaultKind.AT_END, Pedal.BRAKE)
        if _stood_still(watched):
            return DeviceFault(FaultKind.NOT_MOVED, Pedal.BRAKE)
    stalled = _stalled(watched, report_interval(trace, watched.pulses))
    if stalled is not None:
        return DeviceFault(FaultKind.STALLED, stalled)
    measured = [jump.pedal for jump in watched.jumps if jump.stop > watched.opens]
    if len(measured) > MOST_JUMPS:
        return DeviceFault(FaultKind.JUMPED, max(measured, key=measured.count))
    return None


def smallest_change(values: Values) -> float | None:
    """Smallest change from one value to the next, in the unit of the values; None for no change."""
    changes = np.abs(np.diff(values))
    changes = changes[changes > 0]
    return float(changes.min()) if changes.size else None


def _least(one: float | None, other: float | None) -> float | None:
    known = [step for step in (one, other) if step is not None]
    return min(known, default=None)


def _is_at_end(watched: Watched, tops: Sequence[float]) -> bool:
    """Whether the brake stood at the same highest value as in the repetitions before."""
    trace = watched.trace
    top = float(trace.brake.max())
    if (
        not RESTING <= top < watched.asked
        or len(tops) < TOPS - 1
        or any(before != top for before in tops)
    ):
        return False
    edges = np.diff((trace.brake == top).astype(np.int8), prepend=np.int8(0), append=np.int8(0))
    time = np.append(trace.time, trace.time[-1])
    starts, stops = np.flatnonzero(edges == 1), np.flatnonzero(edges == -1)
    return int((time[stops] - time[starts]).max()) >= STOOD


def _stood_still(watched: Watched) -> bool:
    """Whether the brake had a single value for the last second of the measured window."""
    trace = watched.trace
    first, after = np.searchsorted(trace.time, [watched.closes - STILL, watched.closes]).tolist()
    brake = trace.brake[max(first - 1, 0) : after]
    lasted = watched.closes - STILL >= watched.opens
    return lasted and bool(brake[-1] >= RESTING) and not np.any(brake != brake[-1])


def _stalled(watched: Watched, interval: float | None) -> Pedal | None:
    """Pedal that stalled, and reported again in the measured window or after it; None for none."""
    trace = watched.trace
    pedals = {Pedal.BRAKE: trace.brake, Pedal.THROTTLE: trace.throttle}
    if trace.clutch is not None:
        pedals[Pedal.CLUTCH] = trace.clutch
    for pedal, values in pedals.items():
        if np.any(stalls(trace.time, values, interval) >= watched.opens):
            return pedal
    return None
