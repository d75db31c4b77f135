"""`Practice`: sets, sessions and warm-ups without a window, by a simulated foot that counts."""

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta

import numpy as np

from drills.foot import SimulatedFoot
from drills.phases import Phase, Transition
from drills.task import Task
from drills.trace import SECOND
from engine.drill.attempt import Setting
from engine.drill.set import run_set
from engine.five.flow import five_minutes, warm_up
from engine.kit.flow import watched
from engine.ladder.level_files import load_band
from engine.pedals.port import CalibratedPedals
from engine.pedals.rig import Rig
from engine.pedals.simulated import SIMULATED_TRAVEL
from engine.stage.events import Events
from engine.stage.headless import ManualClock, NoLights, run_headless
from engine.stage.scene import Flow, Scene
from engine.stage.speaker import Silence
from engine.stage.stage import Stage
from engine.store import History, Record
from tests.engine.five.learning_foot import LEVELS, Feet

BEGAN = datetime(2024, 6, 1, 18, tzinfo=UTC)
SKILL = 0.6
MINUTES = 1.5
"""Minutes of a session: a short one, of some twelve repetitions."""
SET = 10
"""Repetitions of a set."""
SORTS = ("set", "five", "warm-up")
"""What can be practised."""


@dataclass
class Heard:
    """Listener that counts the repetitions which came to their end, and those reported."""

    performed: int = 0
    """Repetitions that the foot finished, whether they were stored or not."""
    records: list[Record] = field(default_factory=list)
    """Records that were reported as stored, oldest first."""

    def on_menu(self) -> None:
        """Do nothing: no repetition ends."""

    def on_task(self, _task: Task) -> None:
        """Do nothing: no repetition ends."""

    def on_transition(self, transition: Transition) -> None:
        """Count a repetition that is done."""
        self.performed += transition.phase is Phase.DONE

    def on_record(self, _place: int, record: Record) -> None:
        """Note a record."""
        self.records.append(record)


class Practice:
    """One day of practice on a clock and calendar of its own."""

    def __init__(
        self,
        history: History,
        seed: int,
        began: datetime = BEGAN,
        events: Callable[[ManualClock], Events] = lambda clock: Events(None, clock),
        opened: Callable[[Scene], None] = lambda _: None,
    ) -> None:
        """`seed` is that of the foot and of what is drawn; `opened` is told every screen."""
        self.clock, self.heard = ManualClock(), Heard()
        self.history, self._began, self._opened = history, began, opened
        self.events = events(self.clock)
        foot = Feet(SimulatedFoot(SKILL, seed), self.clock, "")
        rig = Rig(self.clock, pedals=CalibratedPedals(foot, SIMULATED_TRAVEL))
        stage = Stage(NoLights(), Silence(), self.events, (foot, self.heard))
        rng = np.random.default_rng(seed)
        self.setting = Setting(rig, stage, history, rng, self.now, levels=LEVELS)
        self._level = LEVELS[seed % 3]

    def now(self) -> datetime:
        """The local date and time."""
        return self._began + timedelta(seconds=self.clock() / SECOND)

    def play(self, sort: str) -> None:
        """Play one of SORTS to its end."""
        flows: dict[str, Callable[[], Flow[object]]] = {
            "set": lambda: run_set(self._level, self.setting, SET),
            "five": lambda: five_minutes(self.setting, self.history, load_band(), MINUTES),
            "warm-up": lambda: warm_up(self.setting, self.history, load_band()),
        }
        try:
            run_headless(watched(flows[sort](), self._opened, lambda _: None), self.clock)
        finally:
            self.events.close()
