"""One repetition as a table of phases: timestamped samples in, phases entered out.

It knows no device and no clock: time is what the samples say. Nothing may be drawn from the
moment it is dark until it ends.
"""

from __future__ import annotations

from array import array
from collections.abc import Mapping
from enum import StrEnum

import numpy as np

from drills.kinds.base import Performance, Task
from drills.measures.blip import OFF, ON
from drills.score import Reason
from drills.trace import SECOND, Sample, Trace, nanoseconds

LONGEST_GAP = nanoseconds(0.020)
"""ns between reads inside the measured window, above which a repetition cannot be judged."""
SETTLING_IN = nanoseconds(0.25)
"""ns after the dark begins that are not measured: the dark itself is painted in them."""


class Phase(StrEnum):
    """Where a repetition stands."""

    APPROACH = "approach"
    HELD = "held"
    DARK = "dark"
    CUE = "cue"
    RESPONSE = "response"
    SETTLE = "settle"
    DONE = "done"
    VOID = "void"


class Event(StrEnum):
    """What moves it on."""

    ON_TARGET = "on target"
    OFF_TARGET = "off target"
    STEADY = "steady"
    CUE_DUE = "cue due"
    WINDOW_OVER = "window over"
    THROTTLE_ON = "throttle on"
    THROTTLE_OFF = "throttle off"
    SETTLED = "settled"
    TIME_UP = "time up"
    FAULT = "fault"


TABLE: Mapping[tuple[Phase, Event], Phase] = {
    (Phase.APPROACH, Event.ON_TARGET): Phase.HELD,
    (Phase.APPROACH, Event.TIME_UP): Phase.VOID,
    (Phase.APPROACH, Event.FAULT): Phase.VOID,
    (Phase.HELD, Event.OFF_TARGET): Phase.APPROACH,
    (Phase.HELD, Event.STEADY): Phase.DARK,
    (Phase.HELD, Event.FAULT): Phase.VOID,
    (Phase.DARK, Event.CUE_DUE): Phase.CUE,
    (Phase.DARK, Event.WINDOW_OVER): Phase.DONE,
    (Phase.DARK, Event.THROTTLE_ON): Phase.VOID,
    (Phase.DARK, Event.FAULT): Phase.VOID,
    (Phase.CUE, Event.THROTTLE_ON): Phase.RESPONSE,
    (Phase.CUE, Event.TIME_UP): Phase.DONE,
    (Phase.CUE, Event.FAULT): Phase.VOID,
    (Phase.RESPONSE, Event.THROTTLE_OFF): Phase.SETTLE,
    (Phase.RESPONSE, Event.TIME_UP): Phase.DONE,
    (Phase.RESPONSE, Event.FAULT): Phase.VOID,
    (Phase.SETTLE, Event.SETTLED): Phase.DONE,
    (Phase.SETTLE, Event.FAULT): Phase.VOID,
}
"""The whole of it: an event that a phase does not list is refused and changes nothing."""

LIT = frozenset({Phase.APPROACH, Phase.HELD})
"""Phases with something on the screen."""
OVER = frozenset({Phase.DONE, Phase.VOID})
"""Phases that end a repetition."""

_VOIDED_BY = {Event.TIME_UP: Reason.NO_TARGET, Event.THROTTLE_ON: Reason.ANTICIPATION}


class Repetition:
    """One repetition under way."""

    def __init__(self, task: Task, start: int) -> None:
        """`start` is ns, on the axis of the samples to come."""
        self._task = task
        self._start = start
        self._phase = Phase.APPROACH
        self._entered = start
        self._last = start
        self._dark: int | None = None
        self._cues: list[int] = []
        self._record = _Record()
        self._void: Reason | None = None

    @property
    def phase(self) -> Phase:
        """Where it stands."""
        return self._phase

    @property
    def void(self) -> Reason | None:
        """Why it cannot be judged; None while it can."""
        return self._void

    @property
    def last(self) -> int:
        """ns, time of the last sample it was fed."""
        return self._last

    @property
    def measured_from(self) -> int | None:
        """ns from the start of the trace where the measured window opens; None before the dark."""
        return None if self._dark is None else self._dark + SETTLING_IN - self._record.origin

    def feed(self, sample: Sample) -> Phase | None:
        """Take the next sample; the phase it led into, or None where it led nowhere new."""
        before, self._last = self._last, sample.time
        if self._phase in OVER:
            return None
        if self._phase is not Phase.APPROACH:
            self._record.add(sample)
        if self._blind(before, sample.time):
            return self.fault(Reason.GAP, sample.time)
        event = self._event(sample)
        if event is None or not self._take(event, sample.time):
            return None
        self._note(event, sample)
        return self._phase

    def fault(self, reason: Reason, time: int) -> Phase | None:
        """End it as void from outside; refused (None) where it has ended already."""
        if not self._take(Event.FAULT, time):
            return None
        self._void = reason
        return self._phase

    def performance(self) -> Performance | None:
        """What was done, its time counted from the first sample kept; None before the dark."""
        if self._dark is None:
            return None
        origin = self._record.origin
        cues = tuple(cue - origin for cue in self._cues)
        return Performance(self._record.trace(), self._dark - origin, cues)

    def _take(self, event: Event, time: int) -> bool:
        following = TABLE.get((self._phase, event))
        if following is None:
            return False
        self._phase, self._entered = following, time
        return True

    def _note(self, event: Event, sample: Sample) -> None:
        match self._phase:
            case Phase.HELD:
                self._record = _Record()
                self._record.add(sample)
            case Phase.DARK:
                self._dark = sample.time
            case Phase.CUE:
                self._cues.append(sample.time)
            case Phase.VOID:
                self._void = _VOIDED_BY[event]

    def _blind(self, before: int, now: int) -> bool:
        """Whether the time between two reads leaves too much of the measured window unread."""
        if self._dark is None:
            return False
        return now - max(before, self._dark + SETTLING_IN) > LONGEST_GAP

    def _event(self, sample: Sample) -> Event | None:
        task = self._task
        spent = (sample.time - self._entered) / SECOND
        match self._phase:
            case Phase.APPROACH:
                if self._on_target(sample):
                    return Event.ON_TARGET
                if sample.time - self._start >= task.patience * SECOND:
                    return Event.TIME_UP
            case Phase.HELD:
                if not self._on_target(sample):
                    return Event.OFF_TARGET
                if spent >= task.steady:
                    return Event.STEADY
            case Phase.DARK if task.window is not None:
                if spent >= task.foreperiod + task.window:
                    return Event.WINDOW_OVER
            case Phase.DARK:
                if sample.throttle >= ON:
                    return Event.THROTTLE_ON
                if spent >= task.foreperiod:
                    return Event.CUE_DUE
            case Phase.CUE:
                if sample.throttle >= ON:
                    return Event.THROTTLE_ON
                if spent >= task.answer:
                    return Event.TIME_UP
            case Phase.RESPONSE:
                if sample.throttle < OFF:
                    return Event.THROTTLE_OFF
                if spent >= task.pulse:
                    return Event.TIME_UP
            case Phase.SETTLE if spent >= task.tail:
                return Event.SETTLED
        return None

    def _on_target(self, sample: Sample) -> bool:
        task = self._task
        at_rest = task.window is not None or sample.throttle < ON
        return abs(sample.brake - task.target) <= task.band and at_rest


class _Record:
    """The samples of a repetition, kept in flat arrays while it runs."""

    def __init__(self) -> None:
        self._time = array("q")
        self._brake = array("d")
        self._throttle = array("d")
        self._clutch = array("d")

    @property
    def origin(self) -> int:
        return self._time[0]

    def add(self, sample: Sample) -> None:
        if self._time and sample.time <= self._time[-1]:
            return
        self._time.append(sample.time)
        self._brake.append(sample.brake)
        self._throttle.append(sample.throttle)
        if sample.clutch is not None:
            self._clutch.append(sample.clutch)

    def trace(self) -> Trace:
        time = np.array(self._time, dtype=np.int64)
        clutch = np.array(self._clutch) if len(self._clutch) == len(self._time) else None
        return Trace(time - time[0], np.array(self._brake), np.array(self._throttle), clutch)
