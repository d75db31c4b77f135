"""Runner of long work in jobs, one after the other or on all cores, with results in order."""

from __future__ import annotations

import multiprocessing
import os
import signal
from collections import deque
from collections.abc import Callable, Generator, Iterable, Iterator
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from multiprocessing.connection import wait
from threading import Thread
from typing import Protocol, TypeVar

from engine.store.error import StoreError

MOST = 61
"""Largest number of worker processes at once: Windows can wait for no more."""
BEGUN = 2
"""Most jobs begun per core before the oldest result is taken, as waiting results fill memory."""

OF_A_TERMINAL = ("SIGINT", "SIGHUP")
"""Names of the signals that a terminal sends to every process of a command at once."""

Job = TypeVar("Job")
Done = TypeVar("Done")


class Spread(Protocol):
    """Does jobs and yields their results in order; closed early, it leaves no process behind."""

    def __call__(
        self, work: Callable[[Job], Done], jobs: Iterable[Job], /
    ) -> Generator[Done, None, None]: ...


Cores = Callable[[int], Spread]
"""Function that chooses how to spread a given number of jobs over the cores."""
Tell = Callable[[int, int], None]
"""Function that is told how many steps of long work are done, and of how many."""


def one_by_one(work: Callable[[Job], Done], jobs: Iterable[Job]) -> Generator[Done, None, None]:
    """Do jobs in this process; yield their results in order."""
    yield from map(work, jobs)


def on_cores(count: int) -> Spread:
    """Function that does jobs in `count` processes; work and jobs must be picklable."""

    def spread(work: Callable[[Job], Done], jobs: Iterable[Job]) -> Generator[Done, None, None]:
        before = multiprocessing.active_children()
        # Spawned and not forked: a forked process would share the open history.
        with _terminal_held():
            pool = ProcessPoolExecutor(count, multiprocessing.get_context("spawn"), _begin)
        waiting: deque[Future[Done]] = deque()
        try:
            for job in jobs:
                with _terminal_held():
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
    """Function that does jobs on all cores, but on no more of them than there are jobs."""
    cores = min(cores_there(), pieces, MOST)
    return on_cores(cores) if cores > 1 else one_by_one


def cores_there() -> int:
    """Number of processor cores that this process may run on."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


@contextmanager
def _terminal_held() -> Iterator[None]:
    """Context whose signals of a terminal wait for its end; processes started in it never get them.

    A new process would answer them with a traceback before it can be told not to.
    """
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(
        signal.SIG_BLOCK, [signal.Signals[name] for name in OF_A_TERMINAL]
    )
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _begin() -> None:
    """Prepare a worker process so that only the process that started it ends it."""
    # Where signals cannot be held, an interrupt from the keyboard reaches both.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    Thread(target=_end_with_parent, daemon=True).start()


def _end_with_parent() -> None:
    """End this worker process once the process that started it has ended, however it did."""
    parent = multiprocessing.parent_process()
    if parent is not None:
        wait([parent.sentinel])
        os._exit(1)
