"""The game in a window on a history that another program locks or that is damaged."""

import json
import os
import signal
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest

from engine.game.flow import CAUTIONS_READ
from engine.store import open_history
from engine.store.history import FILE
from engine.store.opening import PAGE
from tests.engine.commands.command import without_display
from tests.needs import display_to_miss, signals

ROOT = Path(__file__).resolve().parents[3]

BEGINNING = """
import os, signal, sqlite3, sys, threading
from pathlib import Path
from engine.stage.sdl_setup import give_hints
give_hints()
import pygame
from engine.commands.main import main
from tests.rig import press_key
from tests.waiting import EventTail
data, log, then = sys.argv[1:]
events = EventTail(Path(log))

def drawn(name):
    events.wait(lambda event: event["event"] == "drawn" and event["name"] == name, 60)
"""
"""Beginning of the programs of these tests: imports, and waiting for a screen."""
PLAYED = (
    BEGINNING
    + """
def play():
    drawn("cautions")
    other = sqlite3.connect(Path(data) / "history.sqlite3", isolation_level=None)
    other.execute("BEGIN EXCLUSIVE")
    press_key("return")
    drawn("trouble")
    if then == "leave":
        press_key("down")
        press_key("return")
    elif then == "try again":
        other.execute("ROLLBACK")
        press_key("return")
        drawn("fill the screen")
        press_key("escape")
        drawn("no pedals")
    if then == "signal":
        os.kill(os.getpid(), signal.SIGTERM)
    elif then != "leave":
        pygame.event.post(pygame.event.Event(pygame.QUIT))

threading.Thread(target=play, daemon=True).start()
sys.exit(main(["--data", data, "--events", log]))
"""
)


def played(data: Path, log: Path, then: str, script: str = PLAYED) -> tuple[int, str]:
    """Start the game, lock its history at the cautions, and do something about the trouble.

    Returns the exit code and what was written to standard error.
    """
    ended = subprocess.run(
        [sys.executable, "-c", script, str(data), str(log), then],
        cwd=ROOT,
        env=os.environ | {"SDL_VIDEODRIVER": "dummy", "SDL_AUDIODRIVER": "dummy"},
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )
    return ended.returncode, ended.stderr


def blank_the_root(path: Path, table: str) -> None:
    """Overwrite the first page of a table of a history with zeros."""
    with closing(sqlite3.connect(path)) as db:
        [root] = db.execute(
            "SELECT rootpage FROM sqlite_schema WHERE name = ?", (table,)
        ).fetchone()
    whole = bytearray(path.read_bytes())
    whole[(root - 1) * PAGE : root * PAGE] = bytes(PAGE)
    path.write_bytes(whole)


def names(log: Path) -> list[str]:
    """Name of each event in an events file, in order."""
    return [json.loads(line)["event"] for line in log.read_text(encoding="utf-8").splitlines()]


def are_cautions_read(data: Path) -> bool:
    """Whether the history has the setting that the cautions were read."""
    with open_history(data, []) as history:
        return history.setting(CAUTIONS_READ) is True


@pytest.mark.parametrize("then", ["leave", "close the window"])
def test_leaving_a_locked_history_ends_with_its_line_and_code_2(tmp_path: Path, then: str) -> None:
    data = tmp_path / "data"

    code, error = played(data, tmp_path / "events.jsonl", then)

    assert error == f"stillfoot: {data / FILE}: in use by another stillfoot; close that one first\n"
    assert code == 2
    assert not are_cautions_read(data)
    assert names(tmp_path / "events.jsonl")[-1] == "closed"


@signals
def test_a_signal_to_end_tries_once_more_and_has_its_own_code(tmp_path: Path) -> None:
    data = tmp_path / "data"

    code, error = played(data, tmp_path / "events.jsonl", "signal")

    assert error == f"stillfoot: {data / FILE}: in use by another stillfoot; close that one first\n"
    assert code == 128 + signal.SIGTERM
    assert names(tmp_path / "events.jsonl")[-1] == "closed"


REPAIRED = (
    BEGINNING
    + """
def play():
    drawn("repaired")
    press_key("return")
    drawn("no pedals")
    pygame.event.post(pygame.event.Event(pygame.QUIT))

threading.Thread(target=play, daemon=True).start()
sys.exit(main(["--data", data, "--events", log]))
"""
)


def test_a_damaged_history_is_repaired_in_the_window_that_plays_on(tmp_path: Path) -> None:
    data, log = tmp_path / "data", tmp_path / "events.jsonl"
    with open_history(data, []) as history:
        history.keep_setting(CAUTIONS_READ, True)
    path = data / FILE
    blank_the_root(path, "rig")

    code, error = played(data, log, "", REPAIRED)

    [damage, *told] = error.splitlines()
    assert damage.startswith(f"stillfoot: {path}: expected ")
    [aside] = data.glob("history-damaged-*")
    assert f"stillfoot: The damaged file is now {aside.name}." in told
    assert code == 0
    shown = [json.loads(line) for line in log.read_text(encoding="utf-8").splitlines()]
    screens = [event["name"] for event in shown if event["event"] == "screen"]
    assert list(dict.fromkeys(screens)) == ["damaged", "repaired", "no pedals"]


@display_to_miss
def test_a_damaged_history_without_a_display_is_said_in_one_line_and_not_changed(
    tmp_path: Path,
) -> None:
    content = b"no history\n" * 100
    (tmp_path / FILE).write_bytes(content)

    ended = without_display(STILLFOOT_DATA=str(tmp_path))

    assert ended.stderr == (
        f"stillfoot: {tmp_path / FILE}: expected a whole history, found another kind of file;"
        " run stillfoot in a window to repair it; no display to open a window on;"
        " `stillfoot demo --headless` plays without one\n"
    )
    assert ended.returncode == 2
    assert (tmp_path / FILE).read_bytes() == content
    assert sorted(path.name for path in tmp_path.iterdir()) == ["history.lock", FILE]


def test_trying_again_goes_on_and_keeps_what_waited(tmp_path: Path) -> None:
    data = tmp_path / "data"

    assert played(data, tmp_path / "events.jsonl", "try again") == (0, "")

    assert are_cautions_read(data)
