"""Task: what one repetition asks of the feet, as data; and the performance that answers it."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from drills.braking_zone import Line
from drills.measures.blip import OFF
from drills.trace import Pedal, Sample, Trace

Band = tuple[float, float]
"""Lowest and highest pedal value inside a band, in %."""
AT_REST: Band = (-math.inf, math.nextafter(OFF, 0.0))
"""Band of a pedal that counts as let go, in %: under 5 %, so that a blip that follows can end."""
FALL_HOLD = 0.30
"""How long the tone of Signal.FALL holds its first pitch before it falls, in s: about a reaction,
so that a foot that answers the tone comes down with it."""


class Signal(StrEnum):
    """What a cue asks of the feet."""

    CUE = "cue"
    """Act now: a click, and the screen lights up."""
    COUNT = "count"
    """A beat before the first cue: a softer click."""
    FALL = "fall"
    """Follow the brake with a tone that begins now, and falls as the brake should."""
    OFF = "off"
    """Be off the brake now: the same knock as a beat of the count-in."""
    LOW = "low"
    """A low knock of the second task, which is not counted."""
    HIGH = "high"
    """A high knock of the second task, to be counted."""


@dataclass(frozen=True)
class Move:
    """A movement of one pedal that a repetition waits for."""

    pedal: Pedal
    """Pedal that moves."""
    level: float
    """Position in % that the pedal must pass."""
    up: bool
    """Whether the pedal must reach its level; otherwise it must fall below it."""
    within: float
    """Longest time from the cue or the move before, in s; later ends the repetition, which
    counts."""
    cue: int | None = None
    """Index of the cue that the move answers; None where it follows the move before it."""

    def made(self, sample: Sample) -> bool:
        """Whether a sample completes the pedal movement."""
        value = sample.of(self.pedal)
        return value is not None and (value >= self.level if self.up else value < self.level)


@dataclass(frozen=True)
class Knock:
    """A knock of the second task: the player counts the high ones while the foot works."""

    at: float
    """When it comes, in s from the start of the dark."""
    is_high: bool
    """Whether it is one to count."""

    @property
    def signal(self) -> Signal:
        """What the knock is to the player."""
        return Signal.HIGH if self.is_high else Signal.LOW


@dataclass(frozen=True)
class Task:
    """What one repetition asks of the feet; `Repetition` runs by this alone."""

    target: float
    """Brake that the repetition asks for, in %."""
    start: Mapping[Pedal, Band]
    """Band that each pedal must be in for the repetition to begin, in %."""
    wait: float
    """Wait from steady pedals to the first cue, or without cues to the measured window, in s."""
    cues: tuple[float, ...] = ()
    """Time of each cue, in s after the wait, ascending; the first is 0 unless it comes later."""
    signals: tuple[Signal, ...] = ()
    """What each cue asks of the feet; empty: all ask what Signal.CUE does."""
    falls: float = 0.0
    """Time that the tone of Signal.FALL takes to fall once it has held its first pitch, in s; 0
    where it follows a line."""
    line: Line = ()
    """Brake asked from Signal.FALL on, as corners: s after that cue, and brake in %; the tone falls
    as it does. Empty where the brake comes down evenly, over `falls`."""
    moves: tuple[Move, ...] = ()
    """Pedal movements to wait for, in order."""
    size: float = 0.0
    """Throttle that each blip should reach at its peak, in %; 0 where no size is asked."""
    lasts: float = 0.0
    """Shortest duration from the first cue, or without one from the end of the wait, in s."""
    tail: float = 0.0
    """Time recorded after the last move and after the shortest duration, in s."""
    knocks: tuple[Knock, ...] = ()
    """Knocks of the second task, in order of time; empty where there is none."""
    early: Mapping[Pedal, float] = field(default_factory=dict)
    """Least value of a pedal in %, by pedal, that counts as not waiting for the first cue."""
    dark: bool = True
    """Whether the screen is dark in the wait; otherwise the dark begins with the first cue."""
    freed: float = 25.0
    """Brake in % that the foot must first go under, so that every repetition finds its target."""
    steady: float = 0.6
    """Time that the pedals must stay in their bands before the wait begins, in s."""
    patience: float = 60.0
    """Longest time for the pedals to be in their bands, in s; longer makes the repetition void."""

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

    @property
    def guide(self) -> Line:
        """Course of the tone of Signal.FALL: s after that cue, and the share of the brake left from
        1 to 0; empty where there is no tone."""
        if self.line:
            highest = max(brake for _, brake in self.line)
            return tuple((at, brake / highest) for at, brake in self.line)
        if not self.falls:
            return ()
        return ((0.0, 1.0), (FALL_HOLD, 1.0), (FALL_HOLD + self.falls, 0.0))

    def signal(self, cue: int) -> Signal:
        """What the cue with an index asks of the feet."""
        return self.signals[cue] if self.signals else Signal.CUE

    @property
    def acts(self) -> tuple[int, ...]:
        """Indices of the cues that ask to act, those of Signal.CUE."""
        return tuple(k for k in range(len(self.cues)) if self.signal(k) is Signal.CUE)

    @property
    def begins_on_target(self) -> bool:
        """Whether the brake must be on its target before the wait begins."""
        low, _ = self.start.get(Pedal.BRAKE, (-math.inf, math.inf))
        return math.isfinite(low)


@dataclass(frozen=True)
class Performance:
    """What was done in one repetition, on the time axis of its trace."""

    trace: Trace
    """Pedals from the moment that they were in their bands."""
    began: int
    """When the wait began, in ns, and the dark with it where the wait is dark."""
    cues: tuple[int, ...] = ()
    """When each cue was given, in ns."""
