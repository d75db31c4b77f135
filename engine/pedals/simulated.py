"""Simulated foot as pedals, which reacts to what a player would see and hear."""

from __future__ import annotations

from drills.calibration import COUNTS, Calibration, Range
from drills.foot import DT, SimulatedFoot
from drills.hand import SimulatedHand
from drills.phases import OVER, Event, Phase, Transition
from drills.task import Signal, Task
from drills.trace import Pedal, nanoseconds
from engine.pedals.port import Clock, Reading

STEP = nanoseconds(DT)
"""Time step of the simulated foot, in ns."""
STEPS = 4095
"""Number of steps of the simulated device over its travel: a 12-bit converter (common practice)."""
STEP_COUNTS = 8
"""Raw counts per step of the simulated device, as a 12-bit value fills half of a 16-bit axis."""
_ENDS = Range(0.0, STEPS * STEP_COUNTS / COUNTS)
SIMULATED_TRAVEL = Calibration(brake=_ENDS, throttle=_ENDS, clutch=_ENDS)
"""Calibration of the simulated pedals."""

READING = nanoseconds(8.0)
"""Time that the simulated foot leaves a viewer to read a menu, in ns."""
AGREEING = 75.0
"""Brake with which the simulated foot chooses in a menu, in %."""
LOOKING = nanoseconds(1.0)
"""Time from the question how many knocks there were to the first tap that answers it, in ns."""
EACH_TAP = nanoseconds(0.3)
"""Time from one tap of the answer to the next, in ns: brisk counting on the pedal."""
TAP_LASTS = nanoseconds(0.15)
"""Time that the throttle stays down in one of those taps, in ns."""
TAPPING = 70.0
"""Throttle of one of those taps, in %."""


class SimulatedPedals:
    """Source of pedal readings, in whole steps, from a simulated foot.

    Between two readings the foot is simulated in steps of a millisecond. As a listener on the
    stage it learns what a player would see and hear.
    """

    name = "simulated"
    is_feet = True
    counts = False

    def __init__(
        self,
        foot: SimulatedFoot,
        clock: Clock,
        label: str = "Demo: nothing is saved",
        hand: SimulatedHand | None = None,
    ) -> None:
        """`label` is the note about these pedals on every screen.

        `hand` is on the shift button; without one no button is bound.
        """
        self.label = label
        self._hand = hand
        self._shift = None if hand is None else False
        self._foot = foot
        self._clock = clock
        self._lived = clock()
        self._agrees_at: int | None = None
        self._task: Task | None = None
        self._heard: int | None = None
        self._taps: tuple[int, int] = 0, 0
        self._brake, self._throttle = foot.step()

    def read(self) -> Reading:
        """Reading of the simulated pedals now."""
        now = self._clock()
        while now - self._lived >= STEP:
            if self._agrees_at is not None and self._lived >= self._agrees_at:
                self._agrees_at = None
                self._foot.press(AGREEING)
            if self._hand is not None:
                self._shift = self._hand.step(self._foot.steps, self._foot.blips)
            self._brake, self._throttle = self._foot.step()
            self._lived += STEP
        clutch = _converted(self._foot.clutch)
        throttle = _converted(TAPPING if self._is_tapping(now) else self._throttle)
        return Reading(now, _converted(self._brake), throttle, clutch, shift=self._shift)

    def on_menu(self) -> None:
        """Release the simulated brake, wait for READING, then hold it past half to choose.

        Right after a repetition with knocks, answer with as many taps as there were high ones.
        """
        now = self._clock()
        self._foot.press(0.0)
        self._agrees_at = now + READING
        if self._heard is not None:
            self._taps = now + LOOKING, self._heard
            self._agrees_at = now + LOOKING + (self._heard + 1) * EACH_TAP
            self._heard = None

    def on_task(self, task: Task) -> None:
        """Read what is asked, and release the simulated brake: a repetition begins with that."""
        self._agrees_at = None
        self._task, self._heard, self._taps = task, 0 if task.knocks else None, (0, 0)
        self._foot.intend_blips(task.size)
        self._foot.press(0.0)

    def on_transition(self, transition: Transition) -> None:
        """Move the simulated foot: press to the target, hold in the dark, answer each cue."""
        task, phase = self._task, transition.phase
        if task is None:
            return
        if transition.signal is Signal.HIGH and self._heard is not None:
            self._heard += 1
        if phase is Phase.VOID:
            self._heard = None
        if phase is Phase.APPROACH:
            self._foot.press(task.target if task.begins_on_target else 0.0)
        elif phase in OVER:
            self._foot.see()
        elif transition.event is Event.STEADY and task.dark:
            self._foot.darken(cued=bool(task.cues))
        elif transition.cue is not None:
            self._answer(task, transition.cue)

    def on_record(self, place: int, record: object) -> None:
        """Forget the knocks: this simulated foot does not learn from the verdict."""
        self._heard = None

    def _is_tapping(self, now: int) -> bool:
        """Whether the throttle is down at a time (ns) in one of the taps that answer."""
        begin, taps = self._taps
        number, since = divmod(now - begin, EACH_TAP)
        return 0 <= number < taps and since < TAP_LASTS

    def _answer(self, task: Task, cue: int) -> None:
        """Answer a cue with the simulated foot; if the wait was not dark, the dark begins now."""
        foot = self._foot
        if not task.dark and cue == 0:
            foot.darken(cued=False)
        if Signal.COUNT in task.signals:
            self._answer_in_time(task, cue)
        elif task.signal(cue) is Signal.FALL:
            foot.ease(task.falls)
        elif not task.begins_on_target:
            foot.squeeze(task.target)
        elif any(move.pedal is Pedal.CLUTCH for move in task.moves):
            foot.shift()
        else:
            foot.blip()

    def _answer_in_time(self, task: Task, cue: int) -> None:
        """Answer a cue of a task that counts in: what comes next is done with its beat."""
        if task.signal(cue) is Signal.OFF:
            self._foot.come_off()
        if cue + 1 == len(task.cues):
            return
        beat = task.cues[cue + 1] - task.cues[cue]
        match task.signal(cue + 1):
            case Signal.CUE:
                self._foot.keep_time(beat, with_clutch=Pedal.CLUTCH in task.start)
            case Signal.FALL:
                self._foot.follow(task.line, beat)


def _converted(percent: float) -> float:
    return round(percent / 100 * STEPS) * STEP_COUNTS / COUNTS
