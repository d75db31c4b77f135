"""Log of events as JSON lines, for bug reports and for scripts that drive the game."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from contextlib import suppress
from pathlib import Path
from typing import TextIO

from drills.refusal import Refusal
from drills.trace import SECOND
from engine.console import warn
from engine.errors import reason_of
from engine.pedals.port import Clock


class EventsError(Refusal):
    """The file of `--events` cannot be written. The message is one line for the player."""


class Events:
    """Events file: appends one JSON line for each event; without a path it does nothing.

    A link or a pipe at the path is followed: appending takes nothing away, and a script may listen.
    When the file can no longer be written, one warning is given and the game continues without it.
    """

    def __init__(self, path: Path | None, clock: Clock, warn: Callable[[str], None] = warn) -> None:
        """`warn` is told if writing fails later. Raises EventsError if the file does not open."""
        self._path = path
        self._clock = clock
        self._warn = warn
        self._file: TextIO | None = None
        if path is not None:
            try:
                self._file = path.open("a", 1, encoding="utf-8", newline="\n")
            except OSError as error:
                raise EventsError(
                    f"--events {path}: expected a file to write to, found: {reason_of(error)}"
                ) from error

    def note(
        self, event: str, fields: Mapping[str, object] | None = None, at: int | None = None
    ) -> None:
        """Append one event to the events file. `at` is its time in ns; the default is now."""
        if self._file is not None:
            time = self._clock() if at is None else at
            line = {"t": round(time / SECOND, 6), "event": event, **(fields or {})}
            try:
                self._file.write(json.dumps(line) + "\n")
            except OSError as error:
                self._give_up_file(error)

    def close(self) -> None:
        """Close the events file."""
        if self._file is not None:
            try:
                self._file.close()
            except OSError as error:
                self._give_up_file(error)

    def _give_up_file(self, error: OSError) -> None:
        file, self._file = self._file, None
        if file is not None:
            with suppress(OSError):
                file.close()
        self._warn(
            f"--events {self._path}: cannot be written any more ({reason_of(error)}); "
            "the game goes on without it"
        )
