"""Records of the SQLite file format: the values of one row, decoded from its bytes.

After https://www.sqlite.org/fileformat2.html, section 2.1 ("Record Format"). Text is UTF-8; bytes
that are not become U+FFFD.
"""

from __future__ import annotations

import struct

Value = int | float | str | bytes | None
"""One cell of a table, as SQLite has it."""
_SIZES = (0, 1, 2, 3, 4, 6, 8, 8, 0, 0)
"""Length of the values of the serial types 0 to 9, in bytes."""
_REAL = 7
"""Serial type of an IEEE 754 number, big-endian."""
_SHORTEST_BLOB = 12
"""Serial type of an empty blob: from here on even types are blobs, odd ones texts."""


class RecordError(ValueError):
    """Bytes are not a record."""


def varint(data: bytes, at: int) -> tuple[int, int]:
    """Signed whole number of 1 to 9 bytes at an offset, and the offset after it.

    Raises RecordError if the data end before it does.
    """
    value = 0
    try:
        for place in range(at, at + 8):
            byte = data[place]
            value = value << 7 | byte & 0x7F
            if byte < 0x80:
                return value, place + 1
        value = value << 8 | data[at + 8]
    except IndexError as error:
        raise RecordError("a number that ends early") from error
    return (value - 2**64 if value >= 2**63 else value), at + 9


def decode(payload: bytes) -> tuple[Value, ...]:
    """Values of a record that fills its payload exactly. Raises RecordError."""
    end, at = varint(payload, 0)
    if not at <= end <= len(payload):
        raise RecordError("a header that ends nowhere")
    values: list[Value] = []
    body = end
    while at < end:
        kind, at = varint(payload, at)
        size = _size(kind)
        if body + size > len(payload):
            raise RecordError("a value that ends early")
        values.append(_value(kind, payload[body : body + size]))
        body += size
    if at != end or body != len(payload):
        raise RecordError("a record of another length")
    return tuple(values)


def _size(kind: int) -> int:
    if kind >= _SHORTEST_BLOB:
        return (kind - _SHORTEST_BLOB) // 2
    if not 0 <= kind < len(_SIZES):
        raise RecordError("a serial type that is reserved")
    return _SIZES[kind]


def _value(kind: int, data: bytes) -> Value:
    if kind >= _SHORTEST_BLOB:
        return data.decode("utf-8", "replace") if kind % 2 else data
    if kind == 0:
        return None
    if kind >= 8:
        return kind - 8
    if kind == _REAL:
        number = float(struct.unpack(">d", data)[0])
        # SQLite has no such number: it reads it as NULL.
        return None if number != number else number
    return int.from_bytes(data, "big", signed=True)
