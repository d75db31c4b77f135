"""`PacedThread`: long work in a thread of its own that runs only while it is permitted to.

SQLite copies and checks a database in one call each, which calls back now and then. The work waits
in that callback until the program's main thread has a few milliseconds to spare.
"""

from __future__ import annotations

import threading
import time
from collections.abc import Callable

LASTS = 0.004
"""How long the work goes on by one permit, in s."""
PATIENCE = 0.005
"""How long the thread that gives a permit waits for the work to pause again, in s.

Only a slow disk makes the work overrun its permit; it then pauses as soon as it can."""
LOOK = 0.1
"""Time between two looks whether the work is done, in s: a signal can end the wait for it."""

Pause = Callable[[], None]
"""Function that the work calls often; it returns once the work may go on."""
Seconds = Callable[[], float]
"""Clock in s."""


class StoppedError(Exception):
    """The work is to end unfinished; raised by its pause."""


class PacedThread:
    """Work in a thread of its own, permitted by steps, to its end, or not at all."""

    def __init__(
        self,
        work: Callable[[Pause], None],
        lasts: float = LASTS,
        patience: float = PATIENCE,
        clock: Seconds = time.perf_counter,
    ) -> None:
        """`lasts` and `patience` are as LASTS and PATIENCE. The work begins with the first step."""
        self.error: Exception | None = None
        """What the work raised; None while it goes on, and if it did what it should or stopped."""
        self.is_done = False
        """Whether the work has ended."""
        self._work = work
        self._lasts = lasts
        self._patience = patience
        self._clock = clock
        self._permit = threading.Event()
        self._paused = threading.Event()
        self._until = 0.0
        self._is_free = False
        self._is_stopped = False
        self._thread = threading.Thread(target=self._run, daemon=True)
        self._thread.start()

    def step(self) -> None:
        """Let the work go on for a short time, unless it still does so by the last permit."""
        if not self.is_done and self._paused.is_set():
            self._paused.clear()
            self._permit.set()
            self._paused.wait(self._patience)

    def finish(self, is_to_stop: Callable[[], bool] = lambda: False) -> None:
        """Let the work go on without a pause, and wait until it has ended.

        `is_to_stop` is asked now and then whether to end it unfinished instead.
        """
        if is_to_stop():
            self.close()
        self._is_free = True
        self._permit.set()
        while self._thread.is_alive():
            self._thread.join(LOOK)
            if is_to_stop():
                self.close()

    def close(self) -> None:
        """End the work where it is, and wait for that."""
        self._is_stopped = True
        self._permit.set()
        self._thread.join()

    def _run(self) -> None:
        try:
            self._pause()
            self._work(self._pause)
        except Exception as error:
            self.error = None if self._is_stopped else error
        finally:
            self.is_done = True
            self._paused.set()

    def _pause(self) -> None:
        """Wait for a permit, unless the last one still holds. Raises StoppedError."""
        if not self._is_free and self._clock() >= self._until:
            self._paused.set()
            self._permit.wait()
            if not self._is_free:
                self._permit.clear()
            self._until = self._clock() + self._lasts
        if self._is_stopped:
            raise StoppedError
