"""Record of one repetition, as it is stored in the history."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from drills.calibration import Calibration
from drills.level import PassRule
from drills.measures.jumps import Jump
from drills.measures.sampling import Sampling
from drills.score import Verdict
from drills.trace import Trace
from engine.practice.results import Purpose


@dataclass(frozen=True)
class Record:
    """One finished repetition, as the history stores it."""

    level: str
    """Id of the level the repetition belongs to."""
    kind: str
    """Name of the kind of drill."""
    source: str
    """Name of the source that the pedals were read from."""
    feet: bool
    """Whether feet on pedals played it; mouse and simulated foot count for nothing."""
    at: datetime
    """When the repetition ended, with the local offset from UTC."""
    target: float
    """Brake that the repetition asked for, in %."""
    tolerance: float
    """Tolerance of the level when it was played, in points."""
    verdict: Verdict
    """Verdict on the repetition, with its score and measures."""
    trace: Trace | None
    """Readings of the pedals; None if the repetition ended before the screen went dark."""
    dark: int | None
    """When the screen went dark, in nanoseconds from the start of the trace; None if it did not."""
    cues: tuple[int, ...]
    """When each cue to blip was given, in nanoseconds from the start of the trace."""
    sampling: Sampling | None
    """How well the pedals were sampled during the trace; None without a trace."""
    calibration: Calibration | None
    """Calibration the pedals were read through; None if it was not recorded."""
    rule: PassRule
    """Pass rule of the level when it was played."""
    seed: int | None = None
    """Seed of the random draws in its set; None if the set had no seed of its own."""
    drawn: str = ""
    """Id of the level that a mixed level drew for it; empty if its level is not mixed."""
    why: Purpose = Purpose.CHOSEN
    """Why the repetition was played."""
    session: int | None = None
    """Number of the session that the repetition is part of; None outside a session."""
    took: float | None = None
    """Seconds since the previous repetition ended (the first: since the start); None: unknown."""
    asked: float | None = None
    """Tolerance asked instead of the level's own, in points; None: the level's own."""
    trial: int | None = None
    """Number of the trial of foot positions that it is part of; None outside a trial."""
    jumps: tuple[Jump, ...] = ()
    """Jumps of the pedals that were taken out before it was judged; not stored, as the trace holds
    them."""
    block: int | None = None
    """Block of the trial of foot positions that it is part of, from 0; None outside a trial."""
    rig: int | None = None
    """Number of the rig whose pedals were played with; None: not a saved one."""
