"""Size of the built programs and how long they take to start, against the wheel, in one run.

    python .package/start_times.py [ROUNDS]

Builds the wheel and installs it in an environment of its own; the programs are those in
`dist/stillfoot`. Each is started in turn; medians are printed.
"""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import tempfile
import time
import venv
from collections.abc import Callable
from functools import partial
from pathlib import Path

TOP = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(TOP))

from tests.screen import virtual_display  # noqa: E402
from tests.waiting import EventTail  # noqa: E402

FOLDER = TOP / "dist" / "stillfoot"
ROUNDS = 7
SUFFIX = ".exe" if os.name == "nt" else ""
SCRIPTS = "Scripts" if os.name == "nt" else "bin"
LONGEST = 60.0
"""Seconds after which a start is taken to hang."""
ENDING = {"--help": ("--help",), "two repetitions": ("demo", "--headless", "--reps", "2")}
"""Arguments with which the program ends by itself, by what they are called in the table."""


def until_ended(arguments: tuple[str, ...], program: str, environment: dict[str, str]) -> float:
    """Seconds from starting a program to its end."""
    began = time.monotonic()
    command = [program, *arguments]
    subprocess.run(command, env=environment, stdout=subprocess.DEVNULL, check=True)
    return time.monotonic() - began


def until_drawn(program: str, environment: dict[str, str]) -> float:
    """Seconds from starting the game without a history to its first picture."""
    with tempfile.TemporaryDirectory() as folder:
        log = Path(folder) / "events.jsonl"
        began = time.monotonic()
        command = [program, "--data", folder, "--events", str(log)]
        running = subprocess.Popen(command, env=environment, stdout=subprocess.DEVNULL)
        try:
            drawn = EventTail(log).wait(lambda event: event["event"] == "drawn", LONGEST)
        finally:
            running.kill()
            running.wait()
        return float(drawn["t"]) - began


def install_wheel(folder: Path) -> Path:
    """Build the wheel and install it; returns the folder of the program it brings."""
    venv.create(folder, with_pip=True)
    scripts = folder / SCRIPTS
    pip = [str(scripts / f"python{SUFFIX}"), "-m", "pip", "install", "-q", str(TOP)]
    subprocess.run(pip, check=True)
    return scripts


def size_of(folder: Path) -> float:
    """Size of all files in a folder, in MB."""
    return sum(path.lstat().st_size for path in folder.rglob("*") if path.is_file()) / 1e6


def main() -> None:
    """Print the table."""
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else ROUNDS
    with tempfile.TemporaryDirectory() as folder, virtual_display() as environment:
        environment = {n: v for n, v in environment.items() if not n.startswith("PYTHON")}
        scripts = install_wheel(Path(folder) / "wheel")
        programs = {"wheel": scripts / "stillfoot", "program": FOLDER / "stillfoot"}
        starts: dict[str, Callable[[str, dict[str, str]], float]] = {
            name: partial(until_ended, arguments) for name, arguments in ENDING.items()
        }
        starts["first picture"] = until_drawn
        times: dict[tuple[str, str], list[float]] = {}
        for number in range(rounds + 1):
            for start, seconds in starts.items():
                for name, program in programs.items():
                    took = seconds(f"{program}{SUFFIX}", environment)
                    # The first round fills the caches of the disk.
                    if number:
                        times.setdefault((start, name), []).append(took)
        print(f"{'':18}{'wheel':>10}{'program':>10}{'ratio':>8}")
        for start in starts:
            wheel, frozen = (statistics.median(times[start, name]) * 1000 for name in programs)
            print(f"{start:18}{wheel:7.0f} ms{frozen:7.0f} ms{frozen / wheel:8.2f}")
        installed = size_of(Path(folder) / "wheel")
    print(f"{'size on disk':18}{installed:7.0f} MB{size_of(FOLDER):7.0f} MB")
    print("The size of the wheel is that of its environment, with pip and without Python itself.")


if __name__ == "__main__":
    main()
