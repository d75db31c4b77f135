"""The picture of a repetition: how far the brake was from where it was held, aligned in time."""

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
"""s, where something begins and where it ends."""

AROUND_BLIP: Span = (-0.5, 1.5)
"""s shown before and after the onset of a blip, or its cue: the same for every one."""
BEFORE_CUE: Span = (-1.5, 0.5)
"""s shown about a cue that was not waited for."""
REACHES = 1.8
"""1, how many of the largest limit the scale reaches: fixed, so that one bad try squeezes none."""
LEAST_REACH = 10.0
"""points, least deviation that the scale reaches up and down."""


@dataclass(frozen=True)
class Bound:
    """A limit, drawn where it is judged."""

    label: str
    """A word or two."""
    low: float | None
    """points, least deviation that keeps it; None where it has none."""
    high: float | None
    """points, greatest deviation that keeps it; None where it has none."""
    during: Span
    """s, when it is judged."""


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
    """What a deviation of 0 is, in a word."""
    throttle: Values | None = None
    """%, shape (n,), to be shown beneath; None where it does not matter."""
    clutch: Values | None = None
    """%, shape (n,), to be shown beneath; None where there is none."""
    cues: tuple[float, ...] = ()
    """s, when each cue was given or due."""
    blips: tuple[Span, ...] = ()
    """s, where each throttle pulse began and ended."""
    bounds: tuple[Bound, ...] = ()
    """The limits."""

    @property
    def is_measured(self) -> bool:
        """Whether it was held against limits, and so can be laid over others that were."""
        return bool(self.bounds)


def reach_of(limits: Sequence[float]) -> float:
    """The scale of points for limits in points: whole fives."""
    return 5 * math.ceil(max([LEAST_REACH, *(REACHES * limit for limit in limits)]) / 5)


def cut(
    grid: Grid, zero: float, held: float, span: Span, *, throttle: bool = True
) -> Deviation | None:
    """Brake against `held` (%) over a span about a time in s; None where there is none of it."""
    first = grid.index(round((zero + span[0]) * SECOND))
    after = grid.index(round((zero + span[1]) * SECOND))
    if after - first < 2:
        return None
    time = (grid.start + np.arange(first, after) * STEP) / SECOND - zero
    shown = grid.throttle[first:after] if throttle else None
    return Deviation(time, grid.brake[first:after] - held, span, throttle=shown)


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
    """The middle of several pictures of one scale, at every moment that all of them show.

    Limits and labels are those of the last. Raises ValueError where there is none.
    """
    if not pictures:
        raise ValueError("pictures: expected at least one, found none")
    last = pictures[-1]
    begins = max(float(one.time[0]) for one in pictures)
    ends = min(float(one.time[-1]) for one in pictures)
    time = last.time[(last.time >= begins) & (last.time <= ends)]
    curves = [np.interp(time, one.time, one.deviation) for one in pictures]
    return replace(
        last,
        time=time,
        deviation=np.median(curves, axis=0),
        throttle=None,
        clutch=None,
        cues=(),
        blips=(),
    )
