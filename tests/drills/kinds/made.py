"""Repetitions made from pedals of known shape, judged, described and drawn as in play."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from drills.deviation import Deviation
from drills.level import Level
from drills.remark import Headline, Remark
from drills.score import Judged, Verdict
from drills.task import Performance, Task
from drills.trace import STEP, Trace
from engine.drill.reveal_figures import figures
from engine.kit.figures import Figure
from tests.drills.shapes import Values

SECONDS = 9
CUE = 2.0
"""s from the start of the trace, the first cue."""
TIME = np.arange(SECONDS * 1000) / 1000 - CUE
"""s from the first cue, a value each millisecond."""


def lines(*corners: tuple[float, float]) -> Values:
    """Straight lines between corners (s from the first cue, %), level outside of them."""
    return np.interp(TIME, [at for at, _ in corners], [percent for _, percent in corners])


def square(at: float, length: float = 0.2, height: float = 70.0) -> Values:
    """A pulse with upright sides: it begins and ends on a grid point."""
    inside = (at - 1e-6 <= TIME) & (at + length - 1e-6 > TIME)
    return np.where(inside, height, 0.0)


def presses(*times: float) -> Values:
    """A shift button that is pressed at some times (s from the first cue), for 50 ms each."""
    button = np.zeros(TIME.size)
    for at in times:
        button = np.maximum(button, square(at, 0.05, 1.0))
    return button


def bump(height: float, at: float, length: float = 0.2) -> Values:
    """A half sine; of a negative height a dip."""
    share = np.clip((TIME - at) / length, 0.0, 1.0)
    return height * np.sin(np.pi * share)


@dataclass(frozen=True)
class Made:
    """A repetition of a level."""

    level: Level
    """What was asked."""
    task: Task
    """The repetition of it."""
    done: Performance
    """What was done."""

    @cached_property
    def judged(self) -> Judged:
        """The repetition, judged."""
        return self.level.kind.judge(self.level, self.task, self.done)

    @property
    def verdict(self) -> Verdict:
        """What it was worth."""
        return self.judged.verdict

    @property
    def said(self) -> str:
        """The sentence on it."""
        return self.level.kind.sentence(self.level, self.verdict)

    @property
    def remark(self) -> Remark:
        """What is said of it."""
        return self.level.kind.remark(self.level, self.verdict)

    @property
    def figure(self) -> Headline | None:
        """The large figure."""
        return self.level.kind.headline(self.level, self.verdict)

    @property
    def lean(self) -> float | None:
        """Where the bubble goes."""
        return self.level.kind.lean(self.level, self.verdict)

    @property
    def figures(self) -> list[Figure]:
        """The row of figures without the score."""
        return figures(self.level, self.verdict)[1:]

    @property
    def picture(self) -> Deviation | None:
        """The picture."""
        return self.level.kind.picture(self.level, self.judged)


def made(
    level: Level,
    brake: Values,
    throttle: Values | None = None,
    clutch: Values | None = None,
    given: int | None = None,
    button: Values | None = None,
) -> Made:
    """The repetition with these pedals; `given` is how many of its cues came, None for all.

    `button` is the shift button, 1 while it is down; None where no button is bound.
    """
    task = level.kind.task(level, level.targets.least, np.random.default_rng(1))
    time = np.arange(brake.size, dtype=np.int64) * STEP
    pressed = np.zeros(brake.size) if throttle is None else throttle
    trace = Trace(time, np.maximum(brake, 0.0), pressed, clutch, shift=button)
    cues = tuple(round((CUE + cue) * 1000) * STEP for cue in task.cues[:given])
    return Made(level, task, Performance(trace, 0, cues))
