"""How long until the first picture, against a process that only opens a window.

    python tests/bench/start.py [rounds]

A new player is shown the cautions; one with some days of practice and pedals plugged in is shown
home. All are started in turn under the same display; medians and their ratios are printed.
"""

import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from tests.screen import virtual_display  # noqa: E402
from tests.waiting import EventTail  # noqa: E402

ROUNDS = 11
BARE = """
import numpy, pygame
pygame.display.init()
pygame.display.set_mode((1280, 720), pygame.RESIZABLE)
pygame.display.flip()
import time
print(time.monotonic(), flush=True)
"""
PLUGGED = """
from engine.stage.sdl_setup import give_hints
give_hints()
import pygame
from tests.rig import VirtualPedals
pygame.joystick.init()
VirtualPedals().plug()
from engine.commands.start import start
start()
"""
"""The game in a process that has pedals plugged in; plugging them takes some ms of the start."""


def bare(environment: dict[str, str]) -> float:
    """Seconds from starting a bare process to its first picture."""
    began = time.monotonic()
    done = subprocess.run(
        [sys.executable, "-c", BARE], env=environment, capture_output=True, text=True, check=True
    )
    return float(done.stdout.split()[-1]) - began


def new_player(environment: dict[str, str]) -> float:
    """Seconds from starting the game without a history to its first picture."""
    with tempfile.TemporaryDirectory() as folder:
        log = Path(folder) / "events.jsonl"
        command = ["-m", "engine", "--data", folder, "--events", str(log)]
        return until_drawn(command, log, "cautions", environment)


def known_player(environment: dict[str, str], past: Path) -> float:
    """Seconds from starting the game after some days of practice to its first picture."""
    with tempfile.TemporaryDirectory() as folder:
        data, log = Path(folder) / "data", Path(folder) / "events.jsonl"
        shutil.copytree(past, data)
        command = ["-c", PLUGGED, "--data", str(data), "--events", str(log)]
        return until_drawn(command, log, "home", environment)


def until_drawn(command: list[str], log: Path, screen: str, environment: dict[str, str]) -> float:
    """Seconds from starting a process to its first picture, which is of this screen."""
    began = time.monotonic()
    running = subprocess.Popen(
        [sys.executable, *command], env=environment, cwd=ROOT, stdout=subprocess.DEVNULL
    )
    try:
        drawn = EventTail(log).wait(lambda event: event["event"] == "drawn", 30)
    finally:
        running.kill()
        running.wait()
    assert drawn["name"] == screen, f"expected {screen}, found {drawn['name']}"
    return float(drawn["t"]) - began


def main() -> None:
    """Print the table."""
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else ROUNDS
    with virtual_display() as environment, tempfile.TemporaryDirectory() as folder:
        # An installed program has its bytecode beside it, as pygame and numpy have theirs.
        environment.pop("PYTHONDONTWRITEBYTECODE", None)
        past = Path(folder) / "past"
        make_past = [sys.executable, "-m", "tests.game.session_process", str(past)]
        subprocess.run(make_past, env=environment, cwd=ROOT, check=True, capture_output=True)
        starts: dict[str, Callable[[dict[str, str]], float]] = {
            "bare window": bare,
            "new player": new_player,
            "known player": partial(known_player, past=past),
        }
        for start in starts.values():
            start(environment)
        times = [[start(environment) for start in starts.values()] for _ in range(rounds)]
    medians = [statistics.median(column) for column in zip(*times, strict=True)]
    for name, seconds in zip(starts, medians, strict=True):
        print(f"{name:14}{seconds * 1000:7.1f} ms   ratio {seconds / medians[0]:5.2f}")
    print("aim: a ratio of at most 1.3")


if __name__ == "__main__":
    main()
