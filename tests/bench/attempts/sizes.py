"""The smallest window and the largest: what is clipped, and what a slow renderer makes void."""

import os
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pygame

from engine.kit.base import Screen
from engine.kit.canvas import Fonts
from tests.bench.attempts.attempt import Finding, wrong
from tests.bench.attempts.command import end, faults, start
from tests.engine.kit.recording_canvas import RecordingCanvas
from tests.engine.pictures import every_screen
from tests.screen import screenshot, virtual_display
from tests.waiting import EventTail

SIZES = ((640, 360), (3840, 2160))
REPETITIONS = 3
LONGEST = 120.0
"""Seconds that a set may take."""
PICTURES = "CAMPAIGN_PICTURES"
"""Name of the environment variable for a folder that pictures of the windows are put in."""


@cache
def _fonts() -> Fonts:
    pygame.font.init()
    return Fonts()


@cache
def _screens() -> list[tuple[str, Screen[object]]]:
    """Every screen of the game, by name."""
    return sorted(every_screen().items())


def screen_count() -> int:
    """Number of screens of the game."""
    return len(_screens())


def clipped(number: int, _folder: Path) -> Iterator[Finding]:
    """Draw a screen at both sizes: all text is inside the picture."""
    name, screen = _screens()[number]
    pygame.font.init()
    for size in SIZES:
        canvas = RecordingCanvas(size, _fonts())
        screen.draw_on(canvas, 0.0)
        for text in canvas.texts:
            if not canvas.picture.contains(text.ink):
                yield wrong(f"{name} at {size[0]}x{size[1]}: {text.text} is clipped")


def played(number: int, folder: Path) -> Iterator[Finding]:
    """Play a set in a window of one of the sizes, by a simulated foot; none is void by gaps."""
    size, events = SIZES[number % len(SIZES)], folder / "events.jsonl"
    words = ("demo", "--reps", f"{REPETITIONS}", "--seed", f"{number + 1}", "--skill", "0.9")
    with virtual_display(SIZES[-1]) as display:
        window = ("--window", "{}x{}".format(*size), "--events", str(events))
        process = start(*words, *window, **display)
        tail = EventTail(events)
        reasons = []
        try:
            for _ in range(REPETITIONS):
                verdict = tail.wait(lambda event: event["event"] == "verdict", LONGEST)
                reasons.append(verdict["reason"])
                if (pictures := os.environ.get(PICTURES)) is not None:
                    file = Path(pictures) / f"{size[0]}-{number}-{len(reasons)}.png"
                    screenshot(display["DISPLAY"], file)
        finally:
            process.terminate()
            ended = end(process)
    yield from faults(ended, allowed=(0, -15, 143))
    gaps = reasons.count("gap")
    if gaps:
        yield wrong(
            f"{size[0]}x{size[1]}: {gaps} of {len(reasons)} void by gaps, as drawing is slow here: "
            "a smaller window helps, or graphics that draw by themselves"
        )
