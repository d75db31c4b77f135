"""Blips that fall into a gap of a recording: what the brake did meanwhile nobody knows."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from drills.measures.chord import (
    BEFORE_FROM,
    ChordDisturbance,
    ChordRun,
    Unchorded,
    Unscorable,
    run_of_chords,
)
from drills.recording import LONG_GAP
from drills.trace import STEP, Times, Trace, nanoseconds


def without_gaps(
    trace: Trace, runs: Sequence[ChordRun | Unscorable]
) -> list[ChordRun | Unscorable]:
    """The same runs, but for blips with a gap of the recording in what they are measured over."""
    long = np.flatnonzero(np.diff(trace.time) > nanoseconds(LONG_GAP))
    gaps = trace.time[long], trace.time[long + 1]
    return [_without(run, *gaps) if isinstance(run, ChordRun) else run for run in runs]


def _without(run: ChordRun, begins: Times, ends: Times) -> ChordRun | Unscorable:
    """`begins` and `ends` are those of the gaps, in ns."""

    def gaping(onset: float, stop: float) -> bool:
        first, last = nanoseconds(onset) - BEFORE_FROM * STEP, nanoseconds(stop)
        return bool(np.any((begins < last) & (ends > first)))

    kept = [
        (
            pulse,
            Unchorded.GAP
            if isinstance(done, ChordDisturbance) and gaping(pulse.onset, done.stop)
            else done,
        )
        for pulse, done in run.blips
    ]
    return run if tuple(kept) == run.blips else run_of_chords(kept)
