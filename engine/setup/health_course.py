"""`CourseReader`: raw counts of the pedals, read while a player is led through the course."""

from __future__ import annotations

from array import array
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from drills.capitals import capitalised
from drills.health.course import LENGTH, Part, Step, course_of, part_at
from drills.health.pedal import BoundPedal, RawCounts
from drills.trace import SECOND, Pedal, Sample


@dataclass(frozen=True)
class Asked:
    """What is asked in one part of the course."""

    do: str
    """What to do, in three to five words."""
    short: str
    """The same where the pedal is named beside it."""
    how: str
    """How to do it, in a short sentence."""


_HOW = {
    Step.HOLD: "Half way down, as still as you can.",
    Step.STABS: "All the way down and up, again and again.",
}
_SLOWLY = {
    Pedal.BRAKE: "Evenly, as hard as you ever brake, until the time is up.",
    Pedal.THROTTLE: "Evenly, down to its stop, until the time is up.",
    Pedal.CLUTCH: "Evenly, down to its stop, until the time is up.",
}
_DO = {Step.PRESS: "Press {} slowly", Step.HOLD: "Hold {}", Step.STABS: "Stab {}"}


def asked_in(part: Part) -> Asked:
    """What is asked in a part of the course."""
    if part.pedal is None:
        return Asked("Feet off", "Feet off", "Let go of all pedals. Nothing may touch them.")
    how = _SLOWLY[part.pedal] if part.step is Step.PRESS else _HOW[part.step]
    do = _DO[part.step]
    return Asked(do.format(f"the {part.pedal.value}"), do.format("it"), how)


def line_of(part: Part) -> str:
    """What is asked in a part of the course as one line, with its time."""
    asked = asked_in(part)
    return f"{part.lasts:.0f} s  {capitalised(asked.do)}. {asked.how}"


class CourseReader:
    """Reader of the counts of all pedals, from its first sample until the course is over."""

    def __init__(self, pedals: Sequence[BoundPedal]) -> None:
        self._pedals = tuple(pedals)
        self._parts = course_of([bound.pedal for bound in pedals])
        self._began: int | None = None
        self._now = 0
        self._time = array("q")
        self._counts = [array("q") for _ in pedals]

    @property
    def seconds(self) -> float:
        """Time since the first sample, in s."""
        return 0.0 if self._began is None else (self._now - self._began) / SECOND

    @property
    def part(self) -> Part:
        """Part of the course that is on now."""
        return part_at(self._parts, self.seconds)

    @property
    def following(self) -> Part | None:
        """Part of the course after the one that is on now; None in the last."""
        place = self._parts.index(self.part)
        return self._parts[place + 1] if place + 1 < len(self._parts) else None

    @property
    def is_over(self) -> bool:
        """Whether the course is over."""
        return self.seconds >= LENGTH

    @property
    def raw(self) -> RawCounts | None:
        """Counts that were read; None if they are too few for some part of the course."""
        time = np.frombuffer(self._time, dtype=np.int64)
        rows = [np.frombuffer(column, dtype=np.int64) for column in self._counts]
        raw = RawCounts(self._pedals, time, np.array(rows))
        return raw if raw.thin is None else None

    def take(self, sample: Sample) -> None:
        """Take a sample; one that is no newer than the last, or without counts, is left out."""
        if self._began is None:
            self._began = sample.time
        newer = not self._time or sample.time - self._began > self._time[-1]
        self._now = max(self._now, sample.time)
        if sample.counts is None or not newer or self.is_over:
            return
        self._time.append(sample.time - self._began)
        for column, count in zip(self._counts, sample.counts, strict=False):
            column.append(count)
