"""Long work done in pieces, one after the other or on all cores; what comes of it in order."""

from __future__ import annotations

import multiprocessing
import os
import signal
from collections import deque
from collections.abc import Callable, Generator, Iterable
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from multiprocessing.connection import wait
from threading import Thread
from typing import Protocol, TypeVar

from engine.store.error import StoreError

MOST = 61
"""count of processes: Windows can wait for no more at once."""
AHEAD = 2
"""count of pieces for each core that are begun before the oldest is taken: more wait in memory."""

Job = TypeVar("Job")
Done = TypeVar("Done")


class Spread(Protocol):
    """Does each job and gives what came of it, in order; ended early, it leaves nothing running."""

    def __call__(
        self, work: Callable[[Job], Done], jobs: Iterable[Job], /
    ) -> Generator[Done, None, None]: ...


Cores = Callable[[int], Spread]
"""How to spread work of so many pieces."""
Tell = Callable[[int, int], None]
"""Told how much is done, and of how much."""


def one_by_one(work: Callable[[Job], Done], jobs: Iterable[Job]) -> Generator[Done, None, None]:
    """Do the jobs in this process."""
    yield from map(work, jobs)


def on_cores(count: int) -> Spread:
    """Do jobs on so many cores, a process each; work and jobs must be known by their modules."""

    def spread(work: Callable[[Job], Done], jobs: Iterable[Job]) -> Generator[Done, None, None]:
        before = multiprocessing.active_children()
        # Started anew, as on Windows: a copy of this process would share its open history.
        pool = ProcessPoolExecutor(count, multiprocessing.get_context("spawn"), _begin)
        waiting: deque[Future[Done]] = deque()
        try:
            for job in jobs:
                waiting.append(pool.submit(work, job))
                if len(waiting) > AHEAD * count:
                    yield waiting.popleft().result()
            while waiting:
                yield waiting.popleft().result()
        except BrokenProcessPool as error:
            raise StoreError(
                "the other cores: expected them to go on, found one of them stopped"
            ) from error
        except BaseException:
            for child in multiprocessing.active_children():
                if child not in before:
                    child.terminate()
            raise
        finally:
            pool.shutdown(cancel_futures=True)

    return spread


def all_cores(pieces: int) -> Spread:
    """Over all the cores there are, or as many as there are pieces."""
    cores = min(cores_there(), pieces, MOST)
    return on_cores(cores) if cores > 1 else one_by_one


def cores_there() -> int:
    """count of the cores that this process may run on."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


def _begin() -> None:
    """Let whoever started this process end it, and nobody else."""
    # An interrupt from the keyboard reaches both.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    Thread(target=_end_with_parent, daemon=True).start()


def _end_with_parent() -> None:
    """End with the process that started this one: killed, it can tell nobody to stop."""
    parent = multiprocessing.parent_process()
    if parent is not None:
        wait([parent.sentinel])
        os._exit(1)
