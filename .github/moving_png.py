"""PNG files, still and moving (APNG), in few colours: PNG specification, 3rd edition, W3C 2025."""

from __future__ import annotations

import struct
import zlib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Pixels = NDArray[np.uint8]
"""Picture in red, green and blue, of shape (height, width, 3)."""
Indices = NDArray[np.uint8]
"""Picture as numbers in a palette, of shape (height, width): UNCHANGED, or those of colours."""

SIGNATURE = b"\x89PNG\r\n\x1a\n"
COLOURS = 255
"""Most colours that a palette holds beside UNCHANGED, as a count."""
UNCHANGED = 0
"""Number in the palette of no colour: a later picture leaves the pixel as it was."""
ALIKE = 8
"""Width of the range of a channel within which colours are taken together, out of 256."""


@dataclass(frozen=True)
class Frame:
    """One picture of a moving picture."""

    pixels: Pixels
    """The picture; all frames of one moving picture have the same shape."""
    milliseconds: int
    """Time that it is seen, in ms."""


def encoded(frames: Sequence[Frame]) -> bytes:
    """Bytes of a PNG: a still one of one frame, a moving one that repeats without end of several.

    Frames that look like the one before only make that one stay longer; of any other the smallest
    rectangle is stored that holds all pixels that differ.
    """
    palette, pictures = _in_few_colours([frame.pixels for frame in frames])
    parts = list(_parts(pictures, [frame.milliseconds for frame in frames]))
    height, width = pictures[0].shape
    chunks = [_chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 3, 0, 0, 0))]
    if len(parts) > 1:
        chunks.append(_chunk(b"acTL", struct.pack(">II", len(parts), 0)))
    chunks.append(_chunk(b"PLTE", bytes(3) + palette.tobytes()))
    chunks.append(_chunk(b"tRNS", bytes(1)))
    number = 0
    for place, (left, top, part, lasts) in enumerate(parts):
        tall, wide = part.shape
        if len(parts) > 1:
            shown = struct.pack(">IIIIIHHBB", number, wide, tall, left, top, lasts, 1000, 0, 1)
            chunks.append(_chunk(b"fcTL", shown))
            number += 1
        data = zlib.compress(np.pad(part, ((0, 0), (1, 0))).tobytes(), 9)
        if place == 0:
            chunks.append(_chunk(b"IDAT", data))
        else:
            chunks.append(_chunk(b"fdAT", struct.pack(">I", number) + data))
            number += 1
    return b"".join([SIGNATURE, *chunks, _chunk(b"IEND", b"")])


def _chunk(name: bytes, data: bytes) -> bytes:
    """Chunk of a PNG: its length, name, data and checksum."""
    return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))


def _parts(
    pictures: Sequence[Indices], milliseconds: Sequence[int]
) -> Iterator[tuple[int, int, Indices, int]]:
    """Left, top and pixels of what differs from the picture before, and how long it stays, in ms.

    The first is whole.
    """
    seen, lasts = pictures[0], milliseconds[0]
    left, top, part = 0, 0, seen
    for picture, milliseconds_more in zip(pictures[1:], milliseconds[1:], strict=True):
        rows, columns = np.nonzero(picture != seen)
        if not len(rows):
            lasts += milliseconds_more
            continue
        yield left, top, part, lasts
        left, top = int(columns.min()), int(rows.min())
        within = slice(top, rows.max() + 1), slice(left, columns.max() + 1)
        part = np.where(picture[within] == seen[within], UNCHANGED, picture[within])
        seen, lasts = picture, milliseconds_more
    yield left, top, part, lasts


def _in_few_colours(pictures: Sequence[Pixels]) -> tuple[Pixels, list[Indices]]:
    """Palette of at most COLOURS colours, of shape (count, 3), and the pictures in it.

    Colours that are alike are taken together, as the one that most pixels have. The palette holds
    those that most pixels have, and each pixel gets the nearest of them.
    """
    packed = [_packed(picture) for picture in pictures]
    of_each = [np.unique(one, return_counts=True) for one in packed]
    found, at = np.unique(np.concatenate([colours for colours, _ in of_each]), return_inverse=True)
    counts = np.bincount(at, weights=np.concatenate([count for _, count in of_each]))
    by_count = np.lexsort((found, -counts))
    alike = _packed(_unpacked(found) // ALIKE)
    _, first, place = np.unique(alike[by_count], return_index=True, return_inverse=True)
    together = np.bincount(place, weights=counts[by_count])
    most = first[np.lexsort((first, -together))[:COLOURS]]
    palette, every = _unpacked(np.sort(found[by_count[most]])), _unpacked(found)
    apart = ((every[:, None, :].astype(np.int32) - palette[None].astype(np.int32)) ** 2).sum(2)
    nearest = (UNCHANGED + 1 + apart.argmin(1)).astype(np.uint8)
    return palette, [nearest[np.searchsorted(found, one)] for one in packed]


def _packed(pixels: Pixels) -> NDArray[np.int32]:
    """Each colour of some pixels as one number; the last axis holds the channels."""
    channels = pixels.astype(np.int32)
    return (channels[..., 0] << 16) | (channels[..., 1] << 8) | channels[..., 2]


def _unpacked(colours: NDArray[np.int32]) -> Pixels:
    """Colours from their numbers, of shape (count, 3)."""
    return np.stack([colours >> 16, (colours >> 8) & 255, colours & 255], axis=-1).astype(np.uint8)
