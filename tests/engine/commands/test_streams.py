"""Commands whose standard streams are closed or full report it in one line."""

import subprocess
import sys
from pathlib import Path

import pytest

from tests.engine.commands.command import ROOT
from tests.needs import full_device, shell

pytestmark = [shell, full_device]

FULL = "standard output: expected a place to write to, found: No space left on device"
CLOSED = "standard output: expected a place to write to, found it closed"


def run(arguments: str, redirected: str) -> subprocess.CompletedProcess[str]:
    """Run the command in a shell with redirected standard streams."""
    return subprocess.run(
        ["sh", "-c", f"exec {sys.executable} -m engine {arguments} {redirected}"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )


@pytest.fixture
def recording(tmp_path: Path) -> Path:
    """A short recording without blips."""
    path = tmp_path / "one.csv"
    path.write_text("time,brake,throttle\n0,60,0\n1,60,0\n", encoding="utf-8")
    return path


@pytest.mark.parametrize(
    "arguments", ["demo --headless --json --reps 1", "score {file}", "--help", "--version"]
)
@pytest.mark.parametrize(("redirected", "said"), [("> /dev/full", FULL), (">&-", CLOSED)])
def test_output_that_cannot_be_written_is_reported_in_one_line(
    recording: Path, arguments: str, redirected: str, said: str
) -> None:
    ended = run(arguments.format(file=recording), redirected)

    assert ended.stderr == f"stillfoot: {said}\n"
    assert (ended.returncode, ended.stdout) == (2, "")


@pytest.mark.parametrize("redirected", ["2>&-", "2> /dev/full"])
def test_without_standard_error_the_exit_code_still_shows_the_error(redirected: str) -> None:
    ended = run("score missing.csv", redirected)

    assert (ended.returncode, ended.stdout, ended.stderr) == (2, "", "")


def test_without_standard_error_only_the_warning_is_lost() -> None:
    usual = run("demo --headless --reps 1", "")

    ended = run("demo --headless --reps 1 --events /dev/full", "2>&-")

    assert (ended.returncode, ended.stdout) == (0, usual.stdout)


def test_a_closed_standard_input_is_reported_in_one_line() -> None:
    ended = run("score -", "<&-")

    assert ended.stderr == (
        "stillfoot: standard input: expected a recording to read, found it closed\n"
    )
    assert (ended.returncode, ended.stdout) == (2, "")


def test_an_unreadable_standard_input_is_reported_in_one_line() -> None:
    ended = run("score -", "< /dev/null 0> /dev/null")

    assert ended.stderr == (
        "stillfoot: standard input: expected a file to read, found: Bad file descriptor\n"
    )
    assert (ended.returncode, ended.stdout) == (2, "")


def test_a_reader_that_closes_the_pipe_is_not_an_error() -> None:
    ended = run("demo --headless --reps 3", "| true")

    assert (ended.returncode, ended.stdout, ended.stderr) == (0, "", "")


def test_a_full_events_file_gives_one_warning_and_the_game_continues() -> None:
    usual = run("demo --headless --json --reps 2", "")

    ended = run("demo --headless --json --reps 2 --events /dev/full", "")

    assert ended.stderr == (
        "stillfoot: --events /dev/full: cannot be written any more (No space left on device); "
        "the game goes on without it\n"
    )
    assert (ended.returncode, ended.stdout) == (0, usual.stdout)


def test_characters_that_standard_error_cannot_write_are_escaped() -> None:
    ended = subprocess.run(
        [sys.executable, "-m", "engine", "score", b"gr\xfcn\x1b[1m\ttab"],
        cwd=ROOT,
        env={"PYTHONIOENCODING": "ascii:strict"},
        capture_output=True,
        text=True,
        check=False,
    )

    assert ended.stderr == (
        "stillfoot: gr\\udcfcn\\x1b[1m\\ttab: expected a file to read, "
        "found: No such file or directory\n"
    )
    assert (ended.returncode, ended.stdout) == (2, "")
