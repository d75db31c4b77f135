"""Damage to files: random bytes, blocks of zeros, cut ends, damaged schemas."""

from collections.abc import Callable, Iterator
from random import Random

from tests.store.longer import PAGE

Damage = Callable[[bytearray, Random], None]


def flip_bytes(data: bytearray, rng: Random) -> None:
    """Change up to twenty bytes anywhere."""
    for _ in range(rng.randint(1, 20)):
        data[rng.randrange(len(data))] = rng.randrange(256)


def clear_blocks(data: bytearray, rng: Random) -> None:
    """Zero up to three blocks, as a disk loses them."""
    for _ in range(rng.randint(1, 3)):
        length = rng.choice((512, 1024, 4096))
        start = rng.randrange(len(data) // length) * length
        data[start : start + length] = bytes(length)


def cut_end(data: bytearray, rng: Random) -> None:
    """Cut the file anywhere after its first 100 bytes."""
    del data[rng.randrange(100, len(data)) :]


def damage_schema(data: bytearray, rng: Random) -> None:
    """Zero the first page or a part of it, or change many of its bytes."""
    if rng.random() < 0.5:
        start = rng.choice((0, 100, 512))
        data[start:PAGE] = bytes(PAGE - start)
    else:
        for _ in range(100):
            data[rng.randrange(PAGE)] = rng.randrange(256)


KINDS: dict[str, Damage] = {
    "bytes": flip_bytes,
    "zeros": clear_blocks,
    "cut": cut_end,
    "schema": damage_schema,
}


def touched(before: bytes, after: bytes) -> Iterator[int]:
    """Numbers of the pages, from 0, that are no longer as they were."""
    for start in range(0, len(before), PAGE):
        if before[start : start + PAGE] != after[start : start + PAGE]:
            yield start // PAGE
