"""Time that a game gives to the day's copy of its history, step by step."""

import time
from datetime import date
from pathlib import Path

from engine.store import open_history
from engine.store.copies import automatic_copies, make_copy
from engine.store.history import FILE
from engine.store.paced import PacedThread

BLOCK = 1 << 20
"""Bytes of the file read at a time, as the baseline."""
BETWEEN = 0.010
"""Seconds from one step to the next, as on a still screen."""
DAY = date(2026, 11, 28)


def timed_copy(folder: Path) -> tuple[float, list[float]]:
    """Seconds to read a history file once, and seconds that the game waits for each step.

    Raises the error that ended the copy.
    """
    began = time.perf_counter()
    with (folder / FILE).open("rb") as file:
        while file.read(BLOCK):
            pass
    read = time.perf_counter() - began
    took = []
    with open_history(folder, []) as history:
        thread = PacedThread(lambda pause: make_copy(history, DAY, pause))
        while not thread.is_done:
            began = time.perf_counter()
            thread.step()
            took.append(time.perf_counter() - began)
            time.sleep(max(BETWEEN - took[-1], 0.0))
        thread.close()
    if thread.error is not None:
        raise thread.error
    for copy in automatic_copies(folder):
        copy.path.unlink()
    return read, took
