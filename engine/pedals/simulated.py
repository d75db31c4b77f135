"""The simulated foot behind the port, told what a person would see and hear."""

from __future__ import annotations

from drills.calibration import COUNTS, Calibration, Range
from drills.foot import DT, SimulatedFoot
from drills.phases import OVER, Event, Phase, Transition
from drills.task import Signal, Task
from drills.trace import Pedal, nanoseconds
from engine.pedals.port import Clock, Reading

STEP = nanoseconds(DT)
"""ns of one step of the foot."""
STEPS = 4095
"""steps of the simulated device over a whole travel: a 12-bit converter (common practice)."""
STEP_COUNTS = 8
"""counts of a step, as a 12-bit value fills half an axis of 16 bits."""
_ENDS = Range(0.0, STEPS * STEP_COUNTS / COUNTS)
SIMULATED_TRAVEL = Calibration(brake=_ENDS, throttle=_ENDS, clutch=_ENDS)
"""The whole travel of these pedals."""

READING = nanoseconds(8.0)
"""ns that the foot leaves a person to read a screen with choices."""
AGREEING = 75.0
"""%, brake that goes on from such a screen."""


class SimulatedPedals:
    """Raw readings in whole steps; between two readings the foot lives every millisecond.

    It is told what a person would see and hear, as a listener on the stage.
    """

    name = "simulated"
    is_feet = True
    counts = False

    def __init__(
        self, foot: SimulatedFoot, clock: Clock, label: str = "Demo: nothing is kept"
    ) -> None:
        """`label` is what every screen says of it."""
        self.label = label
        self._foot = foot
        self._clock = clock
        self._lived = clock()
        self._agrees_at: int | None = None
        self._task: Task | None = None
        self._brake, self._throttle = foot.step()

    def read(self) -> Reading:
        """The pedals now."""
        now = self._clock()
        while now - self._lived >= STEP:
            if self._agrees_at is not None and self._lived >= self._agrees_at:
                self._agrees_at = None
                self._foot.press(AGREEING)
            self._brake, self._throttle = self._foot.step()
            self._lived += STEP
        pedals = (self._brake, self._throttle, self._foot.clutch)
        return Reading(now, *(_converted(percent) for percent in pedals))

    def on_menu(self) -> None:
        """Let go, read for a while, then press the brake past half and keep it there."""
        self._foot.press(0.0)
        self._agrees_at = self._clock() + READING

    def on_task(self, task: Task) -> None:
        """Let go, to begin from a released brake."""
        self._agrees_at = None
        self._task = task
        self._foot.press(0.0)

    def on_transition(self, transition: Transition) -> None:
        """Look for the target once the brake was let go, feel for it in the dark, answer a cue."""
        task, phase = self._task, transition.phase
        if task is None:
            return
        if phase is Phase.APPROACH:
            self._foot.press(task.target if task.begins_on_target else 0.0)
        elif phase in OVER:
            self._foot.see()
        elif transition.event is Event.STEADY and task.dark:
            self._foot.darken(cued=bool(task.cues))
        elif transition.cue is not None:
            self._answer(task, transition.cue)

    def on_record(self, place: int, record: object) -> None:
        """A verdict changes nothing: this foot learns nothing."""

    def _answer(self, task: Task, cue: int) -> None:
        """Do what a cue asks; where the wait was lit, the dark begins with it."""
        foot = self._foot
        if not task.dark and cue == 0:
            foot.darken(cued=False)
        if Signal.COUNT in task.signals:
            if cue + 1 in task.acts:
                foot.keep_time(task.cues[cue + 1] - task.cues[cue])
        elif task.signal(cue) is Signal.FALL:
            foot.ease(task.falls)
        elif not task.begins_on_target:
            foot.squeeze(task.target)
        elif any(move.pedal is Pedal.CLUTCH for move in task.moves):
            foot.shift()
        else:
            foot.blip()


def _converted(percent: float) -> float:
    return round(percent / 100 * STEPS) * STEP_COUNTS / COUNTS
