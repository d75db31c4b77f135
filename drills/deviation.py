"""Picture of a repetition: deviation of the brake from what was held, aligned in time."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from drills.measures.blip import Pulse
from drills.measures.chord import FROM, ChordDisturbance, chord_of
from drills.measures.disturbance import Run
from drills.trace import SECOND, STEP, Grid, Values

Span = tuple[float, float]
"""Beginning and end of a stretch of time, in s."""
Corner = tuple[float, float]
"""Corner of a brake line: time in s on the axis of a picture, and brake in %."""

AROUND_BLIP: Span = (-0.5, 1.5)
"""Time that the picture of a blip covers, in s from its onset or cue, or more where its cue or its
measured window came earlier."""
BEFORE_CUE: Span = (-1.5, 0.5)
"""Time that the picture of an answer before the cue covers, in s from that cue."""
REACHES = 1.8
"""Reach of a picture's scale, in largest limits: fixed, so that a bad try shrinks no other."""
UPWARD = 0.7
"""Reach of the scale upwards as a share of its reach downwards: a blip takes brake away. Limits,
which end at 0.56 of the reach, are inside it."""
LEAST_REACH = 10.0
"""Least reach of a picture's scale up and down, in points."""


@dataclass(frozen=True)
class Bound:
    """A limit on the brake's deviation, drawn over the time in which it is judged."""

    label: str
    """A word or two beside the drawn limit."""
    low: float | None
    """Least clean deviation of the brake, in points; None: no lower limit."""
    high: float | None
    """Greatest clean deviation of the brake, in points; None: no upper limit."""
    during: Span
    """Time in which the limit is judged, in s on the axis of the picture."""


@dataclass(frozen=True)
class WorstPlace:
    """The place on the curve that decided a repetition, marked there with its number."""

    at: float
    """Time of the place, in s on the axis of the picture."""
    deviation: float
    """Deviation of the brake there, in points."""
    label: str
    """Number beside the mark, the same as the large figure of the reveal; empty for none."""


@dataclass(frozen=True)
class MarkedTime:
    """The time that decided a repetition, such as from a cue to its blip, with its number."""

    begins: float
    """When it begins, in s on the axis of the picture."""
    ends: float
    """When it ends, in s on the axis of the picture."""
    label: str
    """Number beside the mark, the same as the large figure of the reveal."""


@dataclass(frozen=True)
class Average:
    """An average or a drift over a time that decided, drawn as a line beside the line allowed.

    The line is past the one allowed where the average is over its limit, and only there.
    """

    line: Span
    """Deviation of the brake that it is drawn at, where it begins and where it ends, in points."""
    allowed: Span
    """The same of the limit that decided, on the same side, in points."""
    during: tuple[Span, ...]
    """Stretches of time that were averaged, in s on the axis of the picture."""
    label: str
    """Number beside the line, the same as the large figure of the reveal."""
    limit: str
    """What is written beside the line allowed: "2.6 allowed"."""
    sides: tuple[int, ...] = ()
    """Sides on which the brake is filled to the line of no deviation: -1 under it, 1 over it."""
    middle: float = 0.0
    """Deviation that the picture is drawn against where wander about it decided, in points."""
    zero: str = ""
    """Label of the line of no deviation that the picture has then; empty for its own."""


@dataclass(frozen=True, eq=False)
class Deviation:
    """Deviation of the brake from what was held over time, ready to be drawn."""

    time: Values
    """Time in s, shape (n,); 0 where the blip began, the cue was due or the hold opened."""
    deviation: Values
    """Brake minus what was held or the target, in points, shape (n,)."""
    span: Span
    """Time that the picture covers, in s."""
    reach: float = LEAST_REACH
    """Reach of the picture's scale of deviation up and down, in points."""
    zero: str = "held"
    """Label of the line of deviation 0, a word."""
    throttle: Values | None = None
    """Throttle drawn beneath the deviation, in %, shape (n,); None where it does not matter."""
    clutch: Values | None = None
    """Clutch drawn beneath the deviation, in %, shape (n,); None where there is none."""
    cues: tuple[float, ...] = ()
    """Times at which the cues were given or due, in s on the axis of the picture."""
    shifts: tuple[float, ...] = ()
    """Times at which the shift button was pressed, in s on the axis of the picture."""
    blips: tuple[Span, ...] = ()
    """Beginning and end of each throttle pulse, in s on the axis of the picture."""
    bounds: tuple[Bound, ...] = ()
    """Limits that the brake's deviation is held against."""
    worst: WorstPlace | None = None
    """Place that decided the repetition; None where what decided has no place on the curve."""
    decides: Bound | None = None
    """The limit that decided the repetition; None where what decided is no limit on the curve."""
    average: Average | None = None
    """Average that decided the repetition; None where something else decided."""
    timing: MarkedTime | None = None
    """Time that decided the repetition; None where something else decided."""
    area: int = 0
    """Side of the zero line on which the whole area decided, so that all of it may be filled: -1
    under it, 1 over it; 0 where no area decided."""
    within: tuple[Span, ...] = ()
    """Stretches of time in which the area decided; empty: all of it."""
    meant: Values | None = None
    """Brake that the deviation is counted from, in %, shape (n,); the picture then shows the brake
    itself, on a scale from 0 to `reach`. None where what was held is one value."""
    asked: tuple[Corner, ...] = ()
    """Corners of the brake line that was asked; empty where what was held is one value."""
    parts: tuple[tuple[float, str], ...] = ()
    """Moments where a part of the repetition begins or ends, in s, each with its word."""
    origin: float = 0.0
    """Time 0 of a repetition's picture on the time axis of its trace, in s; 0 in a picture of
    several."""

    @property
    def drawn(self) -> Values:
        """Height of the curve on the picture's scale, shape (n,): deviation, or brake in %."""
        return self.deviation if self.meant is None else self.deviation + self.meant

    @property
    def scale(self) -> Span:
        """Least and greatest height on the picture's scale, in points, or in % of brake."""
        if self.meant is None:
            return -self.reach, UPWARD * self.reach
        return 0.0, self.reach

    def level(self, at: float) -> float:
        """Height of deviation 0 at a time in s on the axis of the picture, as `drawn` is."""
        return 0.0 if self.meant is None else float(np.interp(at, self.time, self.meant))

    @property
    def is_measured(self) -> bool:
        """Whether the picture has limits, and so can be laid over others that have them."""
        return bool(self.bounds)


def about_middle(picture: Deviation) -> Deviation:
    """A picture of what its average says: of wander, against the middle of the wander.

    One that is drawn so already stays as it is.
    """
    average = picture.average
    if average is None or not average.middle:
        return picture
    return replace(
        picture,
        deviation=picture.deviation - average.middle,
        zero=average.zero or picture.zero,
        average=replace(average, middle=0.0),
    )


def reach_of(limits: Sequence[float]) -> float:
    """Reach of a picture's scale in points, a multiple of 5, for the limits (points) it shows."""
    return 5 * math.ceil(max([LEAST_REACH, *(REACHES * limit for limit in limits)]) / 5)


def cut(
    grid: Grid, zero: float, held: float, span: Span, *, throttle: bool = True
) -> Deviation | None:
    """Picture of brake minus `held` (%) over a span about `zero` (s); None for under two points."""
    first = grid.index(round((zero + span[0]) * SECOND))
    after = grid.index(round((zero + span[1]) * SECOND))
    if after - first < 2:
        return None
    time = (grid.start + STEP * np.arange(first, after, dtype=np.int64)) / SECOND - zero
    # A copy: a slice would hold the whole throttle of the repetition as long as its picture.
    pedal = grid.throttle[first:after].copy() if throttle else None
    return Deviation(time, grid.brake[first:after] - held, span, throttle=pedal, origin=zero)


def of_run(grid: Grid, run: Run, cue: float | None = None) -> Deviation | None:
    """Picture of a run of blips: the brake minus its base, with time 0 at the first blip.

    It shows the `cue` of the first blip (s, on the axis of the trace), if there was one.
    """
    first, last = run.blips[0][0], run.blips[-1][0]
    start, stop = AROUND_BLIP
    begins = run.start if cue is None else min(run.start, cue)
    opens = math.floor(round(10 * (begins - first.onset), 6)) / 10
    span = (min(start, opens), max(stop, math.ceil(10 * (last.end - first.onset + 1.0)) / 10))
    picture = cut(grid, first.onset, run.base, span)
    if picture is None:
        return None
    blips = tuple((pulse.onset - first.onset, pulse.end - first.onset) for pulse, _ in run.blips)
    return replace(picture, blips=blips)


def of_window(grid: Grid, start: float, stop: float, target: float) -> Deviation | None:
    """Picture of the brake in one window (s, on the axis of the grid) minus a target in %."""
    picture = cut(grid, start, target, (0.0, stop - start), throttle=False)
    return None if picture is None else replace(picture, zero="target")


def of_chord(grid: Grid, pulse: Pulse, done: ChordDisturbance) -> Deviation:
    """Picture of one blip of a recording: the brake minus its chord, over the blip's own window."""
    start, stop = pulse.onset - FROM / 1000, done.stop
    seen = slice(grid.index(round(start * SECOND)), grid.index(round(stop * SECOND)))
    seconds = (grid.start + STEP * np.arange(seen.start, seen.stop, dtype=np.int64)) / SECOND
    change = grid.brake[seen] - chord_of(pulse, done, seconds)
    return Deviation(
        seconds - pulse.onset,
        change,
        AROUND_BLIP,
        zero="straight",
        throttle=grid.throttle[seen],
        blips=((0.0, pulse.end - pulse.onset),),
        origin=pulse.onset,
    )
