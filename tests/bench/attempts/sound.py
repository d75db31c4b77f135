"""Sound devices that are missing or go in play, with the flash of the cue turned off.

Where nobody hears the cue it flashes all the same.
"""

import os
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path

import pygame

from engine.commands.options import local_now
from engine.commands.play import in_window
from engine.drill.demo import watch
from engine.drill.demonstration import Demonstration
from engine.pedals.rig import Rig
from engine.stage.scene import Flow
from engine.stage.signals import Signals
from engine.stage.stage import Stage
from engine.stage.window_shape import SMALLEST_SIZE, Shape
from tests.bench.attempts import histories
from tests.bench.attempts.attempt import Finding, wrong
from tests.game.threads import play
from tests.waiting import EventTail, wait_for

DRIVER, MISSING = "SDL_AUDIODRIVER", "none-such"
OPENED = 2
"""Number that SDL gives the first device that a program opens."""
BRIGHT = 200
"""Sum of red, green and blue above which a picture in the dark is a flash."""
SEEN, UNSEEN = "seen", "unseen"
SKILL = 0.9


@dataclass(frozen=True)
class Loss:
    """How the sound is lost."""

    name: str
    """For the table."""
    driver: str = "dummy"
    """Audio driver that SDL is told to use."""
    phase: str = ""
    """Phase of a repetition in which the device is removed; empty for never."""


LOSSES = (
    Loss("no driver", driver=MISSING),
    Loss("no driver named", driver=""),
    Loss("removed on release", phase="release"),
    Loss("removed in the approach", phase="approach"),
    Loss("removed before the cue", phase="wait"),
)


def unheard(number: int, folder: Path) -> Iterator[Finding]:
    """Play a blip in a window while the sound is lost, and look for the flash."""
    loss, events = LOSSES[number % len(LOSSES)], folder / "events.jsonl"
    seen: list[bool] = []
    with _driver(loss.driver):
        play(lambda: seen.append(_flashes(loss, events)), lambda: _game(number, events))
    if not seen[0]:
        yield wrong(f"{loss.name}: the cue is neither heard nor seen")


@contextmanager
def _driver(name: str) -> Iterator[None]:
    """Let SDL use another audio driver."""
    before = os.environ.get(DRIVER)
    os.environ[DRIVER] = name
    try:
        yield
    finally:
        os.environ.pop(DRIVER)
        if before is not None:
            os.environ[DRIVER] = before


def _game(seed: int, events: Path) -> int:
    """Play a demo of one blip at a time in a window, without the flash."""
    level = next(level for level in histories.LEVELS if level.id == "blip-1-first")
    demo = Demonstration(level, level.repetitions, seed + 1, SKILL, levels=histories.LEVELS)

    def flow(rig: Rig, stage: Stage, *_: object) -> Flow[None]:
        stage.tune(Signals(flash=False))
        yield from watch(demo, rig.clock, stage, history, local_now)

    with demo.history() as history:
        in_window(Shape(SMALLEST_SIZE), events, flow, asked_to_end=lambda: False)
    return 0


def _flashes(loss: Loss, events: Path) -> bool:
    """Whether the first cue after the loss is seen; ends the game then."""
    tail = EventTail(events)
    try:
        if loss.phase:
            tail.wait(lambda event: event.get("phase") == loss.phase)
            # No other device takes its place: SDL asks for its driver whenever it opens one.
            os.environ[DRIVER] = MISSING
            gone = pygame.event.Event(pygame.AUDIODEVICEREMOVED, which=OPENED, iscapture=0)
            pygame.event.post(gone)
        before = len(tail.seen)
        return wait_for(lambda: _cue(tail.seen[before:])) == SEEN
    finally:
        with suppress(pygame.error):
            pygame.event.post(pygame.event.Event(pygame.QUIT))


def _cue(events: Sequence[Mapping[str, object]]) -> str:
    """Whether a cue is seen now or was not seen; empty before that can be said."""
    surface = pygame.display.get_surface()
    # On every screen the corner is dark: only a flash lights all of the window.
    if surface is not None and sum(surface.get_at((3, 3))[:3]) > BRIGHT:
        return SEEN
    names = [event["event"] for event in events]
    return UNSEEN if "cue" in names and "verdict" in names[names.index("cue") :] else ""
