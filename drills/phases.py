"""Phases of a repetition and the events between them, as one literal table."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from drills.task import Signal


class Phase(StrEnum):
    """A phase that a repetition is in."""

    RELEASE = "release"
    APPROACH = "approach"
    HELD = "held"
    WAIT = "wait"
    ACT = "act"
    TAIL = "tail"
    DONE = "done"
    VOID = "void"


class Event(StrEnum):
    """An event that leads a repetition into another phase."""

    FREED = "freed"
    READY = "ready"
    IMPATIENT = "impatient"
    LOST = "lost"
    STEADY = "steady"
    EARLY = "early"
    CUE = "cue"
    KNOCK = "knock"
    MOVED = "moved"
    LATE = "late"
    FINISHED = "finished"
    OVER = "over"
    LEFT = "left"
    FAULT = "fault"


TABLE: Mapping[tuple[Phase, Event], Phase] = {
    (Phase.RELEASE, Event.FREED): Phase.APPROACH,
    (Phase.RELEASE, Event.IMPATIENT): Phase.VOID,
    (Phase.APPROACH, Event.READY): Phase.HELD,
    (Phase.APPROACH, Event.IMPATIENT): Phase.VOID,
    (Phase.HELD, Event.LOST): Phase.APPROACH,
    (Phase.HELD, Event.STEADY): Phase.WAIT,
    (Phase.WAIT, Event.EARLY): Phase.VOID,
    (Phase.WAIT, Event.CUE): Phase.ACT,
    (Phase.WAIT, Event.KNOCK): Phase.WAIT,
    (Phase.WAIT, Event.FINISHED): Phase.TAIL,
    (Phase.ACT, Event.CUE): Phase.ACT,
    (Phase.ACT, Event.KNOCK): Phase.ACT,
    (Phase.ACT, Event.MOVED): Phase.ACT,
    (Phase.ACT, Event.LATE): Phase.DONE,
    (Phase.ACT, Event.FINISHED): Phase.TAIL,
    (Phase.TAIL, Event.KNOCK): Phase.TAIL,
    (Phase.TAIL, Event.OVER): Phase.DONE,
    (Phase.WAIT, Event.LEFT): Phase.DONE,
    (Phase.ACT, Event.LEFT): Phase.DONE,
    (Phase.TAIL, Event.LEFT): Phase.DONE,
    (Phase.RELEASE, Event.FAULT): Phase.VOID,
    (Phase.APPROACH, Event.FAULT): Phase.VOID,
    (Phase.HELD, Event.FAULT): Phase.VOID,
    (Phase.WAIT, Event.FAULT): Phase.VOID,
    (Phase.ACT, Event.FAULT): Phase.VOID,
    (Phase.TAIL, Event.FAULT): Phase.VOID,
}
"""All transitions of a repetition's phases: an event that a phase does not list changes nothing."""

OVER = frozenset({Phase.DONE, Phase.VOID})
"""Phases in which a repetition has ended."""
FINDING = frozenset({Phase.RELEASE, Phase.APPROACH, Phase.HELD})
"""Phases in which the player finds the pedals' start positions: the screen is lit."""


@dataclass(frozen=True, slots=True)
class Transition:
    """One step of a repetition from phase to phase."""

    event: Event
    """Event that led to the new phase."""
    phase: Phase
    """Phase that the event led into."""
    time: int
    """Time of the event, in ns on the time axis of the samples."""
    cue: int | None = None
    """Index of the cue that was given; None for an event that is no cue."""
    signal: Signal | None = None
    """What a cue or a knock asks of the player; None for an event that is neither."""
