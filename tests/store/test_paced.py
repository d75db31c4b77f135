"""Work in a thread of its own that runs only while it is permitted to."""

from collections.abc import Callable
from itertools import pairwise

import pytest

from engine.store.paced import PacedThread, Pause
from tests.waiting import PATIENCE


def counting(done: list[int], last: int) -> Callable[[Pause], None]:
    """Work that counts to `last`, with a pause before each number."""

    def work(pause: Pause) -> None:
        for number in range(last):
            pause()
            done.append(number)

    return work


def paced(work: Callable[[Pause], None]) -> PacedThread:
    """Work that pauses each time it can, and is waited for until it does."""
    return PacedThread(work, lasts=0.0, patience=PATIENCE)


def step_until_done(thread: PacedThread) -> None:
    """Give permits until the work has ended."""
    while not thread.is_done:
        thread.step()


def test_the_work_goes_on_by_permits_alone() -> None:
    done: list[int] = []
    thread = paced(counting(done, 5))
    found = []

    while not thread.is_done:
        thread.step()
        found.append(list(done))
    thread.close()

    assert max(len(after) - len(before) for before, after in pairwise(found)) == 1
    assert done == list(range(5))
    assert thread.error is None


def test_a_permit_holds_for_a_while() -> None:
    done: list[int] = []
    thread = PacedThread(counting(done, 1000), lasts=PATIENCE, patience=PATIENCE)

    step_until_done(thread)

    assert len(done) == 1000


def test_work_that_overruns_its_permit_is_not_waited_for() -> None:
    times = iter(range(1000))
    done: list[int] = []
    thread = PacedThread(
        counting(done, 10), lasts=0.0, patience=0.0, clock=lambda: float(next(times))
    )

    step_until_done(thread)

    assert done == list(range(10))


def test_work_is_finished_without_permits() -> None:
    done: list[int] = []
    thread = paced(counting(done, 1000))

    thread.finish()

    assert (thread.is_done, len(done)) == (True, 1000)


def test_work_that_is_closed_ends_where_it_is() -> None:
    done: list[int] = []
    thread = paced(counting(done, 1000))
    while len(done) < 3:
        thread.step()

    thread.close()

    assert (thread.is_done, len(done), thread.error) == (True, 3, None)


def test_what_the_work_raises_is_its_error() -> None:
    def work(pause: Pause) -> None:
        pause()
        raise ValueError("broken")

    thread = paced(work)

    step_until_done(thread)

    with pytest.raises(ValueError, match="broken"):
        raise thread.error or AssertionError
