"""Checks that the built programs do what the source does.

    python .package/check.py [FOLDER [CHECK ...]]

FOLDER holds the programs, `dist/stillfoot` unless named; all checks are made unless some are named,
such as `plays_the_same`. Run it with the Python of the working copy. Prints a line for each check;
the exit code is 1 where one fails.
"""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path

TOP = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(TOP))

from engine.commands.table import COMMANDS  # noqa: E402
from tests.screen import virtual_display  # noqa: E402
from tests.waiting import EventTail  # noqa: E402

SUFFIX = ".exe" if os.name == "nt" else ""
LONGEST = 300.0
"""Seconds after which a program is taken to hang."""
TWO = ("demo", "--headless", "--reps", "2", "--json")
MANY = ("demo", "--headless", "--reps", "251", "--json", "--data")
"""Arguments that make a history of one repetition more than one job measures again, so that a
second core is used; the folder of the history is to follow."""
SOURCE = [sys.executable, "-m", "engine"]
"""The command of the working copy."""


def run(command: list[str], folder: Path) -> bytes:
    """What a command prints to standard output; raises AssertionError if it fails."""
    known = {name: os.environ[name] for name in os.environ if not name.startswith("PYTHON")}
    ended = subprocess.run(
        command, cwd=folder, env=known, capture_output=True, timeout=LONGEST, check=False
    )
    assert ended.returncode == 0, f"{command}: exit code {ended.returncode}\n{ended.stderr!r}"
    return ended.stdout


def plays_the_same(program: list[str], elsewhere: Path) -> None:
    """Two headless repetitions are those of the source, byte for byte."""
    assert run([*program, *TWO], elsewhere) == run([*SOURCE, *TWO], TOP)


def lists_the_levels(program: list[str], elsewhere: Path) -> None:
    """All levels are listed as the source lists them."""
    data = ["levels", "--data", str(elsewhere / "none")]
    listed = run([*program, *data], elsewhere)
    assert listed == run([*SOURCE, *data], TOP)
    assert len(listed.splitlines()) >= len(list((TOP / "levels").glob("*/*.toml")))


def knows_every_command(program: list[str], elsewhere: Path) -> None:
    """Each command, imported by its name when it is typed, says the help that the source says."""
    for command in COMMANDS:
        asked = [command.name, "--help"]
        assert run([*program, *asked], elsewhere) == run([*SOURCE, *asked], TOP), command.name


def measures_again(program: list[str], elsewhere: Path) -> None:
    """A history is measured again on several cores, with the same values."""
    data = str(elsewhere / "many")
    run([*program, *MANY, data], elsewhere)
    said = run([*program, "remeasure", "--data", data], elsewhere)
    assert b"251 repetitions measured again" in said, said
    assert b"No measure has changed." in said, said


def opens_a_window(game: list[str], elsewhere: Path) -> None:
    """The game draws its first screen, ends when asked to, and leaves a history."""
    data, log = elsewhere / "data", elsewhere / "events.jsonl"
    with virtual_display() as environment:
        command = [*game, "--data", str(data), "--events", str(log)]
        playing = subprocess.Popen(command, env=environment, cwd=elsewhere)
        try:
            drawn = EventTail(log).wait(lambda event: event["event"] == "drawn", LONGEST)
            playing.send_signal(signal.SIGTERM)
            code = playing.wait(LONGEST)
        finally:
            playing.kill()
    assert drawn["name"] == "cautions", drawn
    assert code == 128 + signal.SIGTERM, f"exit code {code}"
    assert EventTail(log).wait(lambda event: event["event"] == "closed", 0)
    assert (data / "history.sqlite3").stat().st_size > 0


def main() -> int:
    """Run the checks; returns the exit code."""
    folder = Path(sys.argv[1] if len(sys.argv) > 1 else TOP / "dist" / "stillfoot").resolve()
    command, game = ([str(folder / f"{name}{SUFFIX}")] for name in ("stillfoot", "stillfoot-game"))
    checks: dict[str, tuple[Callable[[list[str], Path], None], list[str]]] = {
        "plays_the_same": (plays_the_same, command),
        "lists_the_levels": (lists_the_levels, command),
        "knows_every_command": (knows_every_command, command),
        "measures_again": (measures_again, command),
        "opens_a_window": (opens_a_window, game),
    }
    if os.name != "posix":
        del checks["opens_a_window"]
        print("skipped opens_a_window: the check ends the game by a POSIX signal")
    chosen = sys.argv[2:] or list(checks)
    if not checks.keys() >= set(chosen):
        sys.exit(f"check: expected {', '.join(checks)}, found {' '.join(chosen)}")
    failed = 0
    for name in chosen:
        check, program = checks[name]
        with tempfile.TemporaryDirectory() as elsewhere:
            try:
                check(program, Path(elsewhere))
                print(f"ok      {name}", flush=True)
            except (AssertionError, TimeoutError, subprocess.TimeoutExpired) as error:
                failed += 1
                print(f"FAILED  {name}: {error}", flush=True)
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
