"""Record of one repetition, as it goes into the history."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from drills.calibration import Calibration
from drills.level import PassRule
from drills.measures.sampling import Sampling
from drills.score import Verdict
from drills.trace import Trace
from engine.practice.results import Purpose


@dataclass(frozen=True)
class Record:
    """One repetition that has ended, as it is kept."""

    level: str
    """Id of the level."""
    kind: str
    """Name of the drill kind."""
    source: str
    """Name of the pedal source."""
    feet: bool
    """Whether feet on pedals did it: nothing else counts."""
    at: datetime
    """When it ended, with the local offset from UTC."""
    target: float
    """%, brake target."""
    tolerance: float
    """%, tolerance of the level at the time."""
    verdict: Verdict
    """What it was worth."""
    trace: Trace | None
    """The pedals as they were; None where it ended before the dark."""
    dark: int | None
    """ns from the start of the trace, when the screen went dark."""
    cues: tuple[int, ...]
    """ns from the start of the trace, when each cue was given."""
    sampling: Sampling | None
    """How well it was sampled; None without a trace."""
    calibration: Calibration | None
    """What the pedals were read through; None where that is not known."""
    rule: PassRule
    """What passed the level at the time."""
    seed: int | None = None
    """Of the chance in its set; None where that had none of its own."""
    drawn: str = ""
    """Id of the level that a mixed one drew; empty where it was played itself."""
    why: Purpose = Purpose.CHOSEN
    """Why it was played."""
    session: int | None = None
    """Number of the sitting it is part of; None where it is of none."""
    took: float | None = None
    """s, from the end of the one before it, or from the beginning; None where not known."""
    asked: float | None = None
    """points, a tolerance that was asked in the place of the level's own; None where none was."""
    trial: int | None = None
    """Number of the trial it is part of; None where it is of none."""
    block: int | None = None
    """From 0, which block of the trial it is of; None where it is of none."""
