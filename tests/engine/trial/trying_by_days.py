"""Trials by days without a window: five minutes of a simulated foot on days set by the test."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import datetime, timedelta

from drills.score import Reason, Verdict
from drills.trace import SECOND
from engine.five.day_end import Done
from engine.five.saved import sessions_on
from engine.practice.results import Purpose, Result
from engine.store import History
from engine.store.repetitions import add_repetition
from engine.trial.by_days_flow import five_minutes_in_trial
from engine.trial.flow import trials
from engine.trial.randomisation import order
from engine.trial.saved import all_trials, keep_new_trial
from engine.trial.trial import DAY_BLIPS, DAY_PAIRS, Arm, Trial
from tests.engine.five.learning_foot import DATE, LEVELS, Learning, passes
from tests.engine.five.unattended import BAND, Seen, attend
from tests.engine.trial.two_positions import ARMS
from tests.engine.walking import Step
from tests.made import record

MINUTES = 1.8
"""Length of a session that has five steadiness blips or more."""
SEED = 3
READY: tuple[str, Step] = ("trial today", "Ready")
HOME: tuple[str, Step] = ("day end", "Home")


class Days:
    """A player who has learned to blip, and a calendar that the test turns."""

    def __init__(self, history: History, *, blips: bool = True) -> None:
        """`blips`: whether the player has passed levels of blips."""
        self.history = history
        learned = ("still", "blip-0", "blip-1") if blips else ("still",)
        passes(history, *(one for one in LEVELS if one.id.startswith(learned)))
        self._learning = Learning(history, 0.6, seed=4)
        self.clock = self._learning.clock
        self.began = DATE
        self.setting = replace(self._learning.setting, now=self.now)
        self.seen: list[Seen] = []

    def now(self) -> datetime:
        """The local date and time."""
        return self.began + timedelta(seconds=self.clock() / SECOND)

    def next_day(self) -> None:
        """Turn the calendar to the same time on the next day."""
        self.began += timedelta(days=1)

    def begin(self) -> Trial:
        """Store a new trial by days, without the screens that ask for it."""
        now = self.now()
        keep_new_trial(self.history, now, BAND.id, ARMS, DAY_PAIRS, SEED, by_days=True)
        return self.trial

    def store_days(self, count: int, points: Mapping[Arm, float]) -> None:
        """Store so many full days, one a calendar day, and turn the calendar on."""
        number = self.trial.number
        for block, arm in enumerate(order(SEED, DAY_PAIRS)[:count]):
            for blip in range(DAY_BLIPS):
                dip = points[arm] + 0.1 * blip + 0.05 * block
                measures = {"dip": dip, "surge": 1.0, "peak": 60.0}
                add_repetition(
                    self.history,
                    record(
                        level=BAND.id,
                        verdict=Verdict(Reason.CLEAN, 90.0, (), measures),
                        at=self.now(),
                        why=Purpose.BAND,
                        asked=10.0,
                        trial=number,
                        block=block,
                        trace=None,
                        calibration=None,
                        sampling=None,
                    ),
                )
            self.next_day()

    def play(self, *steps: tuple[str, Step]) -> Done:
        """Play five minutes; each step is taken at the next screen of its name."""
        flow = five_minutes_in_trial(self.setting, self.history, BAND, MINUTES)
        return attend(flow, self.clock, steps, self.seen)

    def menu(self, *steps: tuple[str, Step], at_once: bool = False) -> None:
        """Walk through the menu of trials in the same way."""
        flow = trials(self.setting, BAND, at_once=at_once)
        attend(flow, self.clock, steps, self.seen)

    @property
    def trial(self) -> Trial:
        """The newest trial, as it is stored."""
        return all_trials(self.history)[-1]

    @property
    def names(self) -> list[str]:
        """Names of the screens that were shown."""
        return [name for name, _ in self.seen]

    @property
    def results(self) -> list[Result]:
        """Repetitions of today's sessions, oldest first."""
        sessions = sessions_on(self.history, self.now().date())
        return [result for session in sessions for result in session.results]

    @property
    def todays(self) -> list[tuple[object, object, object]]:
        """Day, set-up and whether it was begun, of every screen that asked for a set-up."""
        said = [details for name, details in self.seen if name == "trial today"]
        return [(one["day"], one["arm"], one["begun"]) for one in said]
