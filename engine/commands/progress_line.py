"""How far long work has come: one line on a terminal, written over and over; nothing elsewhere."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from contextlib import suppress
from typing import Self, TextIO

EVERY = 0.2
"""s from one writing to the next: more often nobody reads."""


class ProgressLine:
    """A line that tells a share; a context manager that clears it."""

    def __init__(self, what: str, stream: TextIO | None, clock: Callable[[], float]) -> None:
        """`what` is being done, `clock` tells s; nothing is written where no terminal is."""
        self._what = what
        self._stream = stream if _is_terminal(stream) else None
        self._clock = clock
        self._written = ""
        self._when = -EVERY

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        if self._written:
            self._write(f"\r{' ' * len(self._written)}\r")

    def tell(self, done: int, of: int) -> None:
        """Tell how much is done, and of how much."""
        now = self._clock()
        line = f"{self._what}: {100 * done // max(of, 1)} %"
        if line == self._written or now - self._when < EVERY:
            return
        self._write(f"\r{line}")
        self._written, self._when = line, now

    def _write(self, text: str) -> None:
        """Write to the terminal; one that has gone must not end the work."""
        if self._stream is None:
            return
        with suppress(OSError, ValueError):
            self._stream.write(text)
            self._stream.flush()


def progress(what: str) -> ProgressLine:
    """A line on standard error that says how far work has come."""
    return ProgressLine(what, sys.stderr, time.monotonic)


def _is_terminal(stream: TextIO | None) -> bool:
    return stream is not None and not stream.closed and stream.isatty()
