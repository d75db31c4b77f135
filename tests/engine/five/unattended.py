"""Sessions of short holds without a window, played by a foot that misses by a given amount."""

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
from engine.practice.results import Purpose, Session, SessionKind
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
ONE_CLEAN = PassRule(1, 1)
"""Pass rule that one clean repetition meets."""
LOOK = 10 * MILLISECOND
"""Nanoseconds between two steps of the loop."""
BY_THEMSELVES = frozenset({"repetition", "reveal", "summary", "moment", "shown"})
"""Screens that end by themselves."""
TREMBLE = 0.001
"""Points by which a foot trembles: one that keeps a single value would be a brake that froze."""
STALLED = 1000.0
"""Amount in % that makes a repetition void: its pedals stop reporting for a while."""


Seen = tuple[str, Mapping[str, object]]
"""Name and details of a screen."""


class InexactFoot:
    """A foot that finds each target, and in the dark is off it by a given amount."""

    name = "told"
    is_feet = True
    counts = True
    label = ""

    def __init__(self, clock: ManualClock, off: Callable[[int], float]) -> None:
        """`off` gives the amount in % by the number of the repetition, from 0."""
        self._clock = clock
        self._off = off
        self._task: Task | None = None
        self._brake = 0.0
        self._tremble = TREMBLE
        self._stalls_at: int | None = None
        self.begun = 0

    def read(self) -> Reading:
        """The pedals now; once in a repetition that is to be void, far too late."""
        if self._stalls_at is not None and self._clock() >= self._stalls_at:
            self._clock.advance(60 * MILLISECOND)
            self._stalls_at = None
        self._tremble = -self._tremble
        return Reading(self._clock(), (self._brake + self._tremble) / 100, 0.0)

    def on_menu(self) -> None:
        """Release the pedals."""
        self._brake = 0.0

    def on_task(self, task: Task) -> None:
        """Release the pedals before a repetition."""
        self._task, self._brake = task, 0.0

    def on_transition(self, transition: Transition) -> None:
        """Find the target; in the dark miss it by the given amount."""
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
        """Do nothing."""


class Minutes:
    """Sessions by such a foot, with a clock that moves the calendar."""

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
        self.foot = InexactFoot(self.clock, off)
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
        """Read the pedals through a faulty source."""
        source = wrap(self.foot, self.clock)
        rig = Rig(self.clock, pedals=CalibratedPedals(source, UNIT))
        self.setting = replace(self.setting, rig=rig)

    def play(self, *steps: tuple[str, Step], minutes: float = 1.0) -> Done:
        """Play a session of so many minutes; each step is taken at the next screen of its name.

        All other screens pass by themselves, or end with their first choice.
        """
        return self.walk(five_minutes(self.setting, self.history, BAND, minutes), *steps)

    def walk(self, flow: Flow[T], *steps: tuple[str, Step]) -> T:
        """Run a flow in the same way."""
        return attend(flow, self.clock, steps, self.seen)

    @property
    def names(self) -> list[str]:
        """Names of the screens that came up, in order."""
        return [name for name, _ in self.seen]

    def details_of(self, name: str) -> list[Mapping[str, object]]:
        """Details of each screen of a name that came up, in order."""
        return [details for screen, details in self.seen if screen == name]

    @property
    def session(self) -> Session:
        """The newest five minutes of today in the history."""
        sessions = sessions_on(self.history, self.now().date())
        return [session for session in sessions if session.what is SessionKind.FIVE][-1]


def attend(
    flow: Flow[T],
    clock: ManualClock,
    steps: Sequence[tuple[str, Step]] = (),
    seen: list[Seen] | None = None,
) -> T:
    """Run a flow to its end; each step is taken at the next screen of its name.

    All other screens pass by themselves, or end with their first choice. All are added to `seen`.
    """
    waiting = list(steps)
    while True:
        try:
            scene = next(flow)
        except StopIteration as ended:
            assert waiting == [], f"the flow ended before {waiting}"
            result: T = ended.value
            return result
        screen = scene.screen
        if seen is not None:
            seen.append((screen.name, screen.details()))
        screen.on_focus(True, clock())
        if waiting and waiting[0][0] == screen.name:
            step = waiting.pop(0)[1]
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
    """Store that a level was passed so many days before, by one repetition that took `took` s."""
    add_repetition(
        history,
        record(
            level=level.id,
            kind=level.kind.name,
            verdict=Verdict(Reason.CLEAN, score),
            at=at - timedelta(days=days),
            rule=ONE_CLEAN,
            took=took,
            trace=None,
            sampling=None,
        ),
    )


def whys(session: Session) -> list[Purpose]:
    """The purpose of each repetition of a session, in order."""
    return [result.why for result in session.results]
