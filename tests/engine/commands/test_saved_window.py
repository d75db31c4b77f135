"""The window opens as it was left, unless a size is asked for."""

import json
import os
import signal
import subprocess
import sys
from pathlib import Path

from engine.commands.play import WINDOW, saved_window
from engine.stage.window_shape import Shape
from engine.store import open_history
from tests.needs import signals

ROOT = Path(__file__).resolve().parents[3]

PLAYED = """
import os, signal, sys, threading
from pathlib import Path
from engine.stage.sdl_setup import give_hints
give_hints()
import pygame
from engine.commands.main import main
from tests.waiting import EventTail, wait_for
log, keys, ends, *arguments = sys.argv[1:]

def leave():
    EventTail(Path(log)).wait(lambda event: event["event"] == "drawn", 30)
    if keys:
        pygame.event.post(pygame.event.Event(pygame.KEYDOWN, key=pygame.key.key_code(keys)))
    if ends:
        wait_for(lambda: not pygame.event.peek(pygame.KEYDOWN, pump=False))
        os.kill(os.getpid(), signal.Signals[ends])
    else:
        pygame.event.post(pygame.event.Event(pygame.QUIT))

threading.Thread(target=leave, daemon=True).start()
sys.exit(main([*arguments, "--events", log]))
"""


def played(
    data: Path, log: Path, *arguments: str, key: str = "", ends: str = ""
) -> tuple[int, int]:
    """Start, press `key` if there is one, close the window; return the size it opened with.

    `ends` names a signal that ends it instead.
    """
    log.unlink(missing_ok=True)
    ended = subprocess.run(
        [sys.executable, "-c", PLAYED, str(log), key, ends, "--data", str(data), *arguments],
        cwd=ROOT,
        env=os.environ | {"SDL_VIDEODRIVER": "dummy", "SDL_AUDIODRIVER": "dummy"},
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    code = 128 + signal.Signals[ends] if ends else 0
    assert (ended.returncode, ended.stderr) == (code, "")
    started = json.loads(log.read_text(encoding="utf-8").splitlines()[0])
    width, height = started["window"]
    return width, height


def saved_setting(data: Path) -> object:
    """Saved setting of the window."""
    with open_history(data, []) as history:
        return history.setting(WINDOW)


def test_a_window_opens_as_it_was_left(tmp_path: Path) -> None:
    data, log = tmp_path / "data", tmp_path / "events.jsonl"
    with open_history(data, []) as history:
        history.keep_setting(WINDOW, Shape((801, 603)).as_data())

    sizes = [played(data, log, key="f11"), played(data, log, key="f11"), played(data, log)]

    assert sizes[0] == sizes[2] == (801, 603)
    assert sizes[1] != (801, 603)
    assert saved_setting(data) == Shape((801, 603)).as_data()


def test_full_screen_is_saved_with_the_size_to_come_back_to(tmp_path: Path) -> None:
    data, log = tmp_path / "data", tmp_path / "events.jsonl"

    played(data, log, "--window", "700x500", key="f11")

    assert saved_setting(data) == Shape((700, 500), full=True).as_data()


@signals
def test_a_signal_saves_the_window_as_closing_it_does(tmp_path: Path) -> None:
    data, log = tmp_path / "data", tmp_path / "events.jsonl"

    played(data, log, "--window", "700x500", key="f11", ends="SIGTERM")

    assert saved_setting(data) == Shape((700, 500), full=True).as_data()
    assert json.loads(log.read_text(encoding="utf-8").splitlines()[-1])["event"] == "closed"


def test_a_size_asked_for_overrides_the_saved_one_once(tmp_path: Path) -> None:
    data, log = tmp_path / "data", tmp_path / "events.jsonl"
    before = Shape((801, 603), full=True).as_data()
    with open_history(data, []) as history:
        history.keep_setting(WINDOW, before)

    size = played(data, log, "--window", "700x500")

    assert size == (700, 500)
    assert saved_setting(data) == before


def test_a_start_that_changes_nothing_saves_nothing(tmp_path: Path) -> None:
    data, log = tmp_path / "data", tmp_path / "events.jsonl"

    size = played(data, log, "--window", "1280x720")

    assert size == (1280, 720)
    assert saved_setting(data) is None


def test_a_saved_window_that_cannot_be_understood_is_the_usual_one(tmp_path: Path) -> None:
    with open_history(tmp_path, []) as history:
        history.keep_setting(WINDOW, {"width": 3, "height": 3, "full": False})

        assert saved_window(history) is None


def test_an_untouched_first_window_is_not_saved(tmp_path: Path) -> None:
    data, log = tmp_path / "data", tmp_path / "events.jsonl"

    played(data, log)

    assert saved_setting(data) is None
