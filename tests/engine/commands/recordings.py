"""Recordings for tests of `stillfoot score`, and helpers that run the command."""

import json
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from engine.commands.main import main
from tests.drills.shapes import half_sine, seconds


def recording(
    folder: Path,
    start: float = 0.0,
    first: float = 2.0,
    second: float = 5.0,
    scale: float = 1.0,
    rest: float = 0.0,
    released: float = 9.0,
    every: int = 1,
) -> Path:
    """A recording of 60 % brake with two blips and dips of 10 points; a row every `every` ms."""
    time = seconds(8)
    throttle, brake = np.full(time.size, rest), np.full(time.size, 60.0)
    for onset in (first, second):
        throttle += 80 * half_sine(0.25)(time - onset)
        brake -= 10 * half_sine(0.2)(time - onset)
    brake[time >= released] = 0.0
    path = folder / "hill climb.csv"
    rows = np.column_stack([time + start, brake * scale, throttle * scale])[::every]
    np.savetxt(path, rows, "%.6f", ",", header="time,brake,throttle", comments="")
    return path


def scored(capsys: pytest.CaptureFixture[str], *arguments: str) -> dict[str, Any]:
    """Output of `score --json`."""
    code = main(["score", "--json", *arguments])
    out, err = capsys.readouterr()
    assert (code, err) == (0, "")
    return dict(json.loads(out))


def refused(capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
    """Error of a `score` that refuses, in one line."""
    code = main(["score", *arguments])
    out, err = capsys.readouterr()
    assert (code, out, err.count("\n")) == (2, "", 1)
    return err.removeprefix("stillfoot: ").rstrip("\n")


def day(folder: Path) -> Path:
    """A recording of two blips, and the same again 23 h later, with nothing between."""
    path = recording(folder)
    rows = path.read_text(encoding="utf-8").splitlines()
    parts = [row.partition(",") for row in rows[1:]]
    later = [f"{82_800 + float(time):.6f},{pedals}" for time, _, pedals in parts]
    path.write_text("\n".join(rows + later), encoding="utf-8")
    return path
