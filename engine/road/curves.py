"""Brake curves of all blips of a drive, and the median curve of the drills beside them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

import numpy as np

from drills.deviation import Deviation, of_chord
from drills.measures.blip import find_blips
from drills.measures.chord import ChordDisturbance, ChordRun, Unscorable
from drills.measures.distance import Stop
from drills.measures.runs import chord_runs
from drills.pieces import part, points
from drills.trace import STEP, Grid, Trace, nanoseconds
from drills.typical import median_of_most
from engine.drill.stored_picture import picture_of
from engine.road.transfer import ALIKE, DRILLED, SINGLE, drilled
from engine.store import History
from engine.store.changes import scale_start
from engine.store.courses import courses_of, traced_numbers
from engine.store.remeasure import remeasuring
from engine.store.repetitions import measures_of
from engine.store.traces import trace_of

AROUND = 0.5
"""Time on either side of a blip's window that is laid on a grid to draw it, in s."""
MOST_DRILLS = 60
"""Largest number of drills whose median curve is drawn, the newest ones: reading more takes time
and moves it little."""
LABELS = {ALIKE: "easing off in the drills", SINGLE: "single drill blips, against what was held"}
"""Labels in the chart for the median curve of each kind of drill."""


def chord_curves(trace: Trace, runs: Sequence[ChordRun | Unscorable]) -> Iterator[Deviation]:
    """Brake curve of each scored blip of a recording, minus its chord, in order of time."""
    for run in runs:
        for pulse, done in run.blips:
            if isinstance(done, ChordDisturbance):
                first, last = nanoseconds(pulse.onset - AROUND), nanoseconds(done.stop + AROUND)
                yield of_chord(part(trace, _point(trace, first), _point(trace, last)), pulse, done)


def drill_curve(history: History, day: date) -> tuple[str, Deviation] | None:
    """Label and median brake curve of the drills that a drive on this day is held against.

    It is of easing off, against its chord, if that was practised, else of single blips, against
    what was held. None if neither has a trace, or if the history is being remeasured. Raises
    StoreError.
    """
    if remeasuring(history) is not None:
        return None
    courses = courses_of(history, DRILLED, scale_start(history))
    for kind in DRILLED:
        numbers = drilled(courses[kind], day).numbers
        traced = set(traced_numbers(history, kind, date.min, day))
        newest = [number for number in numbers if number in traced][-MOST_DRILLS:]
        curves = [curve for number in newest for curve in _curves(history, kind, number)]
        if curves:
            return LABELS[kind], median_of_most(curves)
    return None


def _curves(history: History, kind: str, number: int) -> list[Deviation]:
    """Brake curves of the blips of one stored repetition."""
    if kind != ALIKE:
        picture = picture_of(history, number, measures_of(history, number))
        return [] if picture is None else [picture]
    trace = trace_of(history, number)
    if trace is None:
        return []
    grid = Grid.of(trace)
    return list(chord_curves(trace, chord_runs(grid, find_blips(grid), Stop())))


def _point(trace: Trace, at: int) -> int:
    """Index of the first grid point at or after a time in ns, clipped to the grid."""
    point = -((int(trace.time[0]) - at) // STEP)
    return int(np.clip(point, 0, points(trace)))
