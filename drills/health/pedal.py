"""`measure_health`: health of each pedal, from raw counts read over the course."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace

import numpy as np

from drills.calibration import COUNTS, Range
from drills.health.axis import (
    dead_ends,
    held_noise,
    leap,
    longest_still,
    rest_noise,
    step_of,
)
from drills.health.course import Part, Step, course_of
from drills.health.reports import Timing, report_timing, reports
from drills.measures.jumps import without_jumps
from drills.measures.stalls import stalls
from drills.trace import SECOND, Pedal, Times, Trace, Values

MOVED = 409
"""Counts that an axis must move by before SDL reports anything but its first value."""
LETTING_GO = 1.0
"""Time at the beginning of a hold and of the last rest in which the foot still moves, in s."""
SLOWEST_HELD = 0.020
"""Longest report interval at which noise is told from the tremor of a held leg, in s."""
STAIR_NOISES = 8.0
"""Least leap of a pedal that sticks, in standard deviations of the noise: white noise goes so far
from one report to the next once in 10 ** 8."""
RARE = 0.1
"""Share of the reads that is too rare for an end of the travel, in %: 30 ms of the course."""
SURE_STEPS = 4.0
"""Change from report to report that is surely a movement, in steps."""
SURE_NOISES = 6.0
"""Change that is surely a movement, in standard deviations of the noise, of which two make it."""
READS_LEAST = 10.0
"""Reads a second that each part of the course needs at least, for anything to be measured in it."""


@dataclass(frozen=True)
class BoundPedal:
    """A pedal and the axis of a device that it is read from."""

    pedal: Pedal
    """Which pedal it is."""
    device: str
    """Name of the device."""
    axis: int
    """Index of the axis on the device, from 0."""
    ends: Range
    """Raw values of the axis at both ends of the calibrated travel."""

    @property
    def span(self) -> float:
        """Axis counts in the calibrated travel."""
        return abs(self.ends.full - self.ends.rest) * COUNTS

    def percent(self, counts: Times) -> Values:
        """Positions in % of the calibrated travel of axis counts."""
        ends = self.ends
        return 100 * (counts / COUNTS - ends.rest) / (ends.full - ends.rest)


@dataclass(frozen=True, eq=False)
class RawCounts:
    """Axis counts of all pedals, as read during the course."""

    pedals: tuple[BoundPedal, ...]
    """Pedals that were read, in the order of `Pedal`: brake, throttle and perhaps the clutch."""
    time: Times
    """Times of the reads in ns from the beginning of the course, rising, shape (n,)."""
    counts: Times
    """Axis counts as read, shape (number of pedals, n)."""

    @property
    def parts(self) -> tuple[Part, ...]:
        """Parts of the course that the pedals were led through."""
        return course_of([bound.pedal for bound in self.pedals])

    @property
    def thin(self) -> Part | None:
        """First part of the course with too few reads to measure anything; None if there is none.

        A computer that slept, or a window that was dragged, may have left a part out.
        """
        for part in self.parts:
            first, end = np.searchsorted(self.time, [part.begins * SECOND, part.ends * SECOND])
            if end - first < READS_LEAST * part.lasts - 1:
                return part
        return None

    @property
    def reads(self) -> float:
        """Reads a second."""
        return (self.time.size - 1) * SECOND / float(self.time[-1] - self.time[0])


@dataclass(frozen=True)
class PedalHealth:
    """What one pedal can show; None where the course gave too little to tell.

    A point is a hundredth of the calibrated travel. Errors are given where each is measured.
    """

    pedal: Pedal
    """Which pedal it is."""
    seen: bool
    """Whether the axis has moved, so that anything is known of it."""
    step: float | None = None
    """Smallest change, in points (`step_of`)."""
    steps: float | None = None
    """Number of steps in the calibrated travel: 100 / step."""
    rest: float | None = None
    """Noise with the feet off, in points: a standard deviation (`rest_noise`)."""
    held: float | None = None
    """Noise under a held foot, in points: a standard deviation (`held_noise`)."""
    timing: Timing | None = None
    """How often the device reports, and how evenly (`report_timing`)."""
    dead_low: float = 0.0
    """Part of a slow press before the axis follows, in points (`dead_ends`)."""
    dead_high: float = 0.0
    """Part of a slow press after the axis has stopped following, in points (`dead_ends`)."""
    lowest: float = 0.0
    """Lowest position in the course, in %, but for the rare ones, which may be jumps."""
    highest: float = 0.0
    """Highest position, in %, likewise. Error of both: a step, three noises, and what only a press
    of less than 30 ms reached."""
    axis_used: float = 0.0
    """Calibrated travel as a share of the whole axis, in %; exact."""
    jumps: int = 0
    """Jumps seen in the course (`without_jumps`)."""
    stalls: int = 0
    """Number of times that it stopped reporting while it was used, told as in a repetition
    (`stalls`); none where it reports too seldom to tell."""
    leap: float | None = None
    """Size of the leaps of a pedal that sticks, in points (`leap`); None if it does not."""
    still: float = 0.0
    """Longest time in s on one count while it was held (`longest_still`). Error: a report."""

    @property
    def noise(self) -> float | None:
        """Noise that a repetition meets, in points: under a foot, or else at rest."""
        return self.rest if self.held is None else self.held


def measure_health(raw: RawCounts) -> tuple[PedalHealth, ...]:
    """Health of each pedal that was read during the course, in the order of `raw`.

    No part of the course may be thin.
    """
    columns = [bound.percent(counts) for bound, counts in zip(raw.pedals, raw.counts, strict=True)]
    brake, throttle, *clutch = columns
    calm, found = without_jumps(Trace(raw.time, brake, throttle, clutch[0] if clutch else None))
    jumps = Counter(jump.pedal for jump in found)
    measured = (
        _measured(raw, bound, counts, jumps[bound.pedal])
        for bound, counts in zip(raw.pedals, raw.counts, strict=True)
    )
    return tuple(
        replace(health, stalls=_stalls(raw, health, values))
        for health, values in zip(measured, (calm.brake, calm.throttle, calm.clutch), strict=False)
    )


def _stalls(raw: RawCounts, health: PedalHealth, values: Values | None) -> int:
    """Number of stalls of a pedal while it was used, by its values without jumps, shape (n,).

    At rest, where its axis may cut the noise off, a large noise looks the same.
    """
    if values is None or health.timing is None:
        return 0
    used = [part for part in raw.parts if part.pedal is health.pedal]
    begins, ends = round(used[0].begins * SECOND), round(used[-1].ends * SECOND)
    first, end = np.searchsorted(raw.time, [begins, ends]).tolist()
    return int(stalls(raw.time[first:end], values[first:end], health.timing.interval).size)


def _measured(raw: RawCounts, bound: BoundPedal, counts: Times, jumps: int) -> PedalHealth:
    if np.ptp(counts) <= MOVED:
        return PedalHealth(bound.pedal, seen=False)
    time, point = raw.time, bound.span / 100
    step = step_of(counts) or 1.0
    resting = _within(time, _part(raw, Step.OFF, None), LETTING_GO)
    pressing = _within(time, _part(raw, Step.PRESS, bound.pedal), 0.0)
    holding = _within(time, _part(raw, Step.HOLD, bound.pedal), LETTING_GO)
    rest = held = None
    timing = report_timing(time, counts, [2 * step])
    if timing is not None:
        runs = [(time[run], counts[run]) for run in (pressing, holding)]
        rest = rest_noise(reports(time[resting], counts[resting], timing.interval))
        if timing.interval <= SLOWEST_HELD:
            held = held_noise([reports(*run, timing.interval) for run in runs])
        sure = max(SURE_STEPS * step, SURE_NOISES * (rest or 0.0), SURE_NOISES * (held or 0.0))
        timing = report_timing(time, counts, [sure, 2 * step]) or timing
    percent = bound.percent(counts)
    lowest, highest = np.percentile(percent, [RARE, 100 - RARE]).tolist()
    blur = (step + 2 * (rest or 0.0)) / point
    dead = dead_ends(time[pressing], percent[pressing], blur)
    leaping = None
    if timing is not None:
        least = max(SURE_STEPS * step, STAIR_NOISES * (rest or 0.0)) / point
        leaping = leap(time[pressing], percent[pressing], timing.interval, least)
    return PedalHealth(
        bound.pedal,
        seen=True,
        step=step / point,
        steps=bound.span / step,
        rest=None if rest is None else rest / point,
        held=None if held is None else held / point,
        timing=timing,
        dead_low=dead.low,
        dead_high=dead.high,
        lowest=lowest,
        highest=highest,
        axis_used=100 * bound.span / (2 * COUNTS),
        jumps=jumps,
        leap=leaping,
        still=longest_still(time[holding], counts[holding]),
    )


def _part(raw: RawCounts, step: Step, pedal: Pedal | None) -> Part:
    """Last part of the course with this step of this pedal."""
    return [part for part in raw.parts if part.step is step and part.pedal is pedal][-1]


def _within(time: Times, part: Part, later: float) -> slice:
    """Reads in a part of the course, without its first `later` s."""
    first, end = np.searchsorted(
        time, [round((part.begins + later) * SECOND), round(part.ends * SECOND)]
    )
    return slice(int(first), max(int(end), int(first) + 1))
