"""A display, a data folder with a short level, and a way to run a script against the game."""

import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

from tests.screen import virtual_display

ROOT = Path(__file__).resolve().parents[2]

LEVEL = """
id = "three-blips"
title = "Three blips"
purpose = "A short level for the tests."
kind = "blip"
targets = [60]
tolerance = 15
aid = "bubble"
repetitions = 3
pedals = ["brake", "throttle"]
foreperiod = { shift = 1.0, mean = 0.2, cut = 0.5 }

[limits.dip]
at = 15
weight = 0.5

[limits.surge]
at = 15
weight = 0.5
"""

Ended = subprocess.CompletedProcess[str]


@pytest.fixture(scope="session")
def display() -> Iterator[dict[str, str]]:
    """The environment of a child process that opens a window."""
    with virtual_display() as environment:
        yield environment


def play(display: dict[str, str], script: str, data: Path, events: Path, *more: str) -> Ended:
    """Play a script of tests/game/scripts.py in a process of its own."""
    return subprocess.run(
        [sys.executable, "-m", "tests.game.scripts", script, str(data), str(events), *more],
        env=display,
        cwd=ROOT,
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )


@dataclass(frozen=True)
class Day:
    """A day of play that has ended."""

    ended: Ended
    """The process."""
    data: Path
    """The data folder."""
    events: Path
    """The events file."""


@pytest.fixture(scope="session")
def first_day(display: dict[str, str], tmp_path_factory: pytest.TempPathFactory) -> Day:
    """The first day of a player whose pedals have inverted axes, played once for all tests."""
    folder = tmp_path_factory.mktemp("first")
    data, events = new_data(folder), folder / "events.jsonl"
    return Day(play(display, "first_day", data, events, "inverted"), data, events)


@pytest.fixture
def later(display: dict[str, str], first_day: Day, tmp_path: Path) -> Callable[[str], Day]:
    """Play another script on a later day of that player, in a copy of the data folder."""

    def play_later(script: str) -> Day:
        data, events = tmp_path / "data", tmp_path / "events.jsonl"
        shutil.copytree(first_day.data, data)
        return Day(play(display, script, data, events, "inverted"), data, events)

    return play_later


def new_data(folder: Path) -> Path:
    """A data folder that holds one level of the player's own and nothing else."""
    data = folder / "data"
    (data / "levels").mkdir(parents=True)
    (data / "levels" / "three.toml").write_text(LEVEL, encoding="utf-8")
    return data
