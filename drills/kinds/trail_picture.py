"""Picture of an easing off: the brake against its way down, and the place that decided."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from drills.deviation import Average, Bound, Deviation, MarkedTime, WorstPlace, cut, reach_of
from drills.digits import plain
from drills.headline import allowed
from drills.kinds.blip_picture import AREAS, against_target, is_of_target
from drills.kinds.chord_bounds import chord_bounds
from drills.kinds.timings import timing_of
from drills.level import Level
from drills.measures.base import base_at_cue
from drills.measures.blip import Pulse
from drills.measures.chord import FROM as CHORD_FROM
from drills.measures.chord import ChordDisturbance, chord_of
from drills.measures.easing import Ramp, Span
from drills.measures.way import WayDown
from drills.remark import Headline
from drills.score import WEIGHED, Judged, Verdict
from drills.task import FALL_HOLD
from drills.trace import SECOND, STEP, nanoseconds

Points = np.ndarray[tuple[int], np.dtype[np.int64]]
"""Grid points, shape (n,)."""
BEFORE = 0.3
"""Time before the cue that the picture of an easing off shows, in s."""
AFTER = 0.5
"""Time after the due end of an easing off that its picture shows, in s."""
IN_POINTS = ("ramp_worst", "ramp_error", "dip", "surge")
"""Names of the measures whose limits set the scale of an easing off's picture."""


@dataclass(frozen=True)
class _Window:
    """Window of one blip of an easing off."""

    points: Span
    """Grid points of the window, [first, after)."""
    done: ChordDisturbance
    """What the blip did to the brake."""
    pulse: Pulse
    """Its throttle."""


def picture_of(level: Level, judged: Judged, figure: Headline | None) -> Deviation | None:
    """Picture of the brake against its way down: the ramp and, within a blip, its chord."""
    task, done = judged.task, judged.done
    way = judged.measured if isinstance(judged.measured, WayDown) else None
    given = bool(done.cues)
    if way is not None and given and is_of_target(judged.verdict):
        return against_target(level, judged, base_at_cue(judged.grid, done.cues[0]), figure)
    cue = done.cues[0] / SECOND if given else done.began / SECOND + task.wait
    ramp = way.ramp if way is not None else None
    ends = (ramp.after - judged.grid.index(done.cues[0])) / 1000 if ramp is not None else 0.0
    shown_until = max(FALL_HOLD + task.falls + AFTER, math.ceil(10 * ends) / 10)
    held = task.target if way is None else way.held
    picture = cut(judged.grid, cue, held, (-BEFORE, shown_until))
    if picture is None:
        return None
    limits = [at for name, at in level.limits.items() if name in IN_POINTS]
    cues = tuple(cue_at / SECOND - cue for cue_at in done.cues) if given else (0.0,)
    picture = replace(picture, reach=reach_of(limits), cues=cues)
    if way is None or ramp is None:
        return replace(picture, zero="target" if way is None else "held")
    return _on_the_way(level, judged, way, ramp, picture, figure)


def _on_the_way(
    level: Level,
    judged: Judged,
    way: WayDown,
    ramp: Ramp,
    picture: Deviation,
    figure: Headline | None,
) -> Deviation:
    """Picture of the brake against its way down; where a blip is judged, against its chord."""
    grid, cue = judged.grid, judged.done.cues[0]
    first = grid.index(cue + nanoseconds(float(picture.time[0])))
    points = np.arange(first, first + picture.time.size, dtype=np.int64)
    meant = np.clip(ramp.brake(points), 0.0, way.held)
    windows = []
    for pulse, done in way.run.blips if way.run is not None else ():
        if isinstance(done, ChordDisturbance):
            stop = grid.index(nanoseconds(done.stop))
            inside = (points >= pulse.first - CHORD_FROM) & (points < stop)
            seconds = (grid.start + points[inside] * STEP) / SECOND
            meant[inside] = chord_of(pulse, done, seconds)
            windows.append(_Window((pulse.first - CHORD_FROM, stop), done, pulse))
    brake = grid.brake[first : first + picture.time.size]
    bounds = chord_bounds(level, [(window.points, window.done) for window in windows])
    if way.easing.ramp_worst is not None:
        span = (ramp.start, min(ramp.after, len(grid)))
        bounds = [*_of_the_ramp(level, span, way.left_out), *bounds]
    picture = replace(
        picture,
        deviation=brake - meant,
        zero="straight",
        bounds=tuple(_timed(bound, first, picture) for bound in bounds),
    )
    on_ramp = ramp.points(len(grid), way.left_out)
    judged_points = on_ramp[(on_ramp >= first) & (on_ramp < first + picture.time.size)] - first
    return _decided(level, judged, picture, windows, first, judged_points, figure)


def _decided(
    level: Level,
    judged: Judged,
    picture: Deviation,
    windows: Sequence[_Window],
    first: int,
    on_ramp: Points,
    figure: Headline | None,
) -> Deviation:
    """The picture with the place, the limit and the area that decided.

    `first` is the grid index where the picture begins, `on_ramp` the points of the picture that are
    compared with the ramp.
    """
    verdict = judged.verdict
    name = verdict.worst
    pulses = [window.pulse for window in windows]
    acts = [picture.cues[k] for k in judged.task.acts if k < len(picture.cues)]
    zero = judged.done.cues[0] / SECOND
    timing = timing_of(verdict, figure, picture, pulses, acts, zero)
    if verdict.reason not in WEIGHED or figure is None:
        return replace(picture, timing=timing)
    picture = replace(
        picture,
        area=AREAS.get(name, 0),
        timing=_release(verdict, figure) or timing,
        average=_average(level, verdict, figure, picture, on_ramp),
    )
    if name == "ramp_worst" and on_ramp.size:
        limit = level.limits[name]
        place = int(on_ramp[int(np.argmax(np.abs(picture.deviation[on_ramp])))])
        during = (float(picture.time[on_ramp[0]]), float(picture.time[on_ramp[-1]]))
        bound = Bound(allowed(figure), -limit, limit, during)
    elif name in ("dip", "surge") and windows and verdict.amount(name):
        limit, sign = level.limits[name], -1 if name == "dip" else 1
        window = max(windows, key=lambda one: one.done.dip if sign < 0 else one.done.surge)
        opens = max(window.points[0] - first, 0)
        closes = min(window.points[1] - first, picture.time.size)
        if closes <= opens or (sign > 0 and window.done.is_early):
            return picture
        place = opens + int(np.argmax(sign * picture.deviation[opens:closes]))
        low, high = (-limit, None) if sign < 0 else (None, limit)
        during = (float(picture.time[opens]), float(picture.time[closes - 1]))
        bound = Bound(allowed(figure), low, high, during)
    else:
        return picture
    worst = WorstPlace(float(picture.time[place]), float(picture.deviation[place]), figure.value)
    return replace(picture, worst=worst, decides=bound)


def _release(verdict: Verdict, figure: Headline) -> MarkedTime | None:
    """The time of the way down that decided; None where something else decided."""
    start, value = verdict.amount("release_start"), verdict.measures.get(verdict.worst)
    if value is None:
        return None
    match verdict.worst:
        case "release_start":
            return MarkedTime(0.0, value, figure.value)
        case "release_time":
            return MarkedTime(start, start + value, figure.value)
    return None


def _average(
    level: Level, verdict: Verdict, figure: Headline, picture: Deviation, on_ramp: Points
) -> Average | None:
    """Average distance from the ramp on the side of the farthest; None where it did not decide."""
    if verdict.worst != "ramp_error" or not on_ramp.size:
        return None
    off, at = picture.deviation[on_ramp], picture.time[on_ramp]
    side = 1.0 if off[int(np.argmax(np.abs(off)))] > 0 else -1.0
    breaks = np.flatnonzero(np.diff(on_ramp) > 1)
    first, last = at[np.r_[0, breaks + 1]].tolist(), at[np.r_[breaks, at.size - 1]].tolist()
    size, limit = side * verdict.amount("ramp_error"), side * level.limits["ramp_error"]
    return Average(
        line=(size, size),
        allowed=(limit, limit),
        during=tuple(zip(first, last, strict=True)),
        label=figure.value,
        limit=allowed(figure),
        sides=(-1, 1),
    )


def _timed(bound: Bound, first: int, picture: Deviation) -> Bound:
    """A limit over grid indices, moved to s on the axis of a picture that starts at `first`."""
    opens, closes = (float(picture.time[0]) + (at - first) / 1000 for at in bound.during)
    return replace(bound, during=(opens, closes))


def _of_the_ramp(level: Level, way: Span, left_out: Sequence[Span]) -> list[Bound]:
    """Limits on the brake's distance from the ramp, over the grid indices between the blips."""
    bounds: list[Bound] = []
    worst, at = level.limits.get("ramp_worst"), way[0]
    for opens, closes in [*left_out, (way[1], way[1])]:
        until = min(opens, way[1])
        if worst is not None and until > at:
            label = "" if bounds else f"straight ±{plain(worst)} allowed"
            bounds.append(Bound(label, -worst, worst, (at, until)))
        at = max(at, closes)
    return bounds
