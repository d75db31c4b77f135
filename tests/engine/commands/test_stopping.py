"""Signals that ask a process to end: its exit code, and that it writes no traceback."""

import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from engine.commands.stopping import NAMES, Stopping
from tests.engine.commands.command import ROOT
from tests.needs import process_pools, signals

pytestmark = signals

CODES = {"SIGINT": 130, "SIGTERM": 143, "SIGHUP": 129}
"""Exit code of a process after each signal, as shells have it."""
EVERY_SIGNAL = pytest.mark.parametrize(("name", "code"), CODES.items(), ids=CODES)
PATIENCE = 60.0
"""Seconds after which a process that does not end is given up."""

HEARING = """
import signal, sys
for name in ("SIGINT", "SIGTERM", "SIGHUP"):
    signal.signal(signal.Signals[name], signal.SIG_DFL)
from engine.commands.stopping import Stopping, exit_code_of
"""
"""Beginning of every script: whatever the tests were started with, no signal is ignored."""
DEMO = """
from engine.__main__ import run
sys.exit(run())
"""
NOTED = """
with Stopping() as stopping:
    for name in sys.argv[1:]:
        signal.raise_signal(signal.Signals[name])
    print(stopping.code)
"""
SWALLOWED = """
from engine.commands import main
from drills.refusal import Refusal

def refused(given):
    try:
        signal.raise_signal(signal.SIGTERM)
    except BaseException:
        raise Refusal("interrupted") from None

main._parser = refused
sys.exit(exit_code_of(lambda stopping: main.main([], stopping=stopping)))
"""
WORKING = """
import time
from engine.commands.cores import on_cores

def work(stopping):
    done = on_cores(2)(time.sleep, iter([0.0, 600.0, 600.0]))
    next(done)
    print("going", flush=True)
    next(done)

if __name__ == "__main__":
    sys.exit(exit_code_of(work))
"""


def started(script: str, *arguments: str) -> subprocess.Popen[str]:
    """A script in a process, and a group of processes, of its own."""
    return subprocess.Popen(
        [sys.executable, "-c", HEARING + script, *arguments],
        cwd=ROOT,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
    )


def ended(process: subprocess.Popen[str]) -> tuple[int, str, str]:
    """Exit code, output and errors of a process, once it has ended."""
    with process:
        try:
            out, err = process.communicate(timeout=PATIENCE)
        finally:
            process.kill()
    return process.returncode, out, err


def first_line(process: subprocess.Popen[str]) -> str:
    """First line that a process writes."""
    assert process.stdout is not None
    return process.stdout.readline()


@pytest.fixture(params=[name for name in NAMES if hasattr(signal, name)])
def heard(request: pytest.FixtureRequest) -> Iterator[signal.Signals]:
    """Each signal to end, which this process does not ignore meanwhile."""
    number = signal.Signals[request.param]
    before = signal.signal(number, signal.SIG_DFL)
    yield number
    signal.signal(number, before)


def test_every_signal_to_end_is_noted_and_does_not_end_the_process(heard: signal.Signals) -> None:
    with Stopping() as stopping:
        before = (stopping.asked, stopping.code)
        signal.raise_signal(heard)

        assert before == (False, 0)
        assert (stopping.asked, stopping.code) == (True, 128 + heard)
    assert signal.getsignal(heard) is signal.SIG_DFL


@EVERY_SIGNAL
def test_a_headless_command_ends_without_a_word(name: str, code: int) -> None:
    demo = started(DEMO, "demo", "--headless", "--reps", "10000")
    line = first_line(demo)

    demo.send_signal(signal.Signals[name])

    found, _, err = ended(demo)
    assert (found, err) == (code, "")
    assert line.startswith("  1 ")


@EVERY_SIGNAL
def test_an_export_that_is_ended_leaves_nothing_behind(
    tmp_path: Path, name: str, code: int
) -> None:
    script = f"""
from engine.commands.main import main
from engine.store import export
data, folder = sys.argv[1:]
write = export._write_table

def end(*arguments):
    write(*arguments)
    signal.raise_signal(signal.{name})

main(["demo", "--headless", "--reps", "1", "--data", data])
export._write_table = end
command = ["export", folder, "--data", data]
sys.exit(exit_code_of(lambda stopping: main(command, stopping=stopping)))
"""
    folder = tmp_path / "exported"

    found, _, err = ended(started(script, str(tmp_path / "data"), str(folder)))

    assert (found, err) == (code, "")
    assert not folder.exists()


def test_an_error_that_only_a_signal_made_is_not_told() -> None:
    assert ended(started(SWALLOWED)) == (143, "", "")


@pytest.mark.parametrize(
    ("names", "found"),
    [
        (["SIGTERM", "SIGINT"], (143, "", "")),
        (["SIGHUP", "SIGTERM"], (129, "", "")),
        (["SIGINT", "SIGHUP"], (0, "130\n", "")),
        (["SIGHUP", "SIGHUP"], (0, "129\n", "")),
    ],
)
def test_a_second_signal_ends_at_once_but_not_one_of_a_closed_terminal(
    names: list[str], found: tuple[int, str, str]
) -> None:
    assert ended(started(NOTED, *names)) == found


def test_a_closed_terminal_ends_nothing_that_was_started_to_outlive_it() -> None:
    script = "signal.signal(signal.SIGHUP, signal.SIG_IGN)" + NOTED

    assert ended(started(script, "SIGHUP")) == (0, "0\n", "")


@process_pools
@EVERY_SIGNAL
def test_a_signal_to_all_processes_of_a_command_ends_them_without_a_word(
    tmp_path: Path, name: str, code: int
) -> None:
    script = tmp_path / "working.py"
    script.write_text(f"{HEARING}{WORKING}", encoding="utf-8")
    working = subprocess.Popen(
        [sys.executable, str(script)],
        cwd=ROOT,
        env=os.environ | {"PYTHONPATH": str(ROOT)},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
    )
    assert first_line(working) == "going\n"

    os.killpg(working.pid, signal.Signals[name])

    assert ended(working) == (code, "", "")
