"""Signals that ask a command to end: Ctrl-C, a closed terminal, a request from the system.

Whatever a command does then, the process ends with the exit code of the first of them. A second
signal ends it at once.
"""

from __future__ import annotations

import os
import signal
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from types import FrameType
from typing import Self

NAMES = ("SIGINT", "SIGTERM", "SIGHUP", "SIGBREAK")
"""Names of the signals that ask a process to end; some systems lack some of them."""
HANGUP = "SIGHUP"
"""Name of the signal for a closed terminal. It stays ignored where the process was started so, as
`nohup` does, and it often comes twice, from the terminal and the shell: the second ends nothing."""
CODE = 128
"""Number added to that of a signal for the exit code of the process that it ended."""


class StoppedError(BaseException):
    """A signal asked the process to end. No Exception, so that nothing takes it for a failure."""


class Stopping:
    """Context in which the first signal to end is only noted, and ends nothing itself."""

    def __init__(self) -> None:
        self._number = 0

    @property
    def asked(self) -> bool:
        """Whether a signal has asked the process to end."""
        return self._number != 0

    @property
    def code(self) -> int:
        """Exit code of the process after the signal; 0 while there was none."""
        return CODE + self._number if self._number else 0

    def __enter__(self) -> Self:
        self._before = {number: signal.signal(number, self._note) for number in _signals()}
        return self

    def __exit__(self, *_: object) -> None:
        for number, handler in self._before.items():
            signal.signal(number, handler)

    def _note(self, number: int, _: FrameType | None) -> None:
        if not self._number:
            self._number = number
            self._on_first()
        elif number != getattr(signal, HANGUP, None):
            os._exit(self.code)

    def _on_first(self) -> None:
        """Respond to the first signal: nothing, as who opened this context looks at `asked`."""


class _Interrupting(Stopping):
    """Context for the whole of a process: the first signal to end raises StoppedError in it."""

    _over = False

    def __exit__(self, *_: object) -> None:
        # The process ends now: its handlers stay, as those of Python would write a traceback.
        self._over = True

    def _on_first(self) -> None:
        if self._over:
            os._exit(self.code)
        raise StoppedError


def exit_code_of(work: Callable[[Stopping], int]) -> int:
    """Exit code of the whole work of this process, or of the signal that ended it.

    The work is given what knows whether a signal has come: SQLite, for one, turns what is raised
    while it runs into an error of its own, which nobody needs to be told then.
    """
    stopping, code = _Interrupting(), 0
    try:
        with stopping:
            code = work(stopping)
    except StoppedError:
        pass
    return stopping.code or code


@contextmanager
def ended_by_signals() -> Iterator[None]:
    """Context in which a signal to end ends the process at once, though no Python code runs."""
    before = {number: signal.signal(number, signal.SIG_DFL) for number in _signals()}
    try:
        yield
    finally:
        for number, handler in before.items():
            signal.signal(number, handler)


def _signals() -> list[signal.Signals]:
    """Signals to end that this process listens to."""
    there = [signal.Signals[name] for name in NAMES if hasattr(signal, name)]
    return [
        one for one in there if one.name != HANGUP or signal.getsignal(one) is not signal.SIG_IGN
    ]
