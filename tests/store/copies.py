"""Backups and exports of data folders, and a program that writes to a history meanwhile."""

import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from engine.store import open_history
from engine.store.backup import back_up
from engine.store.export import export

ROOT = Path(__file__).resolve().parents[2]
TABLES = [
    *("calibration", "change", "clean_row", "day", "drive", "drive_blip", "guess", "keeping"),
    *("measure", "personal", "progress", "repetition", "rig", "setting", "sitting", "trial"),
]
"""Tables of a history, by name: each is a file of an export."""
ASIDE = "history-before-restore-1.sqlite3"


def backed_up(data: Path, file: Path) -> Path:
    """A backup of a data folder."""
    with open_history(data, []) as history:
        back_up(history, file)
    return file


@contextmanager
def playing(folder: Path) -> Iterator[subprocess.Popen[str]]:
    """A program that adds repetitions to a history for ever, and has begun to."""
    command = [sys.executable, "-m", "tests.store.adder", str(folder)]
    with subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE, text=True) as child:
        try:
            assert child.stdout is not None
            child.stdout.readline()
            yield child
        finally:
            child.kill()


def silent(_done: int, _of: int) -> None:
    """Ignore the progress."""


def written(data: Path, folder: Path, traces: bool = False) -> int:
    """Write a history out."""
    with open_history(data, []) as history:
        return export(history, folder, silent, traces=traces).repetitions
