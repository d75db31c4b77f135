"""A trial without a window: one foot in two positions, told by the change-over how to stand."""

from collections.abc import Mapping, Sequence
from datetime import UTC, datetime, timedelta

import numpy as np

from drills.phases import Event, Phase, Transition
from drills.task import Task
from drills.trace import SECOND
from engine.flow.attempt import Setting
from engine.flow.trial import trials
from engine.levels import SHIPPED, load_band, load_levels
from engine.pedals.calibration import UNIT, Calibration
from engine.pedals.port import CalibratedPedals, Reading
from engine.pedals.rig import Rig
from engine.practice.trial import Arm
from engine.stage.headless import ManualClock
from engine.stage.scene import Attended, Scene
from engine.store import History
from tests.engine.flow.minutes import attend
from tests.engine.flow.walking import Step
from tests.fakes import MILLISECOND, Loudspeaker, a_stage

LEVELS = load_levels([SHIPPED])
BAND = load_band()
EVENING = datetime(2024, 5, 17, 20, 15, tzinfo=UTC)
REACTION = 250 * MILLISECOND
PULSE = 200 * MILLISECOND
PEAK = 0.7
"""1, throttle of a blip."""
SPREAD = 1.5
"""points, standard deviation of the dips."""


class Positions:
    """A foot that holds each target and dips at each blip by what its position makes of it."""

    name = "positions"
    is_feet = True
    counts = True
    label = ""

    def __init__(self, clock: ManualClock, dips: Mapping[Arm, float]) -> None:
        """`dips` are points, the middle of the dips in each position."""
        self.arm = Arm.A
        self.idle = False
        self._clock = clock
        self._dips = dips
        self._rng = np.random.default_rng(11)
        self._task: Task | None = None
        self._brake = self._dip = 0.0
        self._blip_at: int | None = None

    def read(self) -> Reading:
        """The pedals now."""
        now = self._clock()
        since = -1.0 if self._blip_at is None else (now - self._blip_at) / PULSE
        pulse = float(np.sin(np.pi * since)) if 0 <= since <= 1 else 0.0
        brake = self._brake - self._dip * pulse
        return Reading(now, max(round(brake * 327.68) / 32768, 0.0), PEAK * pulse)

    def on_menu(self) -> None:
        """Let go."""
        self._brake, self._blip_at = 0.0, None

    def on_task(self, task: Task) -> None:
        """Let go, to begin from a released brake."""
        self.on_menu()
        self._task = task

    def on_transition(self, transition: Transition) -> None:
        """Find the target, and blip at the cue."""
        assert self._task is not None
        if transition.phase is Phase.APPROACH:
            self._brake = self._task.target
        elif transition.event is Event.CUE and not self.idle:
            self._blip_at = self._clock() + REACTION
            self._dip = abs(self._rng.normal(self._dips[self.arm], SPREAD))

    def on_record(self, place: int, record: object) -> None:
        """Nothing."""


class Trying:
    """Trials by such a foot, on the clock and the calendar."""

    def __init__(
        self,
        history: History,
        dips: Mapping[Arm, float],
        began: datetime = EVENING,
        scale: Calibration = UNIT,
    ) -> None:
        self.clock = ManualClock()
        self.history = history
        self.began = began
        self.foot = Positions(self.clock, dips)
        self.stage = a_stage(self.foot)
        self.setting = Setting(
            Rig(self.clock, pedals=CalibratedPedals(self.foot, scale)),
            self.stage,
            history,
            np.random.default_rng(1),
            self.now,
            levels=LEVELS,
        )
        self.seen: list[tuple[str, Mapping[str, object]]] = []

    def now(self) -> datetime:
        """The local date and time."""
        return self.began + timedelta(seconds=self.clock() / SECOND)

    def next_day(self) -> None:
        """Sleep over it."""
        self.began += timedelta(days=1)
