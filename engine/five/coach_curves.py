"""Curves of stored blips for the coach: the typical one with a fault, marked, and those without."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import islice

import numpy as np

from drills.deviation import (
    AROUND_BLIP,
    LEAST_REACH,
    UPWARD,
    Bound,
    Deviation,
    Span,
    WorstPlace,
    cut,
)
from drills.fault import Fault
from drills.measures.definition import DEFINITION
from drills.measures.jumps import without_jumps
from drills.number_words import counted
from drills.trace import Grid
from engine.drill.stored_picture import SHORTEST_AFTER
from engine.kit.curve_overlay import median_curve
from engine.store import History
from engine.store.remeasure import stored_repetition
from engine.store.repetitions import read_measures

WITH_FAULT = 8
"""Most blips with the fault whose traces are read, the newest, as a count."""
WITHOUT = 4
"""Most blips without a fault whose traces are read, the newest, as a count."""
SPARE = 1.15
"""Reach of the scale as a multiple of what the typical curve needs, so that it has room."""
FALLS: Span = (-0.3, 0.9)
"""Time in which the typical brake falls with a blip, in s from the onset of the throttle."""
RESTS = 1.2
"""Moment at which the typical brake has come to rest after a blip, in s from the same."""
BEFORE: Span = (-0.5, 0.0)
"""Time before the throttle in which the typical brake is off its target, in s from the same."""


@dataclass(frozen=True)
class CoachCurves:
    """What the picture of the coach is drawn from."""

    typical: Deviation
    """Typical curve of the blips with the fault, with what is wrong marked on it."""
    count: int
    """Blips that it is typical of, as a count."""
    without: tuple[Deviation, ...] = ()
    """Curves of blips without a fault."""


def coach_curves(
    history: History, found: Sequence[tuple[int, Fault | None]], fault: Fault | None
) -> CoachCurves | None:
    """Curves of the newest blips with a fault and without one; None where no trace can be drawn.

    `found` are the numbers of repetitions with their faults, oldest first. Reads at most WITH_FAULT
    and WITHOUT traces. Without a `fault` the typical curve is of all. Raises StoreError.
    """
    newest = [*reversed(found)]
    having = [number for number, one in newest if fault is None or one is fault]
    clean = [number for number, one in newest if fault is not None and one is None]
    blips = _blips(history, having, fault, WITH_FAULT)
    if not blips:
        return None
    beside = tuple(_blips(history, clean, fault, WITHOUT))
    return CoachCurves(typical_of(blips, fault), len(blips), beside)


def typical_of(pictures: Sequence[Deviation], fault: Fault | None) -> Deviation:
    """Typical curve of some blips, on a scale of its own, with the fault of the brake marked on it.

    A fault of the throttle is marked where its picture is drawn.
    """
    curve = median_curve(pictures)
    pedals = [
        np.interp(curve.time, one.time, one.throttle)
        for one in pictures
        if one.throttle is not None
    ]
    needed = max(-float(curve.deviation.min()), float(curve.deviation.max()) / UPWARD)
    reach = 5.0 * math.ceil(max(SPARE * needed, LEAST_REACH) / 5)
    curve = replace(curve, reach=reach, throttle=np.median(pedals, axis=0) if pedals else None)
    match fault:
        case None | Fault.BIG | Fault.SLOW:
            return curve
        case Fault.EARLY_ROLL:
            # Filled is only what the brake lost before the throttle.
            early = Bound("", None, None, (curve.span[0], 0.0))
            return replace(curve, worst=_worst(curve, fault), decides=early)
        case _:
            return replace(curve, worst=_worst(curve, fault))


def _worst(curve: Deviation, fault: Fault) -> WorstPlace | None:
    """Place on the typical curve that shows a fault; None where it does not show there."""
    lowest = _farthest(curve, FALLS, -1)
    match fault:
        case Fault.EARLY_ROLL:
            k, way = _at(curve, 0.0), -1
        case Fault.BRACING:
            k, way = _farthest(curve, (curve.span[0], float(curve.time[lowest])), 1), 1
        case Fault.OVERSHOOT:
            k, way = _farthest(curve, (float(curve.time[lowest]), curve.span[1]), 1), 1
        case Fault.LIGHT:
            k, way = _at(curve, RESTS), -1
        case Fault.HEAVY:
            k, way = _at(curve, RESTS), 1
        case Fault.LOST:
            before = (curve.time >= BEFORE[0]) & (curve.time <= BEFORE[1])
            way = 1 if float(np.median(curve.deviation[before])) > 0 else -1
            k = _farthest(curve, BEFORE, way)
        case _:
            k, way = lowest, -1
    off = float(curve.deviation[k])
    points = round(way * off)
    if points < 1:
        return None
    return WorstPlace(float(curve.time[k]), off, counted(points, "point"))


def _at(curve: Deviation, moment: float) -> int:
    """Index of the curve at a moment, in s, or of its end nearest to it."""
    return int(np.argmin(np.abs(curve.time - moment)))


def _farthest(curve: Deviation, during: Span, way: int) -> int:
    """Index of the curve's farthest place up (1) or down (-1) in a time, in s."""
    inside = np.flatnonzero((curve.time >= during[0]) & (curve.time <= during[1]))
    if not inside.size:
        return int(curve.time.size - 1)
    return int(inside[np.argmax(way * curve.deviation[inside])])


def _blips(
    history: History, numbers: Sequence[int], fault: Fault | None, most: int
) -> list[Deviation]:
    """Curves of blips by their numbers, from at most so many traces. Raises StoreError."""
    held = islice((number for number in numbers if _is_on_held_brake(history, number)), most)
    found = (_stored(history, number, fault) for number in held)
    return [blip for blip in found if blip is not None]


def _is_on_held_brake(history: History, number: int) -> bool:
    """Whether a blip was measured against a held brake, not against a chord on the way down."""
    with history.reading() as db:
        measures = read_measures(db, number)
    return measures.get("onset") is not None and measures.get("base") is not None


def _stored(history: History, number: int, fault: Fault | None) -> Deviation | None:
    """Curve of a stored blip; None where it has no trace, or was measured otherwise or not."""
    stored = stored_repetition(history, number)
    if stored is None or stored.done is None or stored.definition != DEFINITION:
        return None
    onset, base = stored.measures.get("onset"), stored.measures.get("base")
    if onset is None or base is None:
        return None
    is_lost = fault is Fault.LOST
    grid = Grid.of(without_jumps(stored.done.trace)[0])
    picture = cut(grid, onset, stored.target if is_lost else base, AROUND_BLIP)
    if picture is None or picture.time[-1] < SHORTEST_AFTER:
        return None
    return replace(picture, zero="target") if is_lost else picture
