"""`practise`: a set, session or warm-up without a window, by a simulated foot that counts."""

from collections.abc import Callable, Mapping
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path

import numpy as np

from drills.foot import SimulatedFoot
from drills.trace import SECOND
from engine.drill.attempt import Setting
from engine.drill.set import run_set
from engine.five.flow import five_minutes, warm_up
from engine.ladder.level_files import load_band
from engine.pedals.port import CalibratedPedals
from engine.pedals.rig import Rig
from engine.pedals.simulated import SIMULATED_TRAVEL
from engine.stage.events import Events
from engine.stage.headless import ManualClock, NoLights, run_headless
from engine.stage.scene import Flow
from engine.stage.speaker import Silence
from engine.stage.stage import Stage
from engine.store import History
from tests.engine.five.learning_foot import LEVELS, Feet

BEGAN = datetime(2024, 6, 1, 18, tzinfo=UTC)
SKILL = 0.6
MINUTES = 1.5
"""Minutes of a session: a short one, of some twelve repetitions."""
SET = 10
"""Repetitions of a set."""
FLOWS: Mapping[str, Callable[[Setting, History], Flow[object]]] = {
    "set": lambda setting, _: run_set(LEVELS[0], setting, SET),
    "five": lambda setting, history: five_minutes(setting, history, load_band(), MINUTES),
    "warm-up": lambda setting, history: warm_up(setting, history, load_band()),
}
"""What can be practised, by name."""


def practise(what: str, history: History, file: Path, number: int) -> None:
    """Play what FLOWS names on day `number`, which seeds the foot; events go into a file."""
    clock = ManualClock()
    day = BEGAN + timedelta(days=number)
    foot = Feet(SimulatedFoot(SKILL, number), clock, "")
    with closing(Events(file, clock)) as events:
        setting = Setting(
            Rig(clock, pedals=CalibratedPedals(foot, SIMULATED_TRAVEL)),
            Stage(NoLights(), Silence(), events, (foot,)),
            history,
            np.random.default_rng(number),
            lambda: day + timedelta(seconds=clock() / SECOND),
            levels=LEVELS,
        )
        run_headless(FLOWS[what](setting, history), clock)
