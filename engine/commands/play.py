"""The command `stillfoot` without a subcommand: the game in a window, with real devices."""

from __future__ import annotations

import argparse
import time
from collections.abc import Callable
from contextlib import closing
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from engine.commands.options import data_folder, level_called, local_now, shared_folder
from engine.commands.players import whose
from engine.commands.stopping import Stopping
from engine.ladder.level_files import OWN, SHIPPED, load_band, load_levels
from engine.practice.results import MINUTES
from engine.stage.sdl_setup import give_hints
from engine.stage.window_shape import Shape, ShapeError
from engine.store import History, StoreError, open_history

if TYPE_CHECKING:
    from engine.game.entry import Entry
    from engine.pedals.port import Clock
    from engine.pedals.rig import Rig
    from engine.stage.scene import Flow
    from engine.stage.stage import Stage

DEMO_LEVEL = "blip-1-first"
"""Id of the level that the demo plays unless another is asked for."""
WINDOW = "window"
"""Key in the settings for the size of the window and whether it fills the screen."""
OFFERED_SEED = 1
"""Seed of the simulated foot in the demo that the game offers."""
OFFERED_SKILL = 0.5
"""Skill of the simulated foot in the demo that the game offers, 0 (beginner) to 1 (expert)."""


def run_play(
    options: argparse.Namespace,
    first_entry: Entry | None = None,
    minutes: float | None = None,
    clock: Clock = time.perf_counter_ns,
) -> int:
    """Play the game in a window until the player leaves; return the exit code. Raises Refusal.

    The code is 0, or that of the signal that closed the window.
    `first_entry` is an entry to start in place of the first home, `minutes` the length of a session
    in min, `clock` the clock of the game in ns.
    """
    folder = data_folder(options)
    levels = load_levels([SHIPPED, folder / OWN])
    demo = level_called(DEMO_LEVEL, levels)
    give_hints()
    import numpy as np

    from engine.drill.demonstration import Demonstration
    from engine.game.daily_copy import DailyCopy
    from engine.game.flow import play
    from engine.game.offer import Offer

    offered = Demonstration(demo, demo.repetitions, OFFERED_SEED, OFFERED_SKILL, levels=levels)
    player = whose(shared_folder(options), options.player)
    offer = Offer(levels, load_band(), offered, minutes or MINUTES, player)
    rng = np.random.default_rng()
    with (
        Stopping() as stopping,
        open_history(folder, levels) as history,
        closing(DailyCopy(history, local_now)) as copy,
    ):
        asked: Shape | None = options.window
        shape = asked or saved_window(history)
        left = in_window(
            shape,
            options.events,
            lambda rig, stage: play(
                rig, replace(stage, idle=copy.step), history, offer, rng, local_now, first_entry
            ),
            fit=asked is None,
            clock=clock,
            asked_to_end=lambda: stopping.asked,
        )
        if left != shape:
            history.keep_setting(WINDOW, left.as_data())
        copy.finish(lambda: stopping.asked)
    return stopping.code


def saved_window(history: History) -> Shape:
    """Size of the window when it was last left, and whether it filled the screen.

    Raises StoreError if the saved setting is invalid.
    """
    data = history.setting(WINDOW)
    try:
        return Shape() if data is None else Shape.from_data(data)
    except ShapeError as error:
        raise StoreError(f"{history.path}: setting '{WINDOW}': {error}") from error


def in_window(
    shape: Shape,
    events: Path | None,
    flow: Callable[[Rig, Stage], Flow[None]],
    *,
    asked_to_end: Callable[[], bool],
    fit: bool = False,
    clock: Clock = time.perf_counter_ns,
) -> Shape:
    """Run a flow of screens in a window; return the size and state in which the window was left.

    `asked_to_end` says whether a signal asks the program to end, which closes the window. `fit`:
    make the window no larger than the screen. Raises DisplayError, EventsError.
    """
    import pygame

    from engine.kit import theme, widgets
    from engine.pedals.rig import Rig
    from engine.pedals.sdl import Devices
    from engine.stage.events import Events
    from engine.stage.loop import Loop
    from engine.stage.mixer import Mixer
    from engine.stage.stage import Stage
    from engine.stage.window import Window

    with closing(Events(events, clock)) as events_file:
        try:
            window = Window(shape, theme.GROUND, theme.THROTTLE, widgets.icon(), fit=fit)
            pygame.joystick.init()
            rig = Rig(clock, Devices())
            stage = Stage(window, Mixer(), events_file)
            events_file.note("started", {"window": window.size})
            Loop(window, rig, events_file, asked_to_end).run(flow(rig, stage))
            return window.shape
        finally:
            pygame.quit()
