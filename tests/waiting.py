"""All waiting in tests: for a predicate, a moment, or an event in the events file."""

import json
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

T = TypeVar("T")
PATIENCE = 240.0
"""Seconds after which a test gives up on anything: a safety net that a busy machine never needs."""
POLL = 0.002
"""Seconds between two looks at a predicate or at the events file."""


def wait_for(
    predicate: Callable[[], T],
    timeout: float = PATIENCE,
    poll: float = POLL,
    awaited: Callable[[], str] = str,
) -> T:
    """Poll until `predicate()` is true and return its value.

    Raises TimeoutError after `timeout` seconds; `awaited()` is asked only then, and says for what.
    """
    deadline = time.monotonic() + timeout
    while not (found := predicate()):
        if time.monotonic() > deadline:
            raise TimeoutError(f"waited {timeout:g} s in vain{awaited()}")
        time.sleep(poll)
    return found


def wait_until(moment: float) -> None:
    """Return at a moment on the monotonic clock, in seconds; at once where it has passed.

    For what has a pace of its own, such as a foot that moves; a test that waits for the game to do
    something waits for that instead.
    """
    while (left := moment - time.monotonic()) > 0:
        time.sleep(left)


class EventTail:
    """Follows a file of JSON objects, one a line, while another process writes it."""

    def __init__(self, path: Path, poll: float = POLL) -> None:
        """`poll` is in seconds, between two looks at the file."""
        self._path, self._poll = path, poll
        self._offset = 0  # bytes read, always up to the end of a whole line
        self._seen: list[dict[str, Any]] = []
        self._next = 0  # index of the first event no wait() has gone past

    @property
    def seen(self) -> list[dict[str, Any]]:
        """All events written so far, oldest first; a line still being written is left for later."""
        if self._path.exists():
            with self._path.open("rb") as file:
                file.seek(self._offset)
                lines = file.read().splitlines(keepends=True)
            for line in lines:
                if line.endswith(b"\n"):
                    self._take(line)
        return list(self._seen)

    def _take(self, line: bytes) -> None:
        try:
            self._seen.append(dict(json.loads(line)))
        except (ValueError, TypeError):
            where = f"{self._path}, line {len(self._seen) + 1}"
            raise ValueError(f"{where}: expected a JSON object, found {line!r}") from None
        self._offset += len(line)

    def wait(
        self, matches: Callable[[dict[str, Any]], bool], timeout: float = PATIENCE
    ) -> dict[str, Any]:
        """First matching event after the one the last wait() returned; `timeout` in seconds."""

        def found() -> int:
            later = enumerate(self.seen[self._next :], self._next + 1)
            return next((after for after, event in later if matches(event)), 0)

        self._next = wait_for(found, timeout, self._poll, self._last_events)
        return self._seen[self._next - 1]

    def _last_events(self) -> str:
        last = "\n".join(f"  {json.dumps(event)}" for event in self._seen[-10:]) or "  none"
        return f" for an event in {self._path}; the last ones:\n{last}"
