"""Watching the simulated foot play a set in the window, at real speed, with its own pedals."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from pathlib import Path

from drills.foot import Foot
from drills.level import Level
from engine.flow.game import Way, practise
from engine.pedals.port import CalibratedPedals
from engine.pedals.simulated import SIMULATED_TRAVEL, SimulatedPedals
from engine.screens.base import Screen
from engine.screens.repeating import Repeating
from engine.stage.stage import Game
from engine.store import History

READING = 3.0
"""s that the foot leaves a person to read a verdict."""


@dataclass(frozen=True)
class Show:
    """What is to be watched."""

    level: Level
    """The level that is played."""
    repetitions: int
    """count."""
    seed: int
    """Of the foot."""
    skill: float
    """0 beginner to 1 expert."""
    folder: Path | None = None
    """Where its history goes; None for a folder that is thrown away afterwards."""

    @contextmanager
    def history(self) -> Iterator[History]:
        """The history it is kept in, open; closed, and thrown away where it has no folder."""
        with ExitStack() as stack:
            folder = self.folder
            if folder is None:
                folder = Path(stack.enter_context(tempfile.TemporaryDirectory(prefix="stillfoot-")))
            yield stack.enter_context(History(folder))


def watch(game: Game, show: Show) -> Way:
    """Play the set with the simulated foot, into the history of the game."""
    foot = SimulatedPedals(Foot(show.skill, show.seed), game.clock)
    before = game.feet
    game.feet = CalibratedPedals(foot, SIMULATED_TRAVEL)
    game.watchers.append(foot.see_phase)
    try:
        yield from _seen_by(foot, game, show)
    finally:
        game.watchers.remove(foot.see_phase)
        game.feet = before


def watch_aside(game: Game, show: Show) -> Way:
    """The same into a history of its own: a player's history never holds a simulated foot."""
    before = game.history
    with show.history() as history:
        game.history = history
        try:
            yield from watch(game, show)
        finally:
            game.history = before


def _seen_by(foot: SimulatedPedals, game: Game, show: Show) -> Way:
    playing = practise(game, show.level, show.repetitions)
    try:
        screen = next(playing)
        while True:
            _show_to(foot, screen)
            screen = playing.send((yield screen))
    except StopIteration:
        return


def _show_to(foot: SimulatedPedals, screen: Screen) -> None:
    if isinstance(screen, Repeating):
        foot.see_target(screen.target)
    else:
        foot.agree_after(READING)
