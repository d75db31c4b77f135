"""Picture of a blip that is in the history, made from its stored trace."""

from __future__ import annotations

from collections.abc import Mapping

from drills.deviation import AROUND_BLIP, Deviation, cut
from drills.trace import Grid
from engine.store import History
from engine.store.traces import trace_of

SHORTEST_AFTER = 1.0
"""Least time that a trace must go on after the blip, so that medians of many reach as far, s."""


def picture_of(
    history: History, number: int, measures: Mapping[str, float | None]
) -> Deviation | None:
    """One blip against what was held; None where it was not measured, or ended too early."""
    onset, base, trace = measures.get("onset"), measures.get("base"), trace_of(history, number)
    if onset is None or base is None or trace is None:
        return None
    picture = cut(Grid.of(trace), onset, base, AROUND_BLIP, throttle=False)
    return picture if picture is not None and picture.time[-1] >= SHORTEST_AFTER else None
