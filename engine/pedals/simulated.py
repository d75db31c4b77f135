"""The simulated foot behind the port, told what a person would see on the screen."""

from __future__ import annotations

from drills.foot import DT, Foot
from drills.repetition import Phase
from drills.trace import nanoseconds
from engine.pedals.calibration import COUNTS, Calibration, Range
from engine.pedals.port import Clock, Reading

STEP = nanoseconds(DT)
"""ns of one step of the foot."""
STEPS = 4095
"""steps of the simulated device over a whole travel: a 12-bit converter (common practice)."""
STEP_COUNTS = 8
"""counts of a step, as a 12-bit value fills half an axis of 16 bits."""
_ENDS = Range(0.0, STEPS * STEP_COUNTS / COUNTS)
SIMULATED_TRAVEL = Calibration(brake=_ENDS, throttle=_ENDS)
"""The whole travel of these pedals."""

AGREEING = 75.0
"""%, brake that says yes in a menu."""


class SimulatedPedals:
    """Raw readings in whole steps; between two readings the foot lives every millisecond."""

    name = "simulated"
    is_feet = True

    def __init__(self, foot: Foot, clock: Clock) -> None:
        self._foot = foot
        self._clock = clock
        self._lived = clock()
        self._agrees_at: int | None = None
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
        return Reading(now, _converted(self._brake), _converted(self._throttle))

    def see_target(self, target: float) -> None:
        """A repetition asks for a brake of `target` (%)."""
        self._agrees_at = None
        self._foot.press(target)

    def see_phase(self, phase: Phase) -> None:
        """The repetition has moved on; only a cue is something the foot answers."""
        if phase is Phase.CUE:
            self._foot.blip()

    def relax(self) -> None:
        """Nothing is asked: let go of the brake."""
        self._agrees_at = None
        self._foot.press(0.0)

    def agree_after(self, wait: float) -> None:
        """Let go, read for `wait` s, then press the brake past half and keep it there."""
        self.relax()
        self._agrees_at = self._clock() + nanoseconds(wait)


def _converted(percent: float) -> float:
    return round(percent / 100 * STEPS) * STEP_COUNTS / COUNTS
