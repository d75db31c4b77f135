"""Picture of a braking zone: the whole brake curve against the asked line, its parts marked."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from drills.deviation import (
    BEFORE_CUE,
    Average,
    Bound,
    Deviation,
    MarkedTime,
    Span,
    WorstPlace,
    cut,
)
from drills.digits import plain
from drills.headline import allowed
from drills.kinds.blip_picture import AREAS
from drills.kinds.chord_bounds import chord_bounds
from drills.kinds.timings import timing_of
from drills.level import Level
from drills.measures.along import chord_along
from drills.measures.blip import Pulse
from drills.measures.chord import FROM, ChordDisturbance, ChordRun
from drills.measures.zone import ZoneWork, asked_at
from drills.remark import Headline
from drills.score import WEIGHED, Judged, Verdict
from drills.task import Signal
from drills.trace import SECOND, STEP, Values, nanoseconds

BEFORE, AFTER = 0.6, 0.7
"""Time that the picture of a zone shows before the braking point and after turn-in, in s."""
TOP = 1.3
"""Least top of the picture's scale, as a multiple of the peak asked."""
BEYOND = 1.1
"""Room over the peak asked that the picture's scale has at least, as a multiple of the largest
limit on a brake over its line: a brake just over it is inside the picture."""
OVER = ("surge", "line_worst", "peak_error")
"""Names of the measures whose limits are drawn over the brake asked."""
HIGHEST = 110.0
"""Highest top of the picture's scale, in % of brake."""
LONG = 0.1
"""Least length of a stretch between two blips that an average is drawn over, in s."""
NEAR_THE_PEAK = 0.8
"""Share of the highest brake of a squeeze from which on it is held against the peak's limit."""
PARTS = ("brake", "turn-in")
"""Words under the braking point and under turn-in."""
ALONG_THE_LINE = ("line_error", "line_worst", "reversals")
"""Names of the measures for which the line is drawn as late as the foot followed it."""


@dataclass(frozen=True, eq=False)
class Zone:
    """What was measured of a zone, for its picture."""

    work: ZoneWork
    """Measures of the zone."""
    point: int
    """Grid index of the braking point."""
    beats: tuple[float, ...]
    """When each blip was due, in s on the time axis of the trace."""


@dataclass(frozen=True, eq=False)
class _Window:
    """Window of one blip of a zone that was measured."""

    span: Span
    """The window, in s on the axis of the picture."""
    inside: NDArray[np.int64]
    """Indices of the picture's points in it, shape (n,)."""
    done: ChordDisturbance
    """What the blip did to the brake."""


def picture_of(level: Level, judged: Judged, figure: Headline | None) -> Deviation | None:
    """Picture of the brake against the asked line; None where there is nothing to see.

    A foot that did not wait for the first knock is shown about that knock, against a brake let go.
    """
    task, done, grid = judged.task, judged.done, judged.grid
    point = task.signals.index(Signal.FALL)
    first = done.cues[0] if done.cues else done.began + nanoseconds(task.wait + task.cues[0])
    if not done.cues:
        waiting = cut(grid, first / SECOND, 0.0, BEFORE_CUE)
        return None if waiting is None else replace(waiting, cues=(0.0,), zero="let go")
    zero = (first + nanoseconds(task.cues[point] - task.cues[0])) / SECOND
    seconds = task.line[-1][0]
    picture = cut(grid, zero, 0.0, (-BEFORE, math.ceil(10 * (seconds + AFTER)) / 10))
    if picture is None:
        return None
    zone = judged.measured if isinstance(judged.measured, Zone) else None
    name = judged.verdict.worst if judged.verdict.reason in WEIGHED else ""
    lag = zone.work.line_lag if zone is not None and name in ALONG_THE_LINE else 0.0
    points = np.rint(1000 * picture.time).astype(np.int64)
    late = round(1000 * lag)
    picture = replace(
        picture,
        meant=np.where(points < 0, 0.0, asked_at(task.line, points, 0, late)),
        asked=((0.0, 0.0), task.line[0], *((at + lag, brake) for at, brake in task.line)),
        parts=((0.0, PARTS[0]), (seconds, PARTS[1])),
        cues=tuple(task.cues[act] - task.cues[point] for act in task.acts),
        reach=_top(level, task.target),
        zero="asked",
    )
    if zone is None:
        return _against(picture, picture.meant)
    return _measured(level, judged, zone, picture, figure)


def _top(level: Level, peak: float) -> float:
    """Top of the picture's scale, in % of brake: over the peak asked, and over what is allowed."""
    over = BEYOND * max((level.limits.get(name, 0.0) for name in OVER), default=0.0)
    return 5 * math.ceil(min(max(TOP * peak, peak + over), HIGHEST) / 5)


def _against(picture: Deviation, meant: NDArray[np.float64] | None) -> Deviation:
    """The picture of a brake with its deviation counted from another one, in %."""
    if meant is None:
        return picture
    return replace(picture, deviation=picture.deviation - meant, meant=meant)


def _measured(
    level: Level, judged: Judged, zone: Zone, picture: Deviation, figure: Headline | None
) -> Deviation:
    """Picture of a zone that was measured, with its limits and what decided."""
    work, verdict = zone.work, judged.verdict
    shift = judged.grid.index(round((picture.origin + float(picture.time[0])) * SECOND))
    run, windows, pulses = work.run, list[_Window](), list[Pulse]()
    peak, points = judged.task.target, np.arange(picture.time.size, dtype=np.int64)
    judged_points = (
        work.judged[(work.judged >= shift) & (work.judged < shift + points.size)] - shift
    )
    meant = np.array(picture.meant)

    def line(seconds: Values) -> Values:
        """Brake asked as late as the foot was, in %, at times in s as of the trace."""
        places = (seconds * SECOND - judged.grid.start) / STEP
        return asked_at(judged.task.line, places, zone.point, round(1000 * work.line_lag))

    meant[judged_points] = line(picture.time[judged_points] + picture.origin)
    for pulse, done in run.blips if isinstance(run, ChordRun) else ():
        pulses.append(pulse)
        if isinstance(done, ChordDisturbance):
            opens = pulse.first - FROM - shift
            stop = judged.grid.index(nanoseconds(done.stop)) - shift
            inside = points[(points >= opens) & (points < stop)]
            if inside.size:
                at = (judged.grid.start + (inside + shift) * STEP) / SECOND
                meant[inside] = chord_along(line, pulse, done, at)
                windows.append(_Window(_span(picture, inside), inside, done))
    squeezed = points[(points >= work.squeeze[0] - shift) & (points < work.squeeze[1] - shift)]
    decides_peak = verdict.worst == "peak_error" and verdict.reason in WEIGHED
    if decides_peak:
        meant[squeezed] = peak
    picture = _against(picture, meant)
    bounds = chord_bounds(level, [(window.span, window.done) for window in windows])
    if not decides_peak:
        bounds = [*_of_the_line(level, picture, judged_points), *bounds]
    blips = tuple((one.onset - picture.origin, one.end - picture.origin) for one in pulses)
    picture = replace(picture, bounds=tuple(bounds), blips=blips)
    timing = _timing(verdict, figure, picture, work) or timing_of(
        verdict, figure, picture, pulses, picture.cues, picture.origin
    )
    picture = replace(picture, timing=timing)
    if verdict.reason not in WEIGHED or figure is None:
        return picture
    return _decided(level, verdict, picture, windows, judged_points, squeezed, figure)


def _decided(
    level: Level,
    verdict: Verdict,
    picture: Deviation,
    windows: Sequence[_Window],
    on_line: NDArray[np.int64],
    squeezed: NDArray[np.int64],
    figure: Headline,
) -> Deviation:
    """The picture with the place, the limit, the average or the area that decided."""
    name = verdict.worst
    limit, value = level.limits[name], verdict.amount(name)
    if name in AREAS:
        spans = tuple(window.span for window in windows)
        return replace(picture, area=AREAS[name], within=spans)
    if name == "line_error" and on_line.size:
        return replace(picture, average=_average(verdict, figure, limit, picture, on_line))
    where, sign = on_line, math.copysign(1.0, value)
    low: float | None = -limit
    high: float | None = limit
    match name:
        case "dip" | "surge" if windows and value:
            sign = -1.0 if name == "dip" else 1.0
            window = max(windows, key=lambda one: one.done.dip if sign < 0 else one.done.surge)
            if sign > 0 and window.done.is_early:
                return picture
            where = window.inside
            low, high = (-limit, None) if sign < 0 else (None, limit)
        case "peak_error":
            brake = picture.drawn[squeezed]
            where, sign = squeezed[brake >= NEAR_THE_PEAK * brake.max(initial=0.0)], 1.0
        case "line_worst":
            pass
        case _:
            return picture
    if not where.size:
        return picture
    place = int(where[int(np.argmax(sign * picture.deviation[where]))])
    stretch = next(part for part in _stretches(where) if part[0] <= place <= part[-1])
    bound = Bound(allowed(figure), low, high, _span(picture, stretch))
    worst = WorstPlace(float(picture.time[place]), float(picture.deviation[place]), figure.value)
    return replace(picture, worst=worst, decides=bound)


def _timing(
    verdict: Verdict, figure: Headline | None, picture: Deviation, work: ZoneWork
) -> MarkedTime | None:
    """The time of the squeeze or of the end that decided; None where something else decided."""
    value = verdict.measures.get(verdict.worst)
    if figure is None or value is None or verdict.reason not in WEIGHED:
        return None
    turn_in = picture.parts[-1][0]
    match verdict.worst:
        case "brake_on":
            ends = (0.0, value)
        case "off_at":
            ends = (turn_in, turn_in + value)
        case "rise":
            ends = (work.brake_on, work.brake_on + value)
        case _:
            return None
    return MarkedTime(min(ends), max(ends), figure.value)


def _average(
    verdict: Verdict,
    figure: Headline,
    limit: float,
    picture: Deviation,
    on_line: NDArray[np.int64],
) -> Average:
    """Average distance from the line, on the side where the brake was farthest from it."""
    side = math.copysign(1.0, verdict.amount("line_worst"))
    size, most = side * verdict.amount("line_error"), side * limit
    return Average(
        line=(size, size),
        allowed=(most, most),
        during=tuple(_span(picture, part) for part in _long(_stretches(on_line))),
        label=figure.value,
        limit=allowed(figure),
        sides=(-1, 1),
    )


def _of_the_line(level: Level, picture: Deviation, on_line: NDArray[np.int64]) -> list[Bound]:
    """Limits on the brake's distance from its line, over the stretches in which it is judged."""
    limit = level.limits.get("line_worst")
    if limit is None or not on_line.size:
        return []
    label = f"line ±{plain(limit)} allowed"
    return [
        Bound("" if number else label, -limit, limit, _span(picture, part))
        for number, part in enumerate(_stretches(on_line))
    ]


def _stretches(points: NDArray[np.int64]) -> list[NDArray[np.int64]]:
    """Indices in parts without a gap, each with at least one."""
    return np.split(points, np.flatnonzero(np.diff(points) > 1) + 1)


def _long(stretches: Sequence[NDArray[np.int64]]) -> list[NDArray[np.int64]]:
    """Stretches that are long enough to be seen, or else the longest of them."""
    seen = [part for part in stretches if part.size >= 1000 * LONG]
    return seen or [max(stretches, key=len)]


def _span(picture: Deviation, points: NDArray[np.int64]) -> Span:
    """Time from the first to the last of a picture's points, in s on its axis."""
    return float(picture.time[points[0]]), float(picture.time[points[-1]])
