"""Steps of a program that change what is on the disk, and something that happens at one of them."""

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import cache

CHANGES = {
    "os.link",
    "os.mkdir",
    "os.remove",
    "os.rename",
    "os.rmdir",
    "os.truncate",
    "shutil.copyfile",
    "sqlite3.connect",
}
"""Audit events of Python for a change on the disk, besides files opened to be written."""

Act = Callable[[str], None]
"""Function that is told the name of the event it happens at; it may raise."""


class Steps:
    """Audit hook that counts steps and acts at one of them; Python can take no hook away again."""

    def __init__(self) -> None:
        self._left = 0
        self._act: Act | None = None
        sys.addaudithook(self._hear)

    @contextmanager
    def at(self, number: int, act: Act) -> Iterator[None]:
        """Act at step `number`, from 1, of those that come in the body."""
        self._left, self._act = number, act
        try:
            yield
        finally:
            self._act = None

    def _hear(self, event: str, arguments: tuple[object, ...]) -> None:
        if self._act is None or not _is_change(event, arguments):
            return
        self._left -= 1
        if self._left == 0:
            act, self._act = self._act, None
            act(event)


@cache
def steps() -> Steps:
    """The one hook of this process."""
    return Steps()


def _is_change(event: str, arguments: tuple[object, ...]) -> bool:
    if event != "open":
        return event in CHANGES
    mode = arguments[1]
    return isinstance(mode, str) and not {"w", "a", "x", "+"}.isdisjoint(mode)
