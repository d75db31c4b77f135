"""Starts of the game on a data folder, to the first screens and out again."""

import threading
import time
from contextlib import suppress
from pathlib import Path

import pygame

from tests.bench.attempts.command import GIVEN_UP, Ended, call, end, start
from tests.screen import virtual_display
from tests.waiting import EventTail

PASSING = ("damaged",)
"""Screens that end by themselves, before the first that stays."""
SIZE = "640x360"
LOOK = 0.05
"""Seconds between two looks at the events file."""


def opened(data: Path, *, in_window: bool = False) -> Ended:
    """Start the game, wait for its first screen, and close the window; how that ended.

    In this process with SDL's dummy driver, or in a real window in a process of its own. What its
    screens said is added to what it wrote.
    """
    events = data / "events.jsonl"
    words = ("--data", str(data), "--events", str(events), "--window", SIZE)
    ended = _in_window(words, events) if in_window else _in_process(words, events)
    return Ended(
        ("game",),
        ended.code,
        ended.out + said_on_screens(events),
        ended.err,
        ended.raised,
        ended.seconds,
    )


def said_on_screens(events: Path) -> str:
    """All that stood on the screens."""
    return events.read_text(encoding="utf-8") if events.exists() else ""


def is_drawn(events: Path) -> bool:
    """Whether a screen is drawn that stays."""
    seen = EventTail(events).seen
    return any(one["event"] == "drawn" and one["name"] not in PASSING for one in seen)


def _in_process(words: tuple[str, ...], events: Path) -> Ended:
    over = threading.Event()
    watcher = threading.Thread(target=_close_when_drawn, args=(events, over), daemon=True)
    watcher.start()
    ended = call(*words)
    over.set()
    watcher.join()
    return ended


def _close_when_drawn(events: Path, over: threading.Event) -> None:
    """Close the window of this process once a screen is drawn, unless the game is over before."""
    while not over.wait(0.01):
        if is_drawn(events):
            with suppress(pygame.error):
                pygame.event.post(pygame.event.Event(pygame.QUIT))
            return


def _in_window(words: tuple[str, ...], events: Path) -> Ended:
    """Start the game on a display of its own and end it as the system does at its end."""
    with virtual_display((1280, 720)) as display:
        process = start(*words, **display)
        while process.poll() is None and not is_drawn(events):
            time.sleep(LOOK)
        process.terminate()
        ended = end(process, GIVEN_UP)
    # Until the program ends by itself when asked to, the signal does.
    code = 0 if ended.code in (-15, 143) else ended.code
    return Ended(ended.words, code, ended.out, ended.err, ended.raised, 0.0)
