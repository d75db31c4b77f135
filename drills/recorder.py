"""The samples of a repetition under way, kept in flat arrays until they are a trace."""

from __future__ import annotations

from array import array

import numpy as np

from drills.trace import Sample, Trace


class Recorder:
    """Takes samples in the order they come; one no newer than the last is left out."""

    def __init__(self) -> None:
        self._time = array("q")
        self._brake = array("d")
        self._throttle = array("d")
        self._clutch = array("d")
        self._counts = array("q")
        self._all_counted = True

    @property
    def origin(self) -> int:
        """ns, time of the first sample. Raises IndexError where there is none."""
        return self._time[0]

    def add(self, sample: Sample) -> None:
        """Take the next sample."""
        if self._time and sample.time <= self._time[-1]:
            return
        self._time.append(sample.time)
        self._brake.append(sample.brake)
        self._throttle.append(sample.throttle)
        if sample.clutch is not None:
            self._clutch.append(sample.clutch)
        self._all_counted = self._all_counted and sample.counts is not None
        self._counts.extend(sample.counts or ())

    def trace(self) -> Trace:
        """All of it, its time counted from the first sample."""
        time = np.array(self._time, dtype=np.int64)
        clutch = np.array(self._clutch) if len(self._clutch) == len(self._time) else None
        pedals = 2 if clutch is None else 3
        counts = None
        if self._all_counted and len(self._counts) == pedals * len(self._time):
            counts = np.array(self._counts, dtype=np.int64).reshape(-1, pedals).T
        return Trace(
            time - time[0], np.array(self._brake), np.array(self._throttle), clutch, counts
        )
