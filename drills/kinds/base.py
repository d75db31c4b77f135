"""What every drill kind says: what a repetition asks for, and what it makes of what was done."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from drills.level import Level
from drills.score import Verdict
from drills.trace import Trace


@dataclass(frozen=True)
class Task:
    """What one repetition asks of the foot; a repetition runs by this alone."""

    target: float
    """%, brake to hold."""
    band: float
    """%, half-width within which the brake counts as brought to the target."""
    foreperiod: float
    """s from the dark to the cue; where nothing is cued, to the window that is measured."""
    window: float | None = None
    """s of held brake measured after the foreperiod; None where a blip is cued instead."""
    steady: float = 0.8
    """s the brake must be on target before the dark."""
    patience: float = 60.0
    """s the approach may take before the repetition is void."""
    answer: float = 2.0
    """s from the cue within which throttle must come on."""
    pulse: float = 1.0
    """s a blip may last before it is something else."""
    tail: float = 1.2
    """s recorded after the throttle is off: the second its window may take, and some to spare."""


@dataclass(frozen=True)
class Performance:
    """What was done in one repetition, on the time axis of its trace."""

    trace: Trace
    """Pedals from the moment the brake was on target."""
    dark: int
    """ns, when the screen went dark."""
    cues: tuple[int, ...] = ()
    """ns, when each cue was given."""


@dataclass(frozen=True)
class Kind:
    """One kind of drill."""

    name: str
    """As level files call it."""
    measures: tuple[str, ...]
    """Names of the measures a verdict holds, in order."""
    limited: tuple[str, ...]
    """Names of those a level may put limits on."""
    windowed: bool
    """Whether a level of this kind has a duration."""
    task: Callable[[Level, float, np.random.Generator], Task]
    """What a repetition of a level at a target (%) asks, with chance drawn from the generator."""
    judge: Callable[[Level, Task, Performance], Verdict]
    """The verdict on what was done."""
