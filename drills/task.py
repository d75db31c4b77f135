"""What one repetition asks of the feet, as data, and what was done in it."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from drills.measures.blip import OFF
from drills.trace import Pedal, Sample, Trace

Band = tuple[float, float]
"""Lowest and highest value inside, in %."""
AT_REST: Band = (-math.inf, math.nextafter(OFF, 0.0))
"""Band of a pedal that is let go, in %: under 5 %, so that a blip that follows can end."""


class Signal(StrEnum):
    """What a cue asks of the feet."""

    CUE = "cue"
    """Act now: a click, and the screen lights up."""
    COUNT = "count"
    """A beat before the first cue: a softer click."""
    FALL = "fall"
    """Ease off now, for as long as a tone falls."""


@dataclass(frozen=True)
class Move:
    """A movement of one pedal that a repetition waits for."""

    pedal: Pedal
    """The pedal that moves."""
    level: float
    """%, position that the pedal must pass."""
    up: bool
    """Whether the pedal must reach the level; otherwise it must fall below it."""
    within: float
    """s from its cue, or from the move before it; a later one ends the repetition, which counts."""
    cue: int | None = None
    """index of the cue it answers; None where it follows the move before it."""

    def made(self, sample: Sample) -> bool:
        """Whether a sample completes the movement."""
        value = sample.of(self.pedal)
        return value is not None and (value >= self.level if self.up else value < self.level)


@dataclass(frozen=True)
class Task:
    """What one repetition asks of the feet; `Repetition` runs by this alone."""

    target: float
    """%, brake that is asked for."""
    start: Mapping[Pedal, Band]
    """%, band that each pedal must be in to begin."""
    wait: float
    """s from steady to the first cue, or to the window that is measured where none is cued."""
    cues: tuple[float, ...] = ()
    """s after the wait, ascending; the first is 0 unless it is to come later."""
    signals: tuple[Signal, ...] = ()
    """What each cue asks; empty for Signal.CUE throughout."""
    falls: float = 0.0
    """s that the tone of Signal.FALL takes to fall."""
    moves: tuple[Move, ...] = ()
    """Movements to wait for, in order."""
    lasts: float = 0.0
    """s, shortest run from the first cue, or from the end of the wait where there is no cue."""
    tail: float = 0.0
    """s recorded after that and after the last move."""
    early: Mapping[Pedal, float] = field(default_factory=dict)
    """%, a pedal at this or more before the first cue has not waited for it."""
    dark: bool = True
    """Whether the wait is dark; otherwise the dark begins with the first cue."""
    freed: float = 25.0
    """%, the brake must first be under this, so that every repetition has to find its target."""
    steady: float = 0.6
    """s that the pedals must stay in their bands before the wait begins."""
    patience: float = 60.0
    """s until the pedals must be there, or the repetition is void."""

    def __post_init__(self) -> None:
        if list(self.cues) != sorted(self.cues):
            raise ValueError(f"cues: expected to ascend, found {self.cues}")
        if self.signals and len(self.signals) != len(self.cues):
            raise ValueError(f"signals: expected {len(self.cues)}, found {len(self.signals)}")
        if not self.cues and (self.moves or not self.dark):
            raise ValueError("cues: expected one to move on, or to go dark on, found none")
        for move in self.moves:
            if move.cue is not None and not 0 <= move.cue < len(self.cues):
                raise ValueError(f"moves: expected one of {len(self.cues)} cues, found {move.cue}")

    def signal(self, cue: int) -> Signal:
        """What a cue asks, by its index."""
        return self.signals[cue] if self.signals else Signal.CUE

    @property
    def acts(self) -> tuple[int, ...]:
        """Indices of the cues to act on, those of Signal.CUE."""
        return tuple(k for k in range(len(self.cues)) if self.signal(k) is Signal.CUE)

    @property
    def begins_on_target(self) -> bool:
        """Whether the brake must be on its target before the wait."""
        low, _ = self.start.get(Pedal.BRAKE, (-math.inf, math.inf))
        return math.isfinite(low)


@dataclass(frozen=True)
class Performance:
    """What was done in one repetition, on the time axis of its trace."""

    trace: Trace
    """The pedals from the moment that they were in their bands."""
    began: int
    """ns, when the wait began, and the dark with it where the wait is dark."""
    cues: tuple[int, ...] = ()
    """ns, when each cue was given."""
