"""One repetition while it is played: timestamped samples in, transitions of its phases out.

It knows no device and no clock: the time is that of the samples. One table of phases runs every
kind of drill, as tasks differ by their values alone.
"""

from __future__ import annotations

from drills.lasting import Lasting
from drills.phases import FINDING, OVER, TABLE, Event, Phase, Transition
from drills.score import Reason
from drills.task import Knock, Move, Performance, Task
from drills.trace import SECOND, Sample, TraceBuilder, nanoseconds

LONGEST_GAP = nanoseconds(0.050)
"""Longest time between two reads in the measured window, in ns; above it nothing is judged."""
SETTLING_IN = nanoseconds(0.25)
"""Time from the start of the dark to the measured window, in ns: the dark is painted in it."""


_VOIDED_BY = {Event.IMPATIENT: Reason.NO_TARGET, Event.EARLY: Reason.ANTICIPATION}


class Repetition:
    """One repetition while it is played: it takes samples and moves through its phases."""

    def __init__(self, task: Task, start: int, report_interval: float = 0.0) -> None:
        """`task` is what is asked; `start` is in ns, on the time axis of the samples.

        `report_interval` is the time between reports of the pedals in s, 0 where it is not known.
        """
        self._task = task
        self._lasting = Lasting(report_interval)
        self._moving = [Lasting(report_interval) for _ in task.moves]
        self._start = start
        self._phase = Phase.RELEASE
        self._entered = start
        self._last = start
        self._began: int | None = None
        self._cues: list[int] = []
        self._moves: list[int] = []
        self._knocked = 0
        self._record = TraceBuilder()
        self._void: Reason | None = None
        self._left = False

    @property
    def phase(self) -> Phase:
        """Phase that the repetition is in."""
        return self._phase

    @property
    def void(self) -> Reason | None:
        """Why the repetition cannot be judged; None while it can."""
        return self._void

    @property
    def asked(self) -> bool:
        """Whether anything was asked yet: the first cue came or, in a task without, the wait."""
        return bool(self._cues) or (self._began is not None and not self._task.cues)

    @property
    def knocked(self) -> tuple[Knock, ...]:
        """Knocks of the second task that were given so far, in order."""
        return self._task.knocks[: self._knocked]

    @property
    def left(self) -> bool:
        """Whether the player left after the cue: the repetition counts, and is not clean."""
        return self._left

    @property
    def last(self) -> int:
        """Time of the latest sample, in ns."""
        return self._last

    @property
    def lit(self) -> bool:
        """Whether the screen may be lit: nothing is drawn while a foot is measured."""
        return self._phase in FINDING or (self._phase is Phase.WAIT and not self._task.dark)

    @property
    def measured_from(self) -> int | None:
        """Start of the measured window, in ns from the start of the trace; None before it."""
        opens = self._opens
        return None if opens is None else opens - self._record.origin

    def feed(self, sample: Sample) -> tuple[Transition, ...]:
        """Take the next sample and return the transitions that it led to, in order."""
        before, self._last = self._last, sample.time
        if self._phase in OVER:
            return ()
        if self._phase not in (Phase.RELEASE, Phase.APPROACH):
            self._record.add(sample)
        if self._blind(before, sample.time):
            return self.fault(Reason.GAP, sample.time)
        made = []
        while (found := self._event(sample)) is not None:
            event, time = found
            made.append(self._take(event, time))
            self._note(event, sample, time)
            if self._phase in FINDING:
                break
        return tuple(made)

    def fault(self, reason: Reason, time: int) -> tuple[Transition, ...]:
        """End the repetition as void for a reason from outside; no transition once it has ended."""
        if (self._phase, Event.FAULT) not in TABLE:
            return ()
        self._void = reason
        return (self._take(Event.FAULT, time),)

    def leave(self, time: int) -> tuple[Transition, ...]:
        """End the repetition because the player left; void where nothing was asked yet.

        No transition where it has ended already.
        """
        if not self.asked:
            return self.fault(Reason.LEFT, time)
        if (self._phase, Event.LEFT) not in TABLE:
            return ()
        self._left = True
        return (self._take(Event.LEFT, time),)

    def performance(self) -> Performance | None:
        """What was done, with times in ns from the first sample; None before the wait."""
        if self._began is None:
            return None
        origin = self._record.origin
        cues = tuple(cue - origin for cue in self._cues)
        return Performance(self._record.trace(), self._began - origin, cues)

    @property
    def _opens(self) -> int | None:
        """When the measured window opens, in ns on the time axis of the samples; None before it."""
        if not self._task.dark:
            return self._cues[0] if self._cues else None
        return None if self._began is None else self._began + SETTLING_IN

    def _take(self, event: Event, time: int) -> Transition:
        """Enter the phase that an event leads to. Raises KeyError if the phase does not list it.

        A knock interrupts nothing: what lasts in the phase lasts on.
        """
        phase = TABLE[self._phase, event]
        if event is Event.KNOCK:
            knock = self._task.knocks[self._knocked]
            self._knocked += 1
            return Transition(event, phase, time, signal=knock.signal)
        self._phase, self._entered = phase, time
        self._lasting.restart()
        if event is not Event.CUE:
            return Transition(event, self._phase, time)
        cue = len(self._cues)
        return Transition(event, self._phase, time, cue, self._task.signal(cue))

    def _note(self, event: Event, sample: Sample, time: int) -> None:
        match event:
            case Event.READY:
                self._record = TraceBuilder()
                self._record.add(sample)
            case Event.STEADY:
                self._began = sample.time
            case Event.CUE:
                self._cues.append(sample.time)
            case Event.MOVED:
                self._moves.append(time)
            case Event.IMPATIENT | Event.EARLY:
                self._void = _VOIDED_BY[event]

    def _blind(self, before: int, now: int) -> bool:
        """Whether too much of the measured window passed between two reads of the pedals."""
        opens = self._opens
        return opens is not None and now - max(before, opens) > LONGEST_GAP

    def _event(self, sample: Sample) -> tuple[Event, int] | None:
        """The next event that a sample leads to, and when it began, in ns."""
        task, now = self._task, sample.time
        if (self._phase, Event.KNOCK) in TABLE and self._knock_due(now):
            return Event.KNOCK, now
        match self._phase:
            case Phase.RELEASE if sample.brake < task.freed:
                return Event.FREED, now
            case Phase.APPROACH if self._in_place(sample):
                return Event.READY, now
            case Phase.RELEASE | Phase.APPROACH:
                if _passed(self._start, now, task.patience):
                    return Event.IMPATIENT, now
            case Phase.HELD:
                if (since := self._lasting.since(not self._in_place(sample), now)) is not None:
                    return Event.LOST, since
                if not self._lasting.waits and _passed(self._entered, now, task.steady):
                    return Event.STEADY, now
            case Phase.WAIT:
                early = any((sample.of(pedal) or 0.0) >= at for pedal, at in task.early.items())
                if (since := self._lasting.since(early, now)) is not None:
                    return Event.EARLY, since
                if self._cue_due(sample):
                    return Event.CUE, now
                if not task.cues and self._lasted(now):
                    return Event.FINISHED, now
            case Phase.ACT:
                return self._acted(sample)
            case Phase.TAIL if _passed(self._entered, now, task.tail):
                return Event.OVER, now
        return None

    def _acted(self, sample: Sample) -> tuple[Event, int] | None:
        task, now = self._task, sample.time
        if self._cue_due(sample):
            return Event.CUE, now
        made = len(self._moves)
        if made < len(task.moves):
            lasting = zip(self._moving[made:], task.moves[made:], strict=True)
            since, *_ = [watched.since(move.made(sample), now) for watched, move in lasting]
            if since is not None:
                return Event.MOVED, max([since, *self._moves[-1:]])
            move = task.moves[made]
            asked = self._since(move)
            is_late = asked is not None and _passed(asked, now, move.within)
            if is_late and not self._moving[made].waits:
                return Event.LATE, now
        elif len(self._cues) == len(task.cues) and self._lasted(now):
            return Event.FINISHED, self._entered if self._lasted(self._entered) else now
        return None

    def _in_place(self, sample: Sample) -> bool:
        return all(
            (value := sample.of(pedal)) is not None and low <= value <= high
            for pedal, (low, high) in self._task.start.items()
        )

    def _cue_due(self, sample: Sample) -> bool:
        """Whether a cue is due; each has its own time after the wait, so none delays another."""
        cues, given = self._task.cues, len(self._cues)
        assert self._began is not None
        return given < len(cues) and _passed(
            self._began, sample.time, self._task.wait + cues[given]
        )

    def _knock_due(self, now: int) -> bool:
        """Whether the next knock of the second task is due; each has its own time in the dark."""
        knocks = self._task.knocks[self._knocked :]
        return bool(knocks) and self._began is not None and _passed(self._began, now, knocks[0].at)

    def _lasted(self, now: int) -> bool:
        """Whether the repetition has been as long as the task asks at the least."""
        assert self._began is not None
        if self._cues:
            return _passed(self._cues[0], now, self._task.lasts)
        return _passed(self._began, now, self._task.wait + self._task.lasts)

    def _since(self, move: Move) -> int | None:
        """Time in ns from which a pedal move is waited for; None while its cue is to come."""
        if move.cue is None:
            return self._moves[-1] if self._moves else self._cues[0]
        return self._cues[move.cue] if move.cue < len(self._cues) else None


def _passed(since: int, now: int, seconds: float) -> bool:
    return now - since >= seconds * SECOND
