"""Jobs spread over processes: results in order, and no process left, however it ends."""

import multiprocessing
import os
import subprocess
import sys

import pytest

from engine.commands.cores import all_cores, on_cores, one_by_one
from engine.store import StoreError
from tests.needs import process_pools

pytestmark = process_pools


def test_results_are_in_the_order_of_the_jobs_and_no_process_is_left() -> None:
    found = list(on_cores(1)(abs, iter(range(-9, 0))))

    assert found == list(range(9, 0, -1))
    assert multiprocessing.active_children() == []


def test_work_stopped_early_leaves_no_process() -> None:
    done = on_cores(1)(abs, iter(range(-90, 0)))
    first = next(done)

    done.close()

    assert first == 90
    assert multiprocessing.active_children() == []


def test_a_process_that_dies_is_reported_in_one_line() -> None:
    with pytest.raises(StoreError) as refused:
        list(on_cores(1)(os._exit, iter([3])))

    assert str(refused.value) == (
        "the other cores: expected them to go on, found one of them stopped"
    )


def test_a_program_that_is_killed_leaves_no_process() -> None:
    script = (
        "import time; from engine.commands.cores import on_cores;"
        "work = on_cores(1)(time.sleep, iter([0.0, 600.0])); next(work);"
        "print('going', flush=True); next(work)"
    )
    program = subprocess.Popen([sys.executable, "-c", script], stdout=subprocess.PIPE, text=True)
    assert program.stdout is not None
    begun = program.stdout.readline()

    program.kill()

    # What it writes to ends when no process holds it any more.
    rest, _ = program.communicate(timeout=20)
    assert (begun, rest) == ("going\n", "")


def test_a_single_job_is_done_in_this_process() -> None:
    assert all_cores(1) is one_by_one
    assert all_cores(0) is one_by_one
    assert list(one_by_one(abs, iter([-1, -2]))) == [1, 2]
