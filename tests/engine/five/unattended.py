"""What runs by itself without a window: short holds, by a foot that is told how far off it is."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import numpy as np

from drills.calibration import UNIT
from drills.level import Feedback, Level, PassRule
from drills.phases import Event, Phase, Transition
from drills.score import Reason, Verdict
from drills.task import Task
from drills.trace import SECOND
from engine.drill.attempt import Setting
from engine.five.day_end import Done
from engine.five.flow import five_minutes
from engine.five.saved import sessions_on
from engine.ladder.level_files import load_band
from engine.pedals.port import CalibratedPedals, Reading, Source
from engine.pedals.rig import Rig
from engine.practice.results import Purpose, SessionKind
from engine.practice.results import Session as Kept
from engine.stage.actions import Action
from engine.stage.headless import ManualClock
from engine.stage.scene import Flow, T
from engine.store import History
from engine.store.repetitions import add_repetition
from tests.engine.walking import ACTIONS, Step, choose, sit_through
from tests.fakes import MILLISECOND, a_stage
from tests.made import HOLD, record

DATE = datetime(2024, 5, 17, 20, 15, tzinfo=UTC)
BAND = load_band()
FIRST = replace(HOLD, id="first", title="First", feedback=Feedback.NONE)
SECOND_ONE = replace(FIRST, id="second", title="Second", needs=("first",))
THIRD = replace(FIRST, id="third", title="Third", needs=("second",))
HOLDS = (FIRST, SECOND_ONE, THIRD)
SOON = PassRule(1, 1)
"""What passes a level with its first clean one."""
LOOK = 10 * MILLISECOND
BY_THEMSELVES = frozenset({"repetition", "reveal", "summary", "shown"})
"""Screens that end by themselves."""
STALLED = 1000.0
"""%, what a foot is told that is to be lost to a gap."""


Seen = tuple[str, Mapping[str, object]]
"""The name of a screen, and what it said."""


class Told:
    """A foot that holds each target, and in the dark is as far off it as it was told."""

    name = "told"
    is_feet = True
    counts = True
    label = ""

    def __init__(self, clock: ManualClock, off: Callable[[int], float]) -> None:
        """`off` is % by the number of the repetition, from 0."""
        self._clock = clock
        self._off = off
        self._task: Task | None = None
        self._brake = 0.0
        self._stalls_at: int | None = None
        self.begun = 0

    def read(self) -> Reading:
        """The pedals now; once of a repetition that is to be lost, far too late."""
        if self._stalls_at is not None and self._clock() >= self._stalls_at:
            self._clock.advance(60 * MILLISECOND)
            self._stalls_at = None
        return Reading(self._clock(), self._brake / 100, 0.0)

    def on_menu(self) -> None:
        """Let go."""
        self._brake = 0.0

    def on_task(self, task: Task) -> None:
        """Let go, to begin from a released brake."""
        self._task, self._brake = task, 0.0

    def on_transition(self, transition: Transition) -> None:
        """Find the target; in the dark do as told."""
        assert self._task is not None
        if transition.phase is Phase.APPROACH:
            self._brake = self._task.target
        elif transition.event is Event.STEADY:
            off = self._off(self.begun)
            if off == STALLED:
                self._stalls_at = self._clock() + SECOND
            else:
                self._brake = self._task.target + off
            self.begun += 1

    def on_record(self, place: int, record: object) -> None:
        """Nothing."""


class Minutes:
    """Five minutes by such a foot, on the clock and the calendar."""

    def __init__(
        self,
        history: History,
        off: Callable[[int], float] = lambda _: 0.0,
        levels: Sequence[Level] = HOLDS,
        began: datetime = DATE,
    ) -> None:
        self.clock = ManualClock()
        self.history = history
        self.began = began
        self.foot = Told(self.clock, off)
        self.setting = Setting(
            Rig(self.clock, pedals=CalibratedPedals(self.foot, UNIT)),
            a_stage(self.foot),
            history,
            np.random.default_rng(1),
            self.now,
            levels=levels,
        )
        self.seen: list[Seen] = []

    def now(self) -> datetime:
        """The local date and time."""
        return self.began + timedelta(seconds=self.clock() / SECOND)

    def read_through(self, wrap: Callable[[Source, ManualClock], Source]) -> None:
        """Read the pedals through something faulty."""
        source = wrap(self.foot, self.clock)
        rig = Rig(self.clock, pedals=CalibratedPedals(source, UNIT))
        self.setting = replace(self.setting, rig=rig)

    def play(self, *steps: tuple[str, Step], minutes: float = 1.0) -> Done:
        """Five minutes, so short; each step is taken at the next screen of its name.

        All other screens pass by themselves, or end with their first choice.
        """
        return self.walk(five_minutes(self.setting, self.history, BAND, minutes), *steps)

    def walk(self, flow: Flow[T], *steps: tuple[str, Step]) -> T:
        """Sit through a flow in that way."""
        return attend(flow, self.clock, steps, self.seen)

    @property
    def names(self) -> list[str]:
        """The names of the screens that were seen."""
        return [name for name, _ in self.seen]

    def told(self, name: str) -> list[Mapping[str, object]]:
        """What the screens of a name said."""
        return [details for one, details in self.seen if one == name]

    @property
    def session(self) -> Kept:
        """The newest five minutes of the day they began on, as they are kept."""
        return [
            one
            for one in sessions_on(self.history, self.now().date())
            if one.what is SessionKind.FIVE
        ][-1]


def attend(
    flow: Flow[T],
    clock: ManualClock,
    steps: Sequence[tuple[str, Step]] = (),
    seen: list[Seen] | None = None,
) -> T:
    """Sit through a flow; each step is taken at the next screen of its name.

    All other screens pass by themselves, or end with what comes first. `seen` is given them all.
    """
    ahead = list(steps)
    while True:
        try:
            scene = next(flow)
        except StopIteration as ended:
            assert ahead == [], f"the flow ended before {ahead}"
            result: T = ended.value
            return result
        screen = scene.screen
        if seen is not None:
            seen.append((screen.name, screen.details()))
        screen.on_focus(True, clock())
        if ahead and ahead[0][0] == screen.name:
            step = ahead.pop(0)[1]
            if not isinstance(step, str):
                step(screen)
            elif step in ACTIONS:
                screen.on_action(ACTIONS[step])
            else:
                choose(screen, step)
        elif screen.name in BY_THEMSELVES:
            sit_through(scene, clock, LOOK)
        else:
            screen.on_action(Action.GO)


def passed_on(
    history: History,
    level: Level,
    days: int,
    at: datetime = DATE,
    *,
    took: float | None = None,
    score: float = 60.0,
) -> None:
    """Keep that a level was passed so many days before, with one repetition of so many s."""
    add_repetition(
        history,
        record(
            level=level.id,
            kind=level.kind.name,
            verdict=Verdict(Reason.CLEAN, score),
            at=at - timedelta(days=days),
            rule=SOON,
            took=took,
            trace=None,
            sampling=None,
        ),
    )


def whys(session: Kept) -> list[Purpose]:
    """Why each of its repetitions was played."""
    return [one.why for one in session.results]
