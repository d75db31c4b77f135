"""Pictures of blips on a held brake: the limits, and the place and the limit that decided."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from drills.deviation import (
    AROUND_BLIP,
    BEFORE_CUE,
    Bound,
    Deviation,
    Span,
    WorstPlace,
    cut,
    of_run,
    reach_of,
)
from drills.digits import plain
from drills.headline import allowed as allowed_words
from drills.kinds.timings import timing_of
from drills.level import Level
from drills.measures.blip import BEFORE_TO
from drills.measures.disturbance import AFTER, REST, Run
from drills.remark import Headline
from drills.score import WEIGHED, Judged, Reason, Verdict
from drills.trace import SECOND, STEP

IN_POINTS = ("dip", "mean_dip", "surge", "rebound", "offset", "swing")
"""Names of the measures whose limits set the scale of a blip's picture."""
AREAS = {"mean_dip": -1, "shortfall": -1, "extra_distance": -1, "excess": 1}
"""Side on which the whole area decided, by the measure that is made of it."""
ON_TARGET: Span = (0.1, 1.0)
"""Time that the picture of a brake off its target shows, in s before its window of what was held,
and after it."""


def run_with_picture(judged: Judged) -> tuple[Run, Deviation] | None:
    """Measured run of a repetition with its picture; None where either is missing."""
    run, cues = judged.measured, judged.done.cues
    if not isinstance(run, Run):
        return None
    asked = judged.task.acts[0]
    picture = of_run(judged.grid, run, cues[asked] / SECOND if asked < len(cues) else None)
    return None if picture is None else (run, picture)


def picture_about_cue(level: Level, judged: Judged) -> Deviation | None:
    """Picture of the brake against its target, about the first cue that was given or due."""
    task, done = judged.task, judged.done
    given = bool(done.cues)
    cue = done.cues[0] / SECOND if given else done.began / SECOND + task.wait + task.cues[0]
    picture = cut(judged.grid, cue, task.target, AROUND_BLIP if given else BEFORE_CUE)
    if picture is None:
        return None
    return replace(picture, cues=(0.0,), zero="target", reach=reach(level))


def reach(level: Level) -> float:
    """Reach of the scale, up and down, of the pictures of a level, in points."""
    return reach_of([limit for name, limit in level.limits.items() if name in IN_POINTS])


def is_of_target(verdict: Verdict) -> bool:
    """Whether what decided was how far the brake was from its target before the blip."""
    weighed = verdict.reason in WEIGHED
    return verdict.reason is Reason.OFF_TARGET or (weighed and verdict.worst == "base_error")


def against_target(
    level: Level, judged: Judged, window: slice, figure: Headline | None
) -> Deviation | None:
    """Picture of the brake against its target, about the window (grid) of what was held.

    Its tolerance is the limit that decided. Time 0 is the first cue.
    """
    verdict, grid, target = judged.verdict, judged.grid, judged.task.target
    cue = judged.done.cues[0] / SECOND
    opens, closes = (grid.seconds(at) - cue for at in (window.start, window.stop))
    picture = cut(grid, cue, target, (opens - ON_TARGET[0], closes + ON_TARGET[1]))
    if picture is None:
        return None
    weighed = verdict.reason in WEIGHED
    allowed = level.limits["base_error"] if weighed else level.approach_band
    within = Bound(f"{plain(allowed)} allowed", -allowed, allowed, (opens, closes))
    at, off = (opens + closes) / 2, verdict.amount("base_error")
    cues = tuple(at / SECOND - cue for at in judged.done.cues)
    shown = tuple(at for at in cues if at <= picture.span[1])
    worst = None if figure is None else WorstPlace(at, off, figure.value)
    scale = reach_of([allowed])
    return replace(picture, cues=shown, zero="target", reach=scale, decides=within, worst=worst)


def bounds(level: Level, run: Run) -> tuple[Bound, ...]:
    """Limits of a level that the picture of a run can show, each over the time it is judged in."""
    found = (bound(level, run, name) for name in level.limits)
    return tuple(one for one in found if one is not None)


def bound(level: Level, run: Run, name: str) -> Bound | None:
    """Limit on one measure of a run over its own window; None: the picture cannot show it."""
    at, band = level.limits[name], level.band
    first, final = run.blips[0][0], run.blips[-1][0]
    start, stop, last = (at - first.onset for at in (run.start, run.stop, final.onset))
    match name:
        case "dip":
            return Bound(f"dip {plain(at)} allowed", -at, None, (start, stop))
        case "surge":
            return Bound(f"overshoot {plain(at)} allowed", None, at, (start, stop))
        case "rebound":
            during = _after_the_dip(run)
            return Bound(f"coming back {plain(at)} allowed", None, at, during)
        case "offset":
            return Bound(f"end ±{plain(at)} allowed", -at, at, (stop - REST / 1000, stop))
        case "settle":
            return Bound(f"settled within {band:g}", -band, band, (min(last + at, stop), stop))
    return None


def decided(
    level: Level, verdict: Verdict, run: Run, picture: Deviation, figure: Headline | None
) -> Deviation:
    """The picture of a run with the place, the time, the limit and the area that decided."""
    name = verdict.worst
    pulses, zero = [pulse for pulse, _ in run.blips], run.blips[0][0].onset
    timing = timing_of(verdict, figure, picture, pulses, picture.cues, zero)
    if verdict.reason not in WEIGHED or not name:
        return replace(picture, timing=timing)
    place, limit = _place(level, verdict, run, picture), bound(level, run, name)
    if limit is not None and figure is not None and name != "settle":
        limit = replace(limit, label=allowed_words(figure))
    return replace(
        picture,
        timing=timing,
        decides=limit,
        worst=None if place is None or figure is None else WorstPlace(*place, number_of(figure)),
        area=AREAS.get(name, 0),
    )


def number_of(figure: Headline) -> str:
    """Number of a large figure, to be written at its place; empty where it is a word."""
    return figure.value if figure.value[0].isdigit() else ""


def _place(
    level: Level, verdict: Verdict, run: Run, picture: Deviation
) -> tuple[float, float] | None:
    """Time (s) and deviation (points) of the place that decided; None where there is none."""
    zero, (last, done) = run.blips[0][0].onset, run.blips[-1]
    stop = run.stop - zero
    match verdict.worst:
        case "dip" if verdict.amount("dip"):
            pulse, found = max(run.blips, key=lambda blip: blip[1].dip)
            return _on_curve(picture, pulse.onset - zero + found.dip_at)
        case "surge" if verdict.amount("surge"):
            pulse, found = max(run.blips, key=lambda blip: blip[1].surge)
            return _on_curve(picture, pulse.onset - zero + found.surge_at)
        case "rebound" if verdict.amount("rebound"):
            return _highest_after_dip(run, picture)
        case "offset":
            return stop - REST / 2000, verdict.amount("offset")
        case "swing":
            return _farthest(picture, (run.start - zero, stop))
        case "settle" if done.settle is not None:
            return _on_curve(picture, last.onset - zero + done.settle)
        case "settle":
            return _last_outside(picture, level.band, (last.onset - zero, stop))
    return None


def _on_curve(picture: Deviation, at: float) -> tuple[float, float] | None:
    """The point of the curve at a time in s; None outside of the picture."""
    place = int(np.searchsorted(picture.time, at - STEP / SECOND / 2))
    if place >= picture.time.size or at < float(picture.time[0]) - STEP / SECOND:
        return None
    return float(picture.time[place]), float(picture.deviation[place])


def _last_outside(picture: Deviation, band: float, window: Span) -> tuple[float, float] | None:
    """The last point of the curve in a window (s) that is outside a band about what was held."""
    seen = (picture.time >= window[0]) & (picture.time < window[1])
    outside = np.flatnonzero(seen & (np.abs(picture.deviation) > band))
    if not outside.size:
        return None
    place = int(outside[-1])
    return float(picture.time[place]), float(picture.deviation[place])


def _highest_after_dip(run: Run, picture: Deviation) -> tuple[float, float] | None:
    """The top of the brake after the dip of the blip whose rebound is the greatest."""
    dipped, ends = _after_the_dip(run)
    seen = np.flatnonzero((picture.time >= dipped) & (picture.time < ends))
    if not seen.size:
        return None
    # A brake that was let go ends the window early; the top is the point as high as measured.
    rebound = max(found.rebound for _, found in run.blips)
    gap = np.abs(picture.deviation[seen] - rebound)
    place = int(seen[int(np.argmin(gap))])
    return float(picture.time[place]), float(picture.deviation[place])


def _after_the_dip(run: Run) -> Span:
    """Time from the dip of the blip with the greatest rebound to the end of its window, in s."""
    zero = run.blips[0][0].onset
    number = max(range(len(run.blips)), key=lambda one: run.blips[one][1].rebound)
    pulse, found = run.blips[number]
    ends = min(run.stop, pulse.end + AFTER / 1000)
    if number + 1 < len(run.blips):
        ends = min(ends, run.blips[number + 1][0].onset - BEFORE_TO / 1000)
    return pulse.onset - zero + found.dip_at, ends - zero


def _farthest(picture: Deviation, window: Span) -> tuple[float, float] | None:
    """The point of the curve that is farthest from what was held, in a window (s)."""
    seen = np.flatnonzero((picture.time >= window[0]) & (picture.time < window[1]))
    if not seen.size:
        return None
    place = int(seen[int(np.argmax(np.abs(picture.deviation[seen])))])
    return float(picture.time[place]), float(picture.deviation[place])
