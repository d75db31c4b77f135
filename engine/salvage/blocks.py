"""Content of a file on a failing disk, block by block: what the disk does not give is zeros."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import BinaryIO

from engine.errors import reason_of
from engine.store.error import StoreError

BLOCK = 65_536
"""Bytes that are read at a time."""
SECTOR = 512
"""Smallest part of a disk that fails as a whole, in bytes."""


def blocks_of(file: Path) -> Iterator[bytes]:
    """Content of a file in blocks. Raises StoreError if it cannot be opened."""
    try:
        size = file.stat().st_size
        opened = file.open("rb")
    except OSError as error:
        raise StoreError(f"{file}: expected a file to read, found: {reason_of(error)}") from error
    with opened:
        for start in range(0, size, BLOCK):
            yield readable(opened, start, min(BLOCK, size - start))


def readable(file: BinaryIO, start: int, length: int) -> bytes:
    """Bytes of a file from an offset on, with zeros for each sector that the disk does not give."""
    try:
        file.seek(start)
        return file.read(length).ljust(length, b"\x00")
    except OSError:
        if length <= SECTOR:
            return bytes(length)
        half = length // 2
        return readable(file, start, half) + readable(file, start + half, length - half)
