"""Ways a player ends a command from outside it: Ctrl-C, a closed terminal, a request to end."""

from __future__ import annotations

import signal
from types import FrameType
from typing import Self

NAMES = ("SIGINT", "SIGTERM", "SIGHUP", "SIGBREAK")
"""Signals that ask for the end, those of them that the system has."""


class Stopping:
    """While it is entered, signals are noted and end nothing by themselves."""

    def __init__(self) -> None:
        self.asked = False

    def __enter__(self) -> Self:
        signals = [getattr(signal, name) for name in NAMES if hasattr(signal, name)]
        self._before = {one: signal.signal(one, self._ask) for one in signals}
        return self

    def __exit__(self, *_: object) -> None:
        for one, handler in self._before.items():
            signal.signal(one, handler)

    def _ask(self, number: int, frame: FrameType | None) -> None:
        self.asked = True
