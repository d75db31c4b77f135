"""The events file: what is written to it, and what happens when it cannot be written."""

import json
import os
from pathlib import Path

import pytest

from engine.stage.events import Events
from tests.needs import full_device, named_pipe

FULL = Path("/dev/full")


def clock() -> int:
    """Clock that always reads 1.5 s."""
    return 1_500_000_000


@pytest.fixture
def warnings() -> list[str]:
    """Warnings of the events file."""
    return []


def test_an_event_is_a_line_with_its_time(tmp_path: Path, warnings: list[str]) -> None:
    path = tmp_path / "events.jsonl"
    events = Events(path, clock, warnings.append)

    events.note("cue")
    events.note("phase", {"phase": "dark"}, at=2_000_000)
    events.close()

    lines = [json.loads(line) for line in path.read_text(encoding="utf-8").splitlines()]
    assert lines == [
        {"t": 1.5, "event": "cue"},
        {"t": 0.002, "event": "phase", "phase": "dark"},
    ]
    assert warnings == []


def test_without_a_file_nothing_is_written_and_nothing_warned_of(warnings: list[str]) -> None:
    events = Events(None, clock, warnings.append)

    events.note("cue")
    events.close()

    assert warnings == []


def test_the_time_of_an_event_is_written_to_the_microsecond(tmp_path: Path) -> None:
    path = tmp_path / "events.jsonl"
    events = Events(path, clock)

    events.note("cue", at=1_234_567_891)
    events.close()

    assert json.loads(path.read_text(encoding="utf-8"))["t"] == 1.234568


@full_device
def test_a_full_disk_is_warned_of_once_and_later_events_are_dropped(warnings: list[str]) -> None:
    events = Events(FULL, clock, warnings.append)

    events.note("cue")
    events.note("cue")
    events.close()

    assert warnings == [
        "--events /dev/full: cannot be written any more (No space left on device); "
        "the game goes on without it"
    ]


@named_pipe
def test_a_pipe_without_a_reader_is_warned_of_as_well(tmp_path: Path, warnings: list[str]) -> None:
    path = tmp_path / "pipe"
    os.mkfifo(path)
    reader = os.open(path, os.O_RDONLY | os.O_NONBLOCK)
    events = Events(path, clock, warnings.append)

    os.close(reader)
    events.note("cue")
    events.close()

    assert warnings == [
        f"--events {path}: cannot be written any more (Broken pipe); the game goes on without it"
    ]
