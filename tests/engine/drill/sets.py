"""`SetPlayer`: plays sets without a window, on any source of readings."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import numpy as np

from drills.calibration import UNIT
from drills.level import Level
from drills.score import Reason
from engine.drill.attempt import Setting
from engine.drill.set import Played, run_set
from engine.pedals.port import CalibratedPedals, Source
from engine.pedals.rig import Rig
from engine.stage.headless import ManualClock
from engine.stage.scene import Flow
from engine.store import History, Record
from tests.engine.walking import Step, walk
from tests.fakes import Audience, LettingGo, a_stage
from tests.made import HOLD

SHORT = replace(HOLD, repetitions=2)
DATE = datetime(2024, 5, 17, 20, 15, tzinfo=UTC)


class SetPlayer:
    """Plays sets on one source of readings, with a rig, a stage and dates of its own."""

    def __init__(self, source: Source, clock: ManualClock, history: History) -> None:
        self.clock = clock
        self.history = history
        self.audience = Audience()
        self.foot = LettingGo(source)
        self.stage = a_stage(self.audience, self.foot)
        self.rig = Rig(clock, pedals=CalibratedPedals(self.foot, UNIT))
        dates = iter(DATE + timedelta(minutes=minute) for minute in range(100))
        rng = np.random.default_rng(1)
        self.setting = Setting(self.rig, self.stage, history, rng, lambda: next(dates))
        self.seen: list[str] = []

    def set_of(self, level: Level) -> Flow[Played]:
        """Flow of a set of a level."""
        return run_set(level, self.setting, level.repetitions)

    def play(self, level: Level, *steps: tuple[str, Step]) -> Played:
        """Result of a set of a level."""
        return walk(self.set_of(level), self.clock, steps, self.seen)

    def walk(self, level: Level, *steps: tuple[str, Step]) -> list[Record]:
        """Records of a set of a level."""
        return self.play(level, *steps).log.records

    @property
    def places(self) -> list[int]:
        """Place of each stored repetition in its set."""
        return [place for place, _ in self.audience.records]


def reasons(records: list[Record]) -> list[Reason]:
    """Reason of each verdict."""
    return [record.verdict.reason for record in records]
