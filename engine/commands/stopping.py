"""Signals that ask a command to end: Ctrl-C, a closed terminal, a request from the system."""

from __future__ import annotations

import signal
from types import FrameType
from typing import Self

NAMES = ("SIGINT", "SIGTERM", "SIGHUP", "SIGBREAK")
"""Names of the signals that ask a process to end; some systems lack some of them."""


class Stopping:
    """Context in which a signal to end is only noted in `asked`, and ends nothing itself."""

    def __init__(self) -> None:
        self.asked = False

    def __enter__(self) -> Self:
        signals = [getattr(signal, name) for name in NAMES if hasattr(signal, name)]
        self._before = {number: signal.signal(number, self._ask) for number in signals}
        return self

    def __exit__(self, *_: object) -> None:
        for number, handler in self._before.items():
            signal.signal(number, handler)

    def _ask(self, number: int, frame: FrameType | None) -> None:
        self.asked = True
