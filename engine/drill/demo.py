"""A simulated foot plays a set, with a rig and a history of its own."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator, Sequence
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np

from drills.foot import Foot
from drills.level import Feedback, Level
from engine.drill.attempt import Now, Setting
from engine.drill.set import end_set, run_set
from engine.drill.watched_repetition import WatchedRepetition
from engine.pedals.port import CalibratedPedals, Clock
from engine.pedals.rig import Rig
from engine.pedals.simulated import SIMULATED_TRAVEL, SimulatedPedals
from engine.stage.scene import Flow
from engine.stage.stage import Stage
from engine.store import History, StoreError, open_history

KEPT_NOWHERE = "Demo: nothing is kept"
"""What every screen says of a demo."""
KEPT_APART = "Demo: nothing of it counts"
"""What every screen says of one that was given a folder."""
FOREPERIODS = 1
"""Number of the random stream that the waits come from: one apart from the foot's."""


@dataclass(frozen=True)
class Demonstration:
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
    levels: Sequence[Level] = ()
    """All there are: their pass rules are for a history that does not say its own, and a mixed
    level draws from those that it needs."""
    tour: bool = False
    """Whether one level of every kind is shown in turn, in the place of `level`."""

    @property
    def shown(self) -> Sequence[Level]:
        """The levels that are played, in order; on a tour each with its reveal."""
        if not self.tour:
            return (self.level,)
        first = {level.kind.name: level for level in reversed(self.levels)}
        kinds = dict.fromkeys(level.kind.name for level in self.levels)
        return [replace(first[name], feedback=Feedback.EVERY) for name in kinds]

    @contextmanager
    def history(self) -> Iterator[History]:
        """The history it is kept in, open; closed, and thrown away where it has no folder."""
        with ExitStack() as stack:
            folder = self.folder or stack.enter_context(_passing_folder())
            yield stack.enter_context(open_history(folder, self.levels))


@contextmanager
def _passing_folder() -> Iterator[Path]:
    """A folder that is thrown away. Raises StoreError where none can be made."""
    try:
        folder = tempfile.TemporaryDirectory(prefix="stillfoot-")
    except OSError as error:
        raise StoreError(
            f"temporary folder: expected a place to make one, found: {error.strerror}"
        ) from error
    with folder as name:
        yield Path(name)


def watch(
    shown: Demonstration, clock: Clock, stage: Stage, history: History, now: Now
) -> Flow[None]:
    """Play sets with the simulated foot and show how they went, until that is enough.

    A tour ends with its last level, or where the one who watches leaves it.
    """
    label = KEPT_NOWHERE if shown.folder is None else KEPT_APART
    foot = SimulatedPedals(Foot(shown.skill, shown.seed), clock, label)
    rig = Rig(clock, pedals=CalibratedPedals(foot, SIMULATED_TRAVEL))
    watched = replace(stage, listeners=(*stage.listeners, foot))
    rng = np.random.default_rng((shown.seed, FOREPERIODS))
    setting = Setting(rig, watched, history, rng, now, WatchedRepetition, shown.levels)
    if shown.tour:
        for level in shown.shown:
            played = yield from run_set(level, setting, shown.repetitions)
            if played.home or not played.kept.counted:
                return
        return
    following: object = shown.level
    while following is shown.level:
        played = yield from run_set(shown.level, setting, shown.repetitions)
        if played.home or not played.kept.records:
            return
        following = yield from end_set(
            shown.level, shown.level, played.kept, setting, home_first=True
        )


def watch_aside(shown: Demonstration, clock: Clock, stage: Stage, now: Now) -> Flow[None]:
    """The same into a history of its own: a player's history never holds a simulated foot."""
    with shown.history() as history:
        yield from watch(shown, clock, stage, history, now)
