"""The smallest window and the largest: what is clipped, and what a slow renderer makes void."""

import os
from collections.abc import Iterator, Mapping
from pathlib import Path

import pygame

from drills.score import Reason
from engine.kit.canvas import Fonts
from tests.bench.attempts.attempt import Finding, wrong
from tests.bench.attempts.command import Ended, end, faults, start
from tests.engine.kit.recording_canvas import RecordingCanvas
from tests.engine.pictures import every_screen
from tests.screen import screenshot, virtual_display
from tests.waiting import EventTail

SIZES, NAMES = ((640, 360), (3840, 2160)), ("smallest", "largest")
USUAL = (1280, 720)
REPETITIONS = 3
LONGEST = 120.0
"""Seconds that a set may take."""
PICTURES = "CAMPAIGN_PICTURES"
"""Name of the environment variable for a folder that pictures of the windows are put in."""


def clipped(number: int, _folder: Path) -> Iterator[Finding]:
    """Draw every screen at one of the sizes: all text is inside the picture."""
    width, height = SIZES[number % len(SIZES)]
    pygame.font.init()
    fonts = Fonts()
    for name, screen in every_screen().items():
        canvas = RecordingCanvas((width, height), fonts)
        screen.draw_on(canvas, 0.0)
        for text in canvas.texts:
            if not canvas.picture.contains(text.ink):
                yield wrong(
                    f"the {NAMES[number % len(SIZES)]} window: {name}: {text.text} is clipped"
                )


def played(number: int, folder: Path) -> Iterator[Finding]:
    """Play a set in a window of one of the sizes, by a simulated foot: few are void by gaps.

    Where a window of the usual size has gaps too, the machine is busy, and nothing is told.
    """
    place = number % len(SIZES)
    with virtual_display(SIZES[-1]) as display:
        ended, gaps = _set(SIZES[place], number, folder / "events.jsonl", display)
        yield from faults(ended, allowed=(0, -15, 143))
        if 2 * gaps > REPETITIONS and not _set(USUAL, number, folder / "usual.jsonl", display)[1]:
            yield wrong(
                f"the {NAMES[place]} window: {gaps} of {REPETITIONS} void by gaps, as drawing is "
                "slow here; a smaller window helps, or a graphics card that draws"
            )


def _set(
    size: tuple[int, int], seed: int, events: Path, display: Mapping[str, str]
) -> tuple[Ended, int]:
    """Play a set in a window; how that ended, and the number of repetitions void by gaps."""
    words = ("demo", "--reps", f"{REPETITIONS}", "--seed", f"{seed + 1}", "--skill", "0.9")
    window = ("--window", "{}x{}".format(*size), "--events", str(events))
    process, tail, gaps = start(*words, *window, **display), EventTail(events), 0
    try:
        for place in range(REPETITIONS):
            verdict = tail.wait(lambda event: event["event"] == "verdict", LONGEST)
            gaps += verdict["reason"] == Reason.GAP.value
            if (pictures := os.environ.get(PICTURES)) is not None:
                screenshot(display["DISPLAY"], Path(pictures) / f"{size[0]}-{seed}-{place}.png")
    finally:
        process.terminate()
        ended = end(process)
    return ended, gaps
