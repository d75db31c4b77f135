"""A line of JSON for each thing that happens, for bug reports and for driving the game."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from contextlib import suppress
from pathlib import Path
from typing import TextIO

from drills.refusal import Refusal
from drills.trace import SECOND
from engine.console import warn
from engine.pedals.port import Clock


class EventsError(Refusal):
    """The events file cannot be written; the text is one line for the person."""


class Events:
    """Appends one JSON line for each event, or does nothing where no file was asked for.

    A file that cannot be written any more is warned of once, and ends nothing else.
    """

    def __init__(self, path: Path | None, clock: Clock, tell: Callable[[str], None] = warn) -> None:
        """`tell` is given the warning. Raises EventsError where the file cannot be opened."""
        self._path = path
        self._clock = clock
        self._tell = tell
        self._file: TextIO | None = None
        if path is not None:
            try:
                self._file = path.open("a", encoding="utf-8", buffering=1)
            except OSError as error:
                raise EventsError(
                    f"--events {path}: expected a file to write to, found: {error.strerror}"
                ) from error

    def note(
        self, event: str, fields: Mapping[str, object] | None = None, at: int | None = None
    ) -> None:
        """Write one event; `at` is its time in ns where that is not now."""
        if self._file is not None:
            time = self._clock() if at is None else at
            line = {"t": round(time / SECOND, 6), "event": event, **(fields or {})}
            try:
                self._file.write(json.dumps(line) + "\n")
            except OSError as error:
                self._go_on_without(error)

    def close(self) -> None:
        """Close the file."""
        if self._file is not None:
            try:
                self._file.close()
            except OSError as error:
                self._go_on_without(error)

    def _go_on_without(self, error: OSError) -> None:
        file, self._file = self._file, None
        if file is not None:
            with suppress(OSError):
                file.close()
        self._tell(
            f"--events {self._path}: cannot be written any more ({error.strerror}); "
            "the game goes on without it"
        )
