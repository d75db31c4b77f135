"""A trace as whole axis counts of the device on the 1 ms grid, and its packed form.

Of zlib, bz2 and lzma, lzma on first differences packs smallest, or within 10 % of that.
"""

from __future__ import annotations

import lzma
import struct
from dataclasses import dataclass, field
from typing import Self

import numpy as np
from numpy.typing import NDArray

from drills.trace import Trace, TraceError

Whole = NDArray[np.int64]

MARK = b"SFC1"
"""First bytes of packed axis counts, which tell them from other data."""
_HEAD = struct.Struct("<BIq")
"""Head of packed axis counts: number of pedals, with _SHIFT added where the shift button follows
them; grid points in each; time of the first in ns."""
_SHIFT = 128
"""Mark in the head of packed axis counts: the states of the shift button follow the pedals."""
_UNIT = struct.Struct("<I")
"""Layout of a pedal's unit: axis counts in a step of its converter, 8 or 16 for a 12-bit one."""
_FILTERS = [{"id": lzma.FILTER_LZMA2, "preset": 6, "dict_size": 1 << 16}]
"""Filters of the lzma compression: a dictionary of 64 kB is enough for a trace, and takes a tenth
of the memory of the usual 8 MB."""
_ESCAPE = 255
"""Least folded difference that does not fit its byte and is written in full after the others."""


@dataclass(frozen=True, eq=False)
class Counts:
    """The pedals of a trace as whole axis counts, one grid point a millisecond."""

    start: int
    """Time of grid point 0, in ns."""
    brake: Whole
    """Axis counts of the brake pedal, shape (n,), within 31 bits."""
    throttle: Whole
    """Axis counts of the throttle pedal, shape (n,), within 31 bits."""
    clutch: Whole | None = None
    """Axis counts of the clutch pedal, shape (n,), within 31 bits; None: no clutch pedal."""
    shift: Whole | None = field(default=None, kw_only=True)
    """States of the shift button: 1 where it is down, else 0; shape (n,). None: no button bound."""

    @classmethod
    def of(cls, trace: Trace) -> Self | None:
        """The axis counts that a trace was made from; None where the trace does not hold them."""
        if trace.counts is None:
            return None
        newest = trace.at_grid_points()
        shift = None if trace.shift is None else trace.shift[newest].astype(np.int64)
        return cls(int(trace.time[0]), *trace.counts[:, newest], shift=shift)

    @property
    def pedals(self) -> tuple[Whole, ...]:
        """Axis counts of brake, throttle and, where there is one, clutch."""
        both = (self.brake, self.throttle)
        return both if self.clutch is None else (*both, self.clutch)

    @property
    def _columns(self) -> tuple[Whole, ...]:
        return self.pedals if self.shift is None else (*self.pedals, self.shift)

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, Counts):
            return NotImplemented
        heads = [(one.start, len(one.pedals), one.shift is None) for one in (self, other)]
        if heads[0] != heads[1]:
            return False
        return all(
            np.array_equal(*pair) for pair in zip(self._columns, other._columns, strict=True)
        )

    def pack(self) -> bytes:
        """The axis counts as compressed bytes; `unpack` gives back exactly these counts.

        Layout: the mark, then xz (its checksum tells damage) of the head and, for each pedal and
        then the shift button where one is bound, its unit, a byte for each grid point with the
        folded difference from the one before (0, -1, 1, -2, ... are 0, 1, 2, 3, ...), and the
        differences too big for a byte (uint64).
        """
        pedals = len(self.pedals) + (0 if self.shift is None else _SHIFT)
        head = _HEAD.pack(pedals, self.brake.size, self.start)
        body = b"".join([head, *(_pack_pedal(column) for column in self._columns)])
        return MARK + lzma.compress(body, check=lzma.CHECK_CRC32, filters=_FILTERS)

    @classmethod
    def unpack(cls, packed: bytes) -> Self:
        """The axis counts in bytes from `pack`. Raises TraceError for any other bytes."""
        if not packed.startswith(MARK):
            raise TraceError("a packed trace cannot be read: wrong mark or wrong length")
        try:
            body = lzma.decompress(packed[len(MARK) :], lzma.FORMAT_XZ)
            pedals, size, start = _HEAD.unpack_from(body)
            at, found = _HEAD.size, []
            shifts, pedals = divmod(pedals, _SHIFT)
            for _ in range(pedals + shifts):
                pedal, at = _unpack_pedal(body, at, size)
                found.append(pedal)
        except (struct.error, lzma.LZMAError, ValueError) as error:
            raise TraceError(f"a packed trace cannot be read: {error}") from error
        if at != len(body) or pedals not in (2, 3) or size == 0:
            raise TraceError("a packed trace cannot be read: wrong mark or wrong length")
        return cls(start, *found[:pedals], shift=found[pedals] if shifts else None)


def _pack_pedal(pedal: Whole) -> bytes:
    steps = np.diff(pedal, prepend=np.int64(0))
    unit = int(np.gcd.reduce(steps)) or 1
    steps = steps // unit
    folded = np.where(steps < 0, -2 * steps - 1, 2 * steps)
    each = np.minimum(folded, _ESCAPE).astype(np.uint8)
    escaped = folded[folded >= _ESCAPE].astype("<u8")
    return b"".join([_UNIT.pack(unit), each.tobytes(), escaped.tobytes()])


def _unpack_pedal(body: bytes, at: int, size: int) -> tuple[Whole, int]:
    """Axis counts of the pedal that begins at byte `at`, and the byte at which the next begins."""
    (unit,) = _UNIT.unpack_from(body, at)
    at += _UNIT.size
    folded = np.frombuffer(body, np.uint8, size, at).astype(np.int64)
    at += size
    big = np.flatnonzero(folded == _ESCAPE)
    if big.size:
        folded[big] = np.frombuffer(body, "<u8", big.size, at)
    steps = np.where(folded % 2 == 1, -(folded + 1) // 2, folded // 2)
    return np.cumsum(unit * steps, dtype=np.int64), at + 8 * big.size
