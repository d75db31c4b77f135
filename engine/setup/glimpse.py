"""`Glimpse`: what is seen of every axis while pedals are set up, for a first word on their health.

Only reads that bring a change are stored, each with the read before it, which dates the change.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Mapping, Sequence

import numpy as np

from drills.calibration import COUNTS
from drills.health.axis import rest_noise, step_of
from drills.health.pedal import MOVED, BoundPedal, PedalHealth
from drills.health.reports import report_timing, reports
from drills.trace import Times, nanoseconds
from engine.pedals.identity import Axis

MOST = 20_000
"""Largest number of reads that are stored: 20 s of a device that reports 1000 times a second."""
RESTED = nanoseconds(1.0)
"""Time at the end of the setup in which the feet are off all pedals, in ns."""
STEPS = (4, 2)
"""Change from report to report that is surely a movement, in steps; the latter of fewer ones."""


class Glimpse:
    """Memory of the last changes of all axes."""

    def __init__(self) -> None:
        self._seen: deque[tuple[int, int, Mapping[Axis, float]]] = deque(maxlen=MOST)
        self._last: Mapping[Axis, float] = {}
        self._now = 0

    def feed(self, now: int, values: Mapping[Axis, float]) -> None:
        """Take the raw values of all axes, read at `now` (ns)."""
        if values != self._last:
            self._seen.append((self._now, now, values))
        self._last, self._now = values, now

    def health(self, bound: BoundPedal, axis: Axis) -> PedalHealth:
        """Health of a pedal on an axis, as far as it was seen; its noise is that at rest."""
        time, counts = self._reads(axis)
        if counts.size < 2 or np.ptp(counts) <= MOVED:
            return PedalHealth(bound.pedal, seen=False)
        point, step = bound.span / 100, step_of(counts) or 1.0
        timing = report_timing(time, counts, [least * step for least in STEPS])
        rest = None
        if timing is not None:
            resting = time >= self._now - RESTED
            last = int(np.flatnonzero(~resting)[-1]) if not resting.all() else 0
            begins = np.maximum(time[last:], self._now - RESTED)
            held = np.append(begins, self._now), np.append(counts[last:], counts[-1])
            rest = rest_noise(reports(*held, timing.interval))
        return PedalHealth(
            bound.pedal,
            seen=True,
            step=step / point,
            steps=bound.span / step,
            rest=None if rest is None else rest / point,
            timing=timing,
        )

    def healths(self, pedals: Sequence[tuple[BoundPedal, Axis]]) -> list[PedalHealth]:
        """Health of several pedals, each with the axis that it is on now."""
        return [self.health(bound, axis) for bound, axis in pedals]

    def _reads(self, axis: Axis) -> tuple[Times, Times]:
        """Times in ns and counts of an axis at every change of any axis, and at the read before."""
        time: list[int] = []
        counts: list[int] = []
        for before, now, values in self._seen:
            if axis not in values:
                continue
            if time and before > time[-1]:
                time.append(before)
                counts.append(counts[-1])
            time.append(now)
            counts.append(round(values[axis] * COUNTS))
        return np.array(time, dtype=np.int64), np.array(counts, dtype=np.int64)
