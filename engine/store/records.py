"""What goes into the history and what comes out of it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from drills.measures.sampling import Sampling
from drills.score import Verdict
from drills.trace import Trace


class StoreError(Exception):
    """The history cannot be used; the text is one line for the person."""


@dataclass(frozen=True)
class Record:
    """One repetition that has ended, as it is kept."""

    level: str
    """Id of the level."""
    kind: str
    """Name of the drill kind."""
    source: str
    """Name of the pedal source."""
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


@dataclass(frozen=True)
class Result:
    """What the rules of practice need to know of a past repetition."""

    level: str
    """Id of the level."""
    day: date
    """Local day it ended on."""
    score: float | None
    """0 to 100; None where void."""
    clean: bool
    """Whether every limit was kept."""
    void: bool
    """Whether it counts for nothing."""
