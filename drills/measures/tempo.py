"""Measures of the timing of a run's blips: how even they were, and how near to their cues."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from drills.trace import SECOND, nanoseconds


def spacing_error(onsets: Sequence[float], tempo: float) -> float | None:
    """Root mean square of how far the times between blips were from the tempo, in s.

    `onsets` (s, ascending) are those of one run, `tempo` is s from one to the next. None for
    fewer than two: between them there is no time. Each difference is of whole ns, so that one on a
    limit is not over it.
    """
    off = [_difference(after - before, tempo) for before, after in pairwise(onsets)]
    return math.sqrt(sum(error**2 for error in off) / len(off)) if off else None


def lateness(onsets: Sequence[float], cues: Sequence[float]) -> tuple[float, ...]:
    """How long after its own cue each blip came, in s; negative where it came before it.

    The times are of whole ns, so that one on a limit is not over it. Raises ValueError unless
    there are as many onsets (s) as cues (s).
    """
    if len(onsets) != len(cues):
        raise ValueError(f"expected a blip to each of {len(cues)} cues, found {len(onsets)}")
    return tuple(_difference(onset, cue) for onset, cue in zip(onsets, cues, strict=True))


def _difference(time: float, other: float) -> float:
    """One time less another, in s, without the error of their binary fractions."""
    return nanoseconds(time - other) / SECOND


def farthest(values: Sequence[float]) -> float:
    """The value farthest from 0, with its sign; of two as far the first. 0 where there is none."""
    return max(values, key=abs, default=0.0)
