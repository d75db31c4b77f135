"""Devices that are unplugged and plugged in again, in a process each: SDL itself might crash."""

from collections.abc import Iterator
from pathlib import Path

from tests.bench.attempts.attempt import Finding, wrong
from tests.bench.attempts.command import end, faults, start


def replugged(number: int, _folder: Path) -> Iterator[Finding]:
    """Let three devices come and go in an order of their own."""
    ended = end(start(str(number), module="tests.bench.attempts.replugging"))
    yield from faults(ended, allowed=(0,))
    for line in ended.out.splitlines():
        if line.startswith("wrong: "):
            yield wrong(line.removeprefix("wrong: "))
