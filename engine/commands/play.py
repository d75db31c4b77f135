"""Puts the game together on a real window, real devices and the real clock, and runs it."""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import numpy as np
import pygame

from drills.level import Level
from engine.flow.demonstration import Show, watch, watch_aside
from engine.flow.game import Way, play
from engine.stage.events import Events
from engine.stage.loop import Loop
from engine.stage.speaker import open_sound
from engine.stage.stage import Game
from engine.stage.window import Window
from engine.store import History

OFFERED_SEED = 1
"""Seed of the foot in the demo that the game offers."""
OFFERED_SKILL = 0.5
"""Its skill."""


def run_game(
    history: History,
    levels: Sequence[Level],
    demo: Level,
    size: tuple[int, int],
    events: Path | None,
) -> int:
    """Play until the player leaves; the exit code. Raises DisplayError, EventsError, StoreError."""
    offered = Show(demo, demo.repetitions, OFFERED_SEED, OFFERED_SKILL)
    return _run(
        history, levels, size, events, lambda game: play(game, lambda g: watch_aside(g, offered))
    )


def run_demo(
    show: Show, levels: Sequence[Level], size: tuple[int, int], events: Path | None
) -> int:
    """Show the simulated foot play; the exit code. Raises as run_game does."""
    with show.history() as history:
        return _run(history, levels, size, events, lambda game: watch(game, show))


def _run(
    history: History,
    levels: Sequence[Level],
    size: tuple[int, int],
    events: Path | None,
    flow: Callable[[Game], Way],
) -> int:
    with closing(Events(events, time.perf_counter_ns)) as told:
        try:
            window = Window(size)
            pygame.joystick.init()
            game = Game(
                window=window,
                history=history,
                levels=levels,
                events=told,
                clock=time.perf_counter_ns,
                now=lambda: datetime.now(UTC).astimezone(),
                rng=np.random.default_rng(),
                open_sound=open_sound,
            )
            told.note("started", {"window": window.size})
            Loop(game).run(flow(game))
        finally:
            pygame.quit()
    return 0
