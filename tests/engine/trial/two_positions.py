"""Trials without a window, played by a simulated foot that has two positions."""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from itertools import cycle

import numpy as np

from drills.calibration import COUNTS, UNIT, Calibration
from drills.level import Level
from drills.phases import Event, Phase, Transition
from drills.task import Task
from drills.trace import SECOND
from engine.drill.attempt import Setting
from engine.kit.flow import watched
from engine.ladder.level_files import SHIPPED, load_band, load_levels
from engine.pedals.port import CalibratedPedals, Reading, Source
from engine.pedals.rig import Rig
from engine.stage.actions import Action
from engine.stage.headless import ManualClock
from engine.stage.scene import Attended, Scene
from engine.store import History
from engine.trial.flow import trials
from engine.trial.saved import all_trials, keep_new_trial
from engine.trial.trial import Arm, Ball, SetUp, Trial
from tests.engine.five.unattended import attend
from tests.engine.walking import Step, choose
from tests.fakes import MILLISECOND, Audience, a_stage

LEVELS = load_levels([SHIPPED])
BY_ID: Mapping[str, Level] = {level.id: level for level in LEVELS}
BAND = load_band()
LEVEL = BY_ID["blip-2-closer"]
EVENING = datetime(2024, 5, 17, 20, 15, tzinfo=UTC)
ARMS = SetUp("ball of the foot"), SetUp("toes", ball=Ball.TOES)
REACTION = 250 * MILLISECOND
PULSE = 200 * MILLISECOND
PEAK = 70.0  # %, throttle of a blip
SPREAD = 1.5  # points, standard deviation of the dips
LONGEST = 200  # screens of a test
ON: tuple[str, Step] = ("change over", "on")
TODAY: tuple[str, Step] = ("change over", "Stop for today")


class Positions:
    """A foot that holds each target and dips at each blip, by an amount for each position."""

    name = "positions"
    is_feet = True
    counts = True
    label = ""

    def __init__(self, clock: ManualClock, dips: Mapping[Arm, float]) -> None:
        """`dips` are the mean dips in each position, in points."""
        self.arm = Arm.A
        self.peaks = {arm: cycle((PEAK,)) for arm in Arm}
        """Throttle at the peak of the next blips in each position, in %."""
        self._peak = PEAK
        self._clock = clock
        self._dips = dips
        self._rng = np.random.default_rng(11)
        self._task: Task | None = None
        self._brake = self._dip = 0.0
        self._blip_at: int | None = None

    def read(self) -> Reading:
        """The pedals as the foot presses them now."""
        now = self._clock()
        since = -1.0 if self._blip_at is None else (now - self._blip_at) / PULSE
        pulse = float(np.sin(np.pi * since)) if 0 <= since <= 1 else 0.0
        brake = max(self._brake - self._dip * pulse, 0.0)
        return Reading(now, raw(brake), raw(self._peak * pulse))

    def on_menu(self) -> None:
        """Let go of the pedals."""
        self._brake, self._blip_at = 0.0, None

    def on_task(self, task: Task) -> None:
        """Let go, so that the repetition begins from a released brake."""
        self.on_menu()
        self._task = task

    def on_transition(self, transition: Transition) -> None:
        """Press to the target in the approach, and blip at the cue."""
        assert self._task is not None
        if transition.phase is Phase.APPROACH:
            self._brake = self._task.target
        elif transition.event is Event.CUE:
            self._blip_at = self._clock() + REACTION
            self._peak = next(self.peaks[self.arm])
            self._dip = abs(self._rng.normal(self._dips[self.arm], SPREAD))

    def on_record(self, place: int, record: object) -> None:
        """Do nothing."""


class Trying:
    """Trials played by such a foot, on a clock and calendar set by the test."""

    def __init__(
        self,
        history: History,
        a: float = 14.0,
        b: float = 8.0,
        levels: Iterable[Level] = LEVELS,
        scale: Calibration = UNIT,
    ) -> None:
        """`a` and `b` are the mean dips in each position, in points."""
        self.clock = ManualClock()
        self.history = history
        self.began = EVENING
        self.foot = Positions(self.clock, {Arm.A: a, Arm.B: b})
        self.audience = Audience()
        self.setting = Setting(
            Rig(self.clock, pedals=CalibratedPedals(self.foot, scale)),
            a_stage(self.foot, self.audience),
            history,
            np.random.default_rng(1),
            self.now,
            levels=tuple(levels),
        )
        self.seen: list[tuple[str, Mapping[str, object]]] = []

    def now(self) -> datetime:
        """The local date and time."""
        return self.began + timedelta(seconds=self.clock() / SECOND)

    def next_day(self) -> None:
        """Move the calendar to the next day."""
        self.began += timedelta(days=1)

    def read_through(self, source: Source, scale: Calibration = UNIT) -> None:
        """Read the pedals through another source, or another calibration."""
        self.setting = replace(
            self.setting, rig=Rig(self.clock, pedals=CalibratedPedals(source, scale))
        )

    def begin(self, pairs: int = 6, level: Level = LEVEL) -> Trial:
        """Store a new trial, without the screens that ask for it."""
        keep_new_trial(self.history, self.now(), level.id, ARMS, pairs, seed=3)
        return self.trial

    def walk(self, *steps: tuple[str, Step], at_once: bool = False) -> None:
        """Walk through trials; each step is taken at the next screen of its name.

        All other screens pass by themselves, or end with their first choice.
        """
        flow = trials(self.setting, BAND, at_once=at_once)
        attend(watched(flow, self._stand, lambda _: None), self.clock, steps, self.seen)

    @property
    def trial(self) -> Trial:
        """The newest trial, as it is stored."""
        return all_trials(self.history)[-1]

    @property
    def names(self) -> list[str]:
        """Names of the screens that were shown."""
        return [name for name, _ in self.seen]

    def details_of(self, name: str) -> list[Mapping[str, object]]:
        """Details of every screen of a name."""
        return [details for one, details in self.seen if one == name]

    def _stand(self, scene: Scene) -> None:
        """Place the foot as the change-over says; fail after too many screens."""
        assert len(self.seen) < LONGEST, self.names[-10:]
        if scene.screen.name == "change over":
            self.foot.arm = Arm(str(scene.screen.details()["arm"]))


def raw(percent: float) -> float:
    """Raw value of a pedal position, in whole counts as a device gives them."""
    return round(percent / 100 * COUNTS) / COUNTS


def toes(screen: Attended) -> None:
    """Choose toes on the brake for set-up B, and go on."""
    screen.on_action(Action.GO)
    choose(screen, "Go on")
