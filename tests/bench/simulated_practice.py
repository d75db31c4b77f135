"""An evening of practice by the simulated foot, on devices of any kind."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from pathlib import Path

import numpy as np

from drills.calibration import COUNTS, UNIT, Calibration
from drills.foot import DT, SimulatedFoot
from drills.level import Level
from drills.phases import OVER, Event, Phase, Transition
from drills.task import Task
from drills.trace import nanoseconds
from engine.drill.attempt import Setting
from engine.drill.set import run_set
from engine.ladder.level_files import SHIPPED, load_levels
from engine.pedals.port import CalibratedPedals, Reading
from engine.pedals.rig import Rig
from engine.stage.events import Events
from engine.stage.headless import ManualClock, NoLights, run_headless
from engine.stage.speaker import Silence
from engine.stage.stage import Stage
from engine.store import Record, open_history
from engine.store.traces import trace_of

FIRST = datetime(2014, 1, 1, 18, tzinfo=UTC)
LEVELS = load_levels([SHIPPED])
STEP = nanoseconds(DT)


@dataclass(frozen=True)
class Device:
    """How pedals are converted and reported."""

    name: str
    """For the table."""
    step: int
    """counts in one step of the converter."""
    noise: float
    """steps, standard deviation of what each report adds by itself."""
    every: int
    """ms from one report to the next."""
    scale: Calibration = UNIT
    """What its counts are read through."""


class LivingPedals:
    """A foot on a device that reports now and then, and listens as a person does."""

    name = "pedals"
    is_feet = True
    counts = True
    label = ""

    def __init__(self, device: Device, skill: float, clock: ManualClock) -> None:
        self._device = device
        self._foot = SimulatedFoot(skill, 3)
        self._clock = clock
        self._rng = np.random.default_rng(5)
        self._lived = 0
        self._task: Task | None = None
        self._reported = (0.0, 0.0)

    def read(self) -> Reading:
        """What the device reported last."""
        while self._clock() - self._lived >= STEP:
            moved = self._foot.step()
            if (self._lived // STEP) % self._device.every == 0:
                scale = self._device.scale
                self._reported = (
                    self._converted(scale.brake.raw(moved[0])),
                    self._converted(scale.throttle.raw(moved[1])),
                )
            self._lived += STEP
        return Reading(self._clock(), *self._reported)

    def _converted(self, raw: float) -> float:
        noise = self._rng.normal(0, self._device.noise) if self._device.noise else 0.0
        steps = round(raw * COUNTS / self._device.step + noise)
        return steps * self._device.step / COUNTS

    def on_menu(self) -> None:
        """Let go."""
        self._foot.press(0.0)

    def on_task(self, task: Task) -> None:
        """Let go, to begin from a released brake."""
        self._task = task
        self._foot.intend_blips(task.size)
        self._foot.press(0.0)

    def on_transition(self, transition: Transition) -> None:
        """Look for the target once the brake was let go, feel for it in the dark, answer a cue."""
        if self._task is None:
            return
        if transition.phase is Phase.APPROACH:
            self._foot.press(self._task.target)
        elif transition.phase in OVER:
            self._foot.see()
        elif transition.event is Event.STEADY:
            self._foot.darken(cued=bool(self._task.cues))
        elif transition.event is Event.CUE:
            self._foot.blip()

    def on_record(self, place: int, record: Record) -> None:
        """Nothing."""


class Keeper:
    """Listens for records."""

    def __init__(self) -> None:
        self.records: list[Record] = []

    def on_menu(self) -> None:
        """Nothing."""

    def on_task(self, task: Task) -> None:
        """Nothing."""

    def on_transition(self, transition: Transition) -> None:
        """Nothing."""

    def on_record(self, place: int, record: Record) -> None:
        """Keep it."""
        self.records.append(record)


def evening(
    device: Device, skill: float, folder: Path, levels: int | None = None
) -> Iterator[Record]:
    """Repetitions that count of a set of each level, played into a history in a folder.

    `levels` is how many of the easiest levels are played; None for all.
    """
    clock, keeper = ManualClock(), Keeper()
    pedals = LivingPedals(device, skill, clock)
    rig = Rig(clock, pedals=CalibratedPedals(pedals, device.scale))
    stage = Stage(NoLights(), Silence(), Events(None, clock), (pedals, keeper))
    rng = np.random.default_rng(3)
    with open_history(folder, []) as history:
        for level in LEVELS[:levels]:
            setting = Setting(rig, stage, history, rng, lambda: FIRST, levels=LEVELS)
            run_headless(run_set(level, setting, level.repetitions), clock)
        whole = [
            replace(record, trace=trace_of(history, number))
            for number, record in enumerate(keeper.records, start=1)
        ]
    return iter(record for record in whole if not record.verdict.void)


def level_of(record: Record) -> Level:
    """The level that a record is of."""
    return next(level for level in LEVELS if level.id == record.level)
