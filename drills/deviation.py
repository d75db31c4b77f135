"""The picture of a repetition: the deviation of the brake from what was held, aligned in time."""

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
"""Beginning and end, in s."""

AROUND_BLIP: Span = (-0.5, 1.5)
"""Span of the picture of a blip, in s from its onset or its cue: the same for every blip."""
BEFORE_CUE: Span = (-1.5, 0.5)
"""Span of the picture of a cue that was not waited for, in s from the cue."""
REACHES = 1.8
"""Reach of the scale in largest limits: fixed, so that a bad try does not shrink the others."""
LEAST_REACH = 10.0
"""Least reach of the scale up and down, in points."""


@dataclass(frozen=True)
class Bound:
    """A limit, drawn over the time it is judged in."""

    label: str
    """A word or two."""
    low: float | None
    """points, least clean deviation; None for no lower end."""
    high: float | None
    """points, greatest clean deviation; None for no upper end."""
    during: Span
    """s, the time it is judged in."""


@dataclass(frozen=True, eq=False)
class Deviation:
    """Deviation of the brake over time, ready to be drawn."""

    time: Values
    """s, shape (n,), 0 where the blip began, the cue was due, or the measured hold opened."""
    deviation: Values
    """points, shape (n,), brake minus what was held, or minus the target."""
    span: Span
    """s, the scale of time."""
    reach: float = LEAST_REACH
    """points, the scale of the deviation, up and down."""
    zero: str = "held"
    """A word for the line of deviation 0."""
    throttle: Values | None = None
    """%, shape (n,), drawn beneath; None where the throttle does not matter."""
    clutch: Values | None = None
    """%, shape (n,), drawn beneath; None where there is no clutch."""
    cues: tuple[float, ...] = ()
    """s, when each cue was given or due."""
    blips: tuple[Span, ...] = ()
    """s, beginning and end of each throttle pulse."""
    bounds: tuple[Bound, ...] = ()
    """The limits that the deviation is held against."""

    @property
    def is_measured(self) -> bool:
        """Whether it has limits, so that it can be laid over other pictures that do."""
        return bool(self.bounds)


def reach_of(limits: Sequence[float]) -> float:
    """Reach of the scale in points, a multiple of 5, for limits in points."""
    return 5 * math.ceil(max([LEAST_REACH, *(REACHES * limit for limit in limits)]) / 5)


def cut(
    grid: Grid, zero: float, held: float, span: Span, *, throttle: bool = True
) -> Deviation | None:
    """Brake minus `held` (%) over a span about `zero` (s); None for less than two points of it."""
    first = grid.index(round((zero + span[0]) * SECOND))
    after = grid.index(round((zero + span[1]) * SECOND))
    if after - first < 2:
        return None
    time = (grid.start + np.arange(first, after) * STEP) / SECOND - zero
    pedal = grid.throttle[first:after] if throttle else None
    return Deviation(time, grid.brake[first:after] - held, span, throttle=pedal)


def of_run(grid: Grid, run: Run) -> Deviation | None:
    """The deviation of a run of blips from its base, aligned on the first."""
    first, last = run.blips[0][0], run.blips[-1][0]
    start, stop = AROUND_BLIP
    span = (start, max(stop, math.ceil(10 * (last.end - first.onset + 1.0)) / 10))
    picture = cut(grid, first.onset, run.base, span)
    if picture is None:
        return None
    blips = tuple((pulse.onset - first.onset, pulse.end - first.onset) for pulse, _ in run.blips)
    return replace(picture, blips=blips)


def of_window(grid: Grid, start: float, stop: float, target: float) -> Deviation | None:
    """The deviation in one window (s, on the axis of the grid) from a target in %."""
    picture = cut(grid, start, target, (0.0, stop - start), throttle=False)
    return None if picture is None else replace(picture, zero="target")


def of_chord(grid: Grid, pulse: Pulse, done: ChordDisturbance) -> Deviation:
    """The deviation of one blip of a recording from its chord, over its own window."""
    start, stop = pulse.onset - FROM / 1000, done.stop
    seen = slice(grid.index(round(start * SECOND)), grid.index(round(stop * SECOND)))
    seconds = (grid.start + np.arange(seen.start, seen.stop) * STEP) / SECOND
    change = grid.brake[seen] - chord_of(pulse, done, seconds)
    return Deviation(
        seconds - pulse.onset,
        change,
        AROUND_BLIP,
        zero="chord",
        throttle=grid.throttle[seen],
        blips=((0.0, pulse.end - pulse.onset),),
    )


def median_of(pictures: Sequence[Deviation]) -> Deviation:
    """The median of several pictures of one scale, at every moment that all of them cover.

    Limits and labels are those of the last. Raises ValueError where there is none.
    """
    if not pictures:
        raise ValueError("pictures: expected at least one, found none")
    last = pictures[-1]
    begins = max(float(picture.time[0]) for picture in pictures)
    ends = min(float(picture.time[-1]) for picture in pictures)
    time = last.time[(last.time >= begins) & (last.time <= ends)]
    curves = [np.interp(time, picture.time, picture.deviation) for picture in pictures]
    return replace(
        last,
        time=time,
        deviation=np.median(curves, axis=0),
        throttle=None,
        clutch=None,
        cues=(),
        blips=(),
    )
