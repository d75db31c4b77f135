"""Progress of long work as a percentage, on one line of a terminal that is written over."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from contextlib import suppress
from typing import Self, TextIO

EVERY = 0.2
"""Least time between two updates of the progress line, in s."""


class ProgressLine:
    """Progress line on a terminal; a context manager that clears it at the end."""

    def __init__(self, what: str, stream: TextIO | None, clock: Callable[[], float]) -> None:
        """`what` is being done; `clock` gives the time in s. Only a terminal is written to."""
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
        """Show on the line that `done` of `of` steps are done."""
        now = self._clock()
        line = f"{self._what}: {100 * done // max(of, 1)} %"
        if line == self._written or now - self._when < EVERY:
            return
        self._write(f"\r{line}")
        self._written, self._when = line, now

    def _write(self, text: str) -> None:
        """Write text to the terminal; a terminal that has gone does not end the work."""
        if self._stream is None:
            return
        with suppress(OSError, ValueError):
            self._stream.write(text)
            self._stream.flush()


def progress(what: str) -> ProgressLine:
    """Progress line on standard error for what is being done."""
    return ProgressLine(what, sys.stderr, time.monotonic)


def _is_terminal(stream: TextIO | None) -> bool:
    return stream is not None and not stream.closed and stream.isatty()
