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
    """One repetition that has ended, as the history stores it."""

    level: str
    """Id of the level."""
    kind: str
    """Name of the drill kind."""
    source: str
    """Name of the pedal source."""
    feet: bool
    """Whether feet on pedals played it: nothing else counts."""
    at: datetime
    """When it ended, with the local offset from UTC."""
    target: float
    """Brake target in %."""
    tolerance: float
    """Tolerance of the level at the time, in %."""
    verdict: Verdict
    """Its verdict, with score and measures."""
    trace: Trace | None
    """Readings of the pedals; None where it ended before the screen went dark."""
    dark: int | None
    """When the screen went dark, in nanoseconds from the start of the trace; None without one."""
    cues: tuple[int, ...]
    """When each cue was given, in nanoseconds from the start of the trace."""
    sampling: Sampling | None
    """Sampling quality of the trace; None without a trace."""
    calibration: Calibration | None
    """Calibration the pedals were read through; None where it is unrecorded."""
    rule: PassRule
    """Pass rule of the level at the time."""
    seed: int | None = None
    """Seed of the random draws of its set; None where the set had none of its own."""
    drawn: str = ""
    """Id of the level that a mixed level drew; empty for any other level."""
    why: Purpose = Purpose.CHOSEN
    """Why it was played."""
    session: int | None = None
    """Number of the session it is part of; None outside a session."""
    took: float | None = None
    """Seconds since the end of the repetition before it or the start; None where unrecorded."""
    asked: float | None = None
    """Tolerance in points that was asked instead of the level's own; None where none was."""
    trial: int | None = None
    """Number of the trial it is part of; None outside a trial."""
    block: int | None = None
    """Block of the trial it is part of, from 0; None outside a trial."""
