"""A trace as whole axis counts of the device on the 1 ms grid, and its packed form.

Of zlib, bz2 and lzma, lzma on first differences packs smallest, or within 10 % of that.
"""

from __future__ import annotations

import lzma
import struct
from dataclasses import dataclass
from typing import Self

import numpy as np
from numpy.typing import NDArray

from drills.trace import Trace, TraceError

Whole = NDArray[np.int64]

MARK = b"SFC1"
"""First bytes of packed counts."""
_HEAD = struct.Struct("<BIq")
"""Number of pedals, number of grid points in each, ns of the first."""
_UNIT = struct.Struct("<I")
"""Counts in one step of the converter: one of 12 bits moves an axis of 16 by 8 or 16 at a time."""
_FILTERS = [{"id": lzma.FILTER_LZMA2, "preset": 6, "dict_size": 1 << 16}]
"""Filters of the compression: a dictionary of 64 kB is enough for a trace, and takes a tenth of the
memory of the usual 8 MB."""
_ESCAPE = 255
"""Least folded difference that is written in full after the others."""


@dataclass(frozen=True, eq=False)
class Counts:
    """The pedals as whole axis counts, a grid point a millisecond."""

    start: int
    """ns, time of grid point 0."""
    brake: Whole
    """counts, shape (n,), within 31 bits."""
    throttle: Whole
    """counts, shape (n,), within 31 bits."""
    clutch: Whole | None = None
    """counts, shape (n,), within 31 bits; None where there is no clutch pedal."""

    @classmethod
    def of(cls, trace: Trace) -> Self | None:
        """The counts that a trace was made from; None where it does not know them."""
        if trace.counts is None:
            return None
        return cls(int(trace.time[0]), *trace.counts[:, trace.at_grid_points()])

    @property
    def pedals(self) -> tuple[Whole, ...]:
        """Brake, throttle, and clutch where there is one."""
        both = (self.brake, self.throttle)
        return both if self.clutch is None else (*both, self.clutch)

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Counts):
            return NotImplemented
        if self.start != other.start or len(self.pedals) != len(other.pedals):
            return False
        return all(np.array_equal(*pair) for pair in zip(self.pedals, other.pedals, strict=True))

    def pack(self) -> bytes:
        """These counts as compressed bytes; `unpack` gives back exactly these.

        Layout: the mark, then xz (its checksum tells damage) of the head and, for each pedal, its
        unit, a byte for each grid point with the folded difference from the one before (0, -1, 1,
        -2, ... are 0, 1, 2, 3, ...), and the differences too big for a byte (uint64).
        """
        head = _HEAD.pack(len(self.pedals), self.brake.size, self.start)
        body = b"".join([head, *(_pack_pedal(pedal) for pedal in self.pedals)])
        return MARK + lzma.compress(body, check=lzma.CHECK_CRC32, filters=_FILTERS)

    @classmethod
    def unpack(cls, packed: bytes) -> Self:
        """The counts that `pack` was given. Raises TraceError for any other bytes."""
        if not packed.startswith(MARK):
            raise TraceError("a packed trace cannot be read: wrong mark or wrong length")
        try:
            body = lzma.decompress(packed[len(MARK) :], lzma.FORMAT_XZ)
            pedals, size, start = _HEAD.unpack_from(body)
            at, found = _HEAD.size, []
            for _ in range(pedals):
                pedal, at = _unpack_pedal(body, at, size)
                found.append(pedal)
        except (struct.error, lzma.LZMAError, ValueError) as error:
            raise TraceError(f"a packed trace cannot be read: {error}") from error
        if at != len(body) or len(found) not in (2, 3) or size == 0:
            raise TraceError("a packed trace cannot be read: wrong mark or wrong length")
        return cls(start, *found)


def _pack_pedal(pedal: Whole) -> bytes:
    steps = np.diff(pedal, prepend=0)
    unit = int(np.gcd.reduce(steps)) or 1
    steps = steps // unit
    folded = np.where(steps < 0, -2 * steps - 1, 2 * steps)
    each = np.minimum(folded, _ESCAPE).astype(np.uint8)
    escaped = folded[folded >= _ESCAPE].astype("<u8")
    return b"".join([_UNIT.pack(unit), each.tobytes(), escaped.tobytes()])


def _unpack_pedal(body: bytes, at: int, size: int) -> tuple[Whole, int]:
    """The pedal that begins at byte `at`, and the byte that the next one begins at."""
    (unit,) = _UNIT.unpack_from(body, at)
    at += _UNIT.size
    folded = np.frombuffer(body, np.uint8, size, at).astype(np.int64)
    at += size
    big = np.flatnonzero(folded == _ESCAPE)
    if big.size:
        folded[big] = np.frombuffer(body, "<u8", big.size, at)
    steps = np.where(folded % 2 == 1, -(folded + 1) // 2, folded // 2)
    return np.cumsum(unit * steps), at + 8 * big.size
