"""Pedal traces as sampled, the 1 ms grid they are measured on, and their packed form on disk.

Times are whole nanoseconds, so that a sample taken on a grid point lies on it exactly and no
rounding decides which millisecond a value belongs to.
"""

from __future__ import annotations

import struct
import zlib
from array import array
from dataclasses import dataclass
from enum import StrEnum
from typing import Self

import numpy as np
from numpy.typing import NDArray

Values = NDArray[np.float64]
Times = NDArray[np.int64]

SECOND = 1_000_000_000
"""Length of one second, in ns."""
STEP = 1_000_000
"""Time between two grid points, in ns: 1 ms."""

_MAGIC = b"SFT1"
_HEADER = struct.Struct("<4sBI")


class TraceError(ValueError):
    """A trace is impossible: unequal lengths, no samples, or time that does not go forward."""


def nanoseconds(seconds: float) -> int:
    """A time in s as whole nanoseconds, rounded."""
    return round(seconds * SECOND)


class Pedal(StrEnum):
    """A pedal that a foot moves."""

    BRAKE = "brake"
    THROTTLE = "throttle"
    CLUTCH = "clutch"


@dataclass(frozen=True, slots=True)
class Sample:
    """Positions of the pedals at one moment."""

    time: int
    """Time at which the pedals were read, in ns."""
    brake: float
    """Brake, in % of its calibrated range."""
    throttle: float
    """Throttle, in % of its calibrated range."""
    clutch: float | None = None
    """Clutch, in % of its calibrated range; None where there is no clutch pedal."""
    counts: tuple[int, ...] | None = None
    """Axis counts that brake, throttle and clutch were made from; None where not known."""
    shift: bool | None = None
    """Whether the shift button is down; None where no button is bound."""

    def of(self, pedal: Pedal) -> float | None:
        """Position of one pedal in %; None where there is no such pedal."""
        match pedal:
            case Pedal.BRAKE:
                return self.brake
            case Pedal.THROTTLE:
                return self.throttle
            case Pedal.CLUTCH:
                return self.clutch


@dataclass(frozen=True, eq=False)
class Trace:
    """Samples of the pedals; each value holds until the next sample."""

    time: Times
    """Times of the samples in ns, strictly increasing, shape (n,), from any origin."""
    brake: Values
    """Brake samples, in % of the calibrated range, shape (n,)."""
    throttle: Values
    """Throttle samples, in % of the calibrated range, shape (n,)."""
    clutch: Values | None = None
    """Clutch samples, in % of the calibrated range, shape (n,); None where there is no clutch."""
    counts: Times | None = None
    """Axis counts that the samples were made from, shape (2 or 3, n): brake, throttle and, where
    there is one, clutch; None where they are not known."""
    shift: Values | None = None
    """Samples of the shift button: 1 where it is down, else 0; shape (n,). None where no button is
    bound."""

    def __post_init__(self) -> None:
        pedals = [self.brake, self.throttle] + ([] if self.clutch is None else [self.clutch])
        columns = pedals if self.shift is None else [*pedals, self.shift]
        if self.time.size == 0:
            raise TraceError("a trace needs at least one sample, found none")
        if any(p.shape != self.time.shape for p in columns) or self.time.ndim != 1:
            raise TraceError("every column of a trace must have the length of its time column")
        if self.counts is not None and self.counts.shape != (len(pedals), self.time.size):
            raise TraceError("every pedal of a trace must have the counts it was made from")
        if self.time.dtype != np.int64:
            found = self.time.dtype
            raise TraceError(
                f"the times of a trace must be whole numbers of 64 bits, found {found}"
            )
        if self.time.size > 1 and int(np.diff(self.time).min()) <= 0:
            raise TraceError("the times of a trace must go strictly forward")

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Trace):
            return NotImplemented
        return bool(
            _alike(self.clutch, other.clutch)
            and _alike(self.shift, other.shift)
            and np.array_equal(self.time, other.time)
            and np.array_equal(self.brake, other.brake)
            and np.array_equal(self.throttle, other.throttle)
        )

    def changes(self) -> Trace:
        """The trace without samples that repeat the one before; the first and last stay.

        Under sample-and-hold both have the same grid, so every measure is the same.
        """
        pedals = (self.brake, self.throttle, self.clutch, self.shift)
        columns = [column for column in pedals if column is not None]
        keep = np.zeros(self.time.size, dtype=bool)
        keep[[0, -1]] = True
        for column in columns:
            keep[1:] |= column[1:] != column[:-1]
        clutch = None if self.clutch is None else self.clutch[keep]
        shift = None if self.shift is None else self.shift[keep]
        counts = None if self.counts is None else self.counts[:, keep]
        return Trace(self.time[keep], self.brake[keep], self.throttle[keep], clutch, counts, shift)

    def at_grid_points(self) -> Times:
        """Index of the sample that each 1 ms grid point takes: the newest at or before it.

        Grid point k is at the first sample + k ms.
        """
        first, last = int(self.time[0]), int(self.time[-1])
        from_point = -((first - self.time) // STEP)
        newest = np.zeros((last - first) // STEP + 1, dtype=np.int64)
        seen = from_point < newest.size
        newest[from_point[seen]] = np.flatnonzero(seen)
        return np.maximum.accumulate(newest)

    def pack(self) -> bytes:
        """The percentages of a trace as compressed bytes; `unpack` gives them back, without counts.

        Layout: magic, which columns follow (uint8, 1: the clutch, 2: the shift button), number of
        samples (uint32), then zlib of the first time and the time steps (int64) and the columns
        (float64), little-endian, with the bytes of each column grouped by significance, where slow
        signals compress best.
        """
        steps = np.diff(self.time, prepend=np.int64(0))
        more = [(mark, c) for mark, c in ((1, self.clutch), (2, self.shift)) if c is not None]
        columns = [steps, self.brake, self.throttle, *(column for _, column in more)]
        planes = b"".join(
            column.astype(column.dtype.newbyteorder("<")).view(np.uint8).reshape(-1, 8).T.tobytes()
            for column in columns
        )
        header = _HEADER.pack(_MAGIC, sum(mark for mark, _ in more), self.time.size)
        return header + zlib.compress(planes, 6)

    @classmethod
    def unpack(cls, packed: bytes) -> Self:
        """The trace in bytes from `pack`.

        Raises TraceError where the bytes are not a packed trace.
        """
        try:
            magic, more, size = _HEADER.unpack_from(packed)
            planes = zlib.decompress(packed[_HEADER.size :])
        except (struct.error, zlib.error) as error:
            raise TraceError(f"a packed trace cannot be read: {error}") from error
        marks = [mark for mark in (1, 2) if more & mark]
        columns = 3 + len(marks)
        if more > sum(marks) or magic != _MAGIC or len(planes) != columns * 8 * size:
            raise TraceError("a packed trace cannot be read: wrong mark or wrong length")
        parts = np.frombuffer(planes, np.uint8).reshape(columns, 8, size)
        raw = [np.ascontiguousarray(part.T) for part in parts]
        time = np.cumsum(raw[0].view("<i8").ravel(), dtype=np.int64)
        values = [part.view("<f8").ravel().astype(np.float64) for part in raw[1:]]
        found = dict(zip(marks, values[2:], strict=True))
        return cls(time, values[0], values[1], found.get(1), shift=found.get(2))


def _alike(column: Values | None, other: Values | None) -> bool:
    """Whether two columns that a trace may lack are equal, or both lacking."""
    if column is None or other is None:
        return column is other
    return np.array_equal(column, other)


class TraceBuilder:
    """Builder of a repetition's trace from its samples, without those no newer than the last."""

    def __init__(self) -> None:
        self._time = array("q")
        self._brake = array("d")
        self._throttle = array("d")
        self._clutch = array("d")
        self._shift = array("d")
        self._counts = array("q")
        self._all_counted = True

    @property
    def origin(self) -> int:
        """Time of the first sample, in ns. Raises IndexError where there is none."""
        return self._time[0]

    def add(self, sample: Sample) -> None:
        """Add the next sample to the trace."""
        if self._time and sample.time <= self._time[-1]:
            return
        self._time.append(sample.time)
        self._brake.append(sample.brake)
        self._throttle.append(sample.throttle)
        if sample.clutch is not None:
            self._clutch.append(sample.clutch)
        if sample.shift is not None:
            self._shift.append(sample.shift)
        self._all_counted = self._all_counted and sample.counts is not None
        self._counts.extend(sample.counts or ())

    def trace(self) -> Trace:
        """The trace of all samples so far, its time in ns from the first one."""
        time = np.array(self._time, dtype=np.int64)
        clutch = np.array(self._clutch) if len(self._clutch) == len(self._time) else None
        shift = np.array(self._shift) if len(self._shift) == len(self._time) else None
        pedals = 2 if clutch is None else 3
        counts = None
        if self._all_counted and len(self._counts) == pedals * len(self._time):
            counts = np.array(self._counts, dtype=np.int64).reshape(-1, pedals).T
        brake, throttle = np.array(self._brake), np.array(self._throttle)
        return Trace(time - time[0], brake, throttle, clutch, counts, shift)


@dataclass(frozen=True, eq=False)
class Grid:
    """A pedal trace laid on grid points 1 ms apart by sample-and-hold."""

    start: int
    """Time of grid point 0, in ns on the time axis of the trace."""
    brake: Values
    """Brake at the grid points, in %, shape (n,)."""
    throttle: Values
    """Throttle at the grid points, in %, shape (n,)."""
    clutch: Values | None = None
    """Clutch at the grid points, in %, shape (n,); None where there is no clutch pedal."""
    shift: Values | None = None
    """Shift button at the grid points: 1 where it is down, else 0; shape (n,). None where no button
    is bound."""

    @classmethod
    def of(cls, trace: Trace) -> Self:
        """Grid of a trace: point k is k ms after the first sample and takes the newest by then."""
        newest = trace.at_grid_points()
        clutch = None if trace.clutch is None else trace.clutch[newest]
        shift = None if trace.shift is None else trace.shift[newest]
        return cls(int(trace.time[0]), trace.brake[newest], trace.throttle[newest], clutch, shift)

    def __len__(self) -> int:
        return int(self.brake.size)

    def index(self, time: int) -> int:
        """Index of the first grid point at or after `time` (ns), limited to [0, n]."""
        return min(max(-((self.start - time) // STEP), 0), len(self))

    def late(self, time: int) -> float:
        """Time in s from a moment (ns) to the grid point of its `index`: under 1 ms inside."""
        return (self.start + self.index(time) * STEP - time) / SECOND

    def seconds(self, index: int) -> float:
        """Time of a grid point by its index, in s on the time axis of the trace."""
        return (self.start + index * STEP) / SECOND
