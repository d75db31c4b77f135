"""Commands of the program, run in this process or in one of their own, and judged by their end."""

import io
import os
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, redirect_stderr, redirect_stdout
from dataclasses import dataclass
from types import FrameType

from engine.commands.main import main
from tests.bench.attempts.attempt import ROOT, Finding, raised, wrong

LONGEST = 5.0
"""Seconds of processor time after which a command is taken to hang."""
GIVEN_UP = 30.0
"""Seconds after which a command is ended from outside: it waits for something in vain."""
WORST = 300
"""Largest length in characters of an error that still counts as one line."""
REFUSED = 2
"""Exit code of a command that refuses what it was given."""
OF_DAMAGE = (
    *("can be read", "could be read", "cannot be read", "may be missing", "is lost"),
    "damaged file",
)
"""Words of lines that tell of a damaged history and are no error by themselves."""


class HungError(BaseException):
    """A command in this process was not over in time; it passes every `except Exception`."""


@dataclass(frozen=True)
class Ended:
    """How a command ended."""

    words: Sequence[str]
    """Its command line."""
    code: int | None
    """Exit code, negative for a signal; None where it did not end by itself."""
    out: str
    """What it wrote to standard output."""
    err: str
    """What it wrote to standard error."""
    raised: str
    """Exception that left the program, in one line; empty for none."""
    seconds: float
    """Processor time in seconds; 0 for a process of its own."""

    @property
    def name(self) -> str:
        """The command itself, in a word or two."""
        options = [word for word in self.words[1:] if word.startswith("--") and word != "--data"]
        return " ".join([self.words[0] if self.words else "", *options[:1]])

    @property
    def said(self) -> str:
        """All that it wrote."""
        return self.out + self.err


def call(*words: str) -> Ended:
    """Run a command in this process."""
    out, err = io.StringIO(), io.StringIO()
    code, failure, began = None, "", time.process_time()
    with redirect_stdout(out), redirect_stderr(err):
        try:
            with _interrupted_after(GIVEN_UP):
                code = main(words)
        except HungError as hung:
            failure = f"hang, {raised(hung)}"
        except (Exception, SystemExit, KeyboardInterrupt) as error:
            failure = raised(error)
    took = time.process_time() - began
    return Ended(words, code, out.getvalue(), err.getvalue(), failure, took)


@contextmanager
def _interrupted_after(seconds: float) -> Iterator[None]:
    """Raise HungError in the body after so many seconds, where signals can do that."""
    if threading.current_thread() is not threading.main_thread():
        yield
        return

    def interrupt(_number: int, _frame: FrameType | None) -> None:
        raise HungError(f"not over after {seconds:g} s")

    before = signal.signal(signal.SIGALRM, interrupt)
    signal.setitimer(signal.ITIMER_REAL, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.signal(signal.SIGALRM, before)


def start(*words: str, module: str = "engine", **environment: str) -> "subprocess.Popen[str]":
    """Start a command in a process of its own, or another module of Python; its output is piped."""
    return subprocess.Popen(
        [sys.executable, "-m", module, *words],
        cwd=ROOT,
        env=os.environ | {"PYGAME_HIDE_SUPPORT_PROMPT": "1"} | environment,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        errors="backslashreplace",
    )


def end(process: "subprocess.Popen[str]", longest: float = GIVEN_UP) -> Ended:
    """Wait for a process; one that takes longer than so many seconds is killed."""
    words = [str(word) for word in list(process.args)[3:]]  # type: ignore[arg-type]
    try:
        out, err = process.communicate(timeout=longest)
        code: int | None = process.returncode
    except subprocess.TimeoutExpired:
        process.kill()
        out, err = process.communicate()
        code = None
    trace = err.splitlines()[-1] if "Traceback" in err else ""
    return Ended(words, code, out, err, trace, 0.0)


def run(*words: str, **environment: str) -> Ended:
    """Run a command in a process of its own."""
    return end(start(*words, **environment))


def faults(ended: Ended, allowed: Sequence[int] = (0, 2)) -> Iterator[Finding]:
    """What is wrong with the end of a command that may have these exit codes."""
    name = ended.name
    if ended.raised:
        yield wrong(f"{name}: {ended.raised}")
        return
    if ended.code is None:
        yield wrong(f"{name}: hang, not over after {GIVEN_UP:g} s")
        return
    if ended.seconds > LONGEST:
        yield wrong(f"{name}: over {LONGEST:g} s of processor time")
    if ended.code not in allowed:
        said = f": {ended.err.strip()}"[:WORST] if ended.code == REFUSED else ""
        yield wrong(f"{name}: exit code {ended.code}{said}")
    if ended.code == REFUSED:
        yield from _faults_of_refusal(ended)


def _faults_of_refusal(ended: Ended) -> Iterator[Finding]:
    """What is wrong with an error: it is one line, after those that tell of a damaged history."""
    lines = [line for line in ended.err.splitlines() if line.strip()]
    if not all(line.startswith("stillfoot: ") for line in lines):
        yield wrong(f"{ended.name}: refused by another than the program: {ended.err[:WORST]}")
    errors = [line for line in lines if not any(word in line for word in OF_DAMAGE)]
    if len(errors or lines) != 1:
        yield wrong(f"{ended.name}: refused in {len(lines)} lines")
