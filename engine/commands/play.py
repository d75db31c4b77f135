"""The command `stillfoot` without a subcommand: the game in a window, with real devices."""

from __future__ import annotations

import argparse
import time
from collections.abc import Callable, Sequence
from contextlib import closing
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from engine.commands.options import data_folder, level_called, local_now, shared_folder
from engine.commands.players import whose
from engine.commands.stopping import Stopping
from engine.console import warn
from engine.errors import DisplayError
from engine.ladder.level_files import OWN, SHIPPED, load_band, load_levels
from engine.practice.results import MINUTES
from engine.stage.window_shape import Shape, ShapeError
from engine.store import History, StoreError, open_history

if TYPE_CHECKING:
    from drills.level import Level
    from engine.game.entry import Entry
    from engine.pedals.port import Clock
    from engine.pedals.rig import Rig
    from engine.stage.scene import Aside, Flow
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
    import numpy as np

    from engine.drill.demonstration import Demonstration
    from engine.game.flow import play
    from engine.game.offer import Offer
    from engine.game.opened import OpenedHistory, play_on

    offered = Demonstration(demo, demo.repetitions, OFFERED_SEED, OFFERED_SKILL, levels=levels)
    player = whose(shared_folder(options), options.player)
    offer = Offer(
        *(levels, load_band(), offered, minutes or MINUTES, player),
        is_sized=options.window is not None,
    )
    rng = np.random.default_rng()
    with (
        Stopping() as stopping,
        OpenedHistory(
            lambda on_trouble: open_history(folder, levels, on_trouble=on_trouble),
            lambda: _repair(folder, levels),
            local_now,
        ) as opened,
    ):
        asked: Shape | None = options.window
        shape, damage = asked or opened.read(saved_window, None), opened.damage

        def flow(rig: Rig, stage: Stage, aside: Aside) -> Flow[None]:
            def start(history: History, is_first: bool) -> Flow[None]:
                entry = first_entry if is_first else None
                copying = replace(stage, idle=opened.step)
                return play(rig, copying, history, offer, rng, local_now, entry)

            return play_on(opened, rig, stage, aside, start, warn)

        try:
            left = in_window(
                shape,
                options.events,
                flow,
                fit=asked is None,
                clock=clock,
                asked_to_end=lambda: stopping.asked,
            )
            if left is not None and opened.history is not None:
                opened.history.keep_setting(WINDOW, left.as_data())
            opened.finish(lambda: stopping.asked)
        except DisplayError as error:
            if damage is None:
                raise
            raise StoreError(
                f"{damage}; run stillfoot in a window to repair it; {error}"
            ) from error
        except StoreError as error:
            if not stopping.asked:
                raise
            warn(str(error))
    return stopping.code


def _repair(folder: Path, levels: Sequence[Level]) -> list[str]:
    """Repair the history in a data folder; returns sentences on what was lost. Raises StoreError.

    The window is kept alive meanwhile, if there is one.
    """
    from engine.game.remeasuring import answer
    from engine.salvage.repair import repair
    from engine.salvage.words import words_of

    return words_of(repair(folder, levels, answer))


def saved_window(history: History) -> Shape | None:
    """Size of the window when it was last left, and whether it filled the screen.

    None where it was not saved or cannot be understood. Raises StoreError.
    """
    data = history.setting(WINDOW)
    try:
        return None if data is None else Shape.from_data(data)
    except ShapeError:
        return None


def in_window(
    shape: Shape | None,
    events: Path | None,
    flow: Callable[[Rig, Stage, Aside], Flow[None]],
    *,
    asked_to_end: Callable[[], bool],
    fit: bool = False,
    clock: Clock = time.perf_counter_ns,
) -> Shape | None:
    """Run a flow of screens in a window; return how the window was left, None if as it opened.

    The flow is also given what shows one scene at once. `asked_to_end` says whether a signal asks
    the program to end, which closes the window. `fit`: make the window no larger than the screen.
    Without a `shape` the window is as at a first start.
    Raises DisplayError, EventsError.
    """
    import pygame

    from engine.kit import theme, widgets
    from engine.pedals.rig import Rig
    from engine.pedals.sdl import Devices
    from engine.stage.events import Events
    from engine.stage.less_motion import LessMotion, asks_for_less_motion
    from engine.stage.loop import Loop
    from engine.stage.mixer import Mixer
    from engine.stage.stage import Stage
    from engine.stage.window import Window

    with closing(Events(events, clock)) as events_file:
        try:
            window = Window(
                *(shape, theme.GROUND, theme.THROTTLE, widgets.icon()),
                fit=fit,
                less_motion=LessMotion(asks_for_less_motion),
            )
            pygame.joystick.init()
            rig, opened = Rig(clock, Devices()), window.shape
            stage = Stage(window, Mixer(), events_file)
            events_file.note("started", {"window": window.size})
            loop = Loop(window, rig, events_file, asked_to_end)
            loop.run(flow(rig, stage, loop.run_aside))
            return None if window.shape == opened else window.shape
        finally:
            pygame.quit()
