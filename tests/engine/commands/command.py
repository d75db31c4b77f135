"""Helpers that run `stillfoot` in this process, or in a process without a display."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from drills.calibration import Range
from engine.commands.main import main
from engine.pedals.bound import Binding, BoundAxis
from engine.pedals.identity import Identity
from engine.setup.saved_rigs import add_rig
from engine.store import open_history

ROOT = Path(__file__).resolve().parents[3]
REMOVED = {"DISPLAY", "WAYLAND_DISPLAY", "SDL_VIDEODRIVER", "STILLFOOT_DATA"}

LEVEL = """
id = "own"
title = "Own"
purpose = "A level of one's own."
kind = "blip"
targets = [60]
tolerance = 15
limits = { dip = 15 }
"""

Captured = pytest.CaptureFixture[str]


def save_binding(folder: Path, *, clutch: bool) -> None:
    """Save a binding of two or three axes of one device in the history in a folder."""
    device = Identity("0" * 32, "pedals", 3, 0, 1)
    axes = [BoundAxis(device, axis, Range(-1.0, 1.0)) for axis in range(3)]
    with open_history(folder, []) as history:
        binding = Binding(axes[0], axes[1], axes[2] if clutch else None)
        add_rig(history, binding)


def refused(capsys: Captured, *arguments: str) -> str:
    """Error of a command that refuses its arguments."""
    code = main(arguments)
    out, err = capsys.readouterr()
    assert (code, out) == (2, "")
    return err


def output_of(capsys: Captured, *arguments: str) -> str:
    """Output of a command that succeeds."""
    code = main(arguments)
    out, err = capsys.readouterr()
    assert (code, err) == (0, "")
    return out


def own_level(folder: Path, text: str, name: str = "own.toml") -> Path:
    """Write a level file into a data folder; return its path."""
    path = folder / "levels" / name
    path.parent.mkdir(exist_ok=True, parents=True)
    path.write_text(text, encoding="utf-8")
    return path


def without_display(*arguments: str, **environment: str) -> subprocess.CompletedProcess[str]:
    """Run the command in a process without a display."""
    inherited = {name: value for name, value in os.environ.items() if name not in REMOVED}
    return subprocess.run(
        [sys.executable, "-m", "engine", *arguments],
        cwd=ROOT,
        env=inherited | environment,
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
