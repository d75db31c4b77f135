"""Flows without a window, played by a simulated foot whose repetitions count."""

from datetime import UTC, datetime

import numpy as np

from drills.foot import SimulatedFoot
from drills.level import Level
from engine.drill.attempt import Setting
from engine.ladder.level_files import SHIPPED, load_levels
from engine.pedals.port import CalibratedPedals
from engine.pedals.rig import Rig
from engine.pedals.simulated import SIMULATED_TRAVEL, SimulatedPedals
from engine.stage.headless import ManualClock
from engine.stage.scene import Flow, T
from engine.store import History, ledger
from tests.engine.walking import Step, walk
from tests.fakes import Audience, a_stage

LEVELS = load_levels([SHIPPED])
BY_ID = {level.id: level for level in LEVELS}
DATE = datetime(2024, 5, 17, 20, 15, tzinfo=UTC)


class Feet(SimulatedPedals):
    """Simulated pedals whose repetitions count, as a player's do."""

    name = "pedals"
    counts = True


class Learning:
    """A simulated foot of some skill, with a history and an audience."""

    def __init__(self, history: History, skill: float, seed: int = 3, chance: int = 1) -> None:
        self.clock = ManualClock()
        self.audience = Audience()
        foot = Feet(SimulatedFoot(skill, seed), self.clock, "")
        self.stage = a_stage(self.audience, foot)
        rig = Rig(self.clock, pedals=CalibratedPedals(foot, SIMULATED_TRAVEL))
        rng = np.random.default_rng(chance)
        self.setting = Setting(rig, self.stage, history, rng, lambda: DATE, levels=LEVELS)
        self.seen: list[str] = []

    def walk(self, flow: Flow[T], *steps: tuple[str, Step]) -> T:
        """Run a flow to its end, taking each step at the next screen of its name."""
        return walk(flow, self.clock, steps, self.seen)

    @property
    def drawn(self) -> list[str]:
        """Id of the level that each repetition drew, or of its own level, in order."""
        return [record.drawn or record.level for _, record in self.audience.records]


def passes(history: History, *levels: Level) -> None:
    """Store that a placing set went past these levels, so that they count as passed."""
    ledger.keep_placed(history, [level.id for level in levels])
