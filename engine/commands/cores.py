"""Long work in jobs, done one after the other or on all cores; their results in order."""

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
"""Most processes at once: Windows can wait for no more."""
BEGUN = 2
"""Most jobs begun for each core before the oldest result is taken: their results fill memory."""

Job = TypeVar("Job")
Done = TypeVar("Done")


class Spread(Protocol):
    """Does jobs and yields their results in order; closed early, it leaves no process behind."""

    def __call__(
        self, work: Callable[[Job], Done], jobs: Iterable[Job], /
    ) -> Generator[Done, None, None]: ...


Cores = Callable[[int], Spread]
"""Chooses how to spread a number of jobs."""
Tell = Callable[[int, int], None]
"""Is told how many steps are done, and of how many."""


def one_by_one(work: Callable[[Job], Done], jobs: Iterable[Job]) -> Generator[Done, None, None]:
    """Do the jobs in this process."""
    yield from map(work, jobs)


def on_cores(count: int) -> Spread:
    """Do jobs on a number of cores, in a process each; work and jobs must be picklable."""

    def spread(work: Callable[[Job], Done], jobs: Iterable[Job]) -> Generator[Done, None, None]:
        before = multiprocessing.active_children()
        # Spawned and not forked: a forked process would share the open history.
        pool = ProcessPoolExecutor(count, multiprocessing.get_context("spawn"), _begin)
        waiting: deque[Future[Done]] = deque()
        try:
            for job in jobs:
                waiting.append(pool.submit(work, job))
                if len(waiting) > BEGUN * count:
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
    """Spread jobs over all cores, at most one core for each job."""
    cores = min(cores_there(), pieces, MOST)
    return on_cores(cores) if cores > 1 else one_by_one


def cores_there() -> int:
    """Number of cores that this process may run on."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


def _begin() -> None:
    """Prepare a worker process, which the process that started it ends and nothing else."""
    # An interrupt from the keyboard reaches both.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    Thread(target=_end_with_parent, daemon=True).start()


def _end_with_parent() -> None:
    """End this worker when the process that started it has ended, however it did."""
    parent = multiprocessing.parent_process()
    if parent is not None:
        wait([parent.sentinel])
        os._exit(1)
