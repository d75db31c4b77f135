"""`picture_of`: picture of a blip in the history, made from its stored trace."""

from __future__ import annotations

from collections.abc import Mapping

from drills.deviation import AROUND_BLIP, Deviation, cut
from drills.trace import Grid
from engine.store import History
from engine.store.traces import trace_of

SHORTEST_AFTER = 1.0
"""Shortest trace after the onset of a blip from which a picture is made, in s: medians of many
reach no farther."""


def picture_of(
    history: History, number: int, measures: Mapping[str, float | None]
) -> Deviation | None:
    """Picture of the brake around the blip of a stored repetition, which has this number.

    `measures` are its measures by name. None if the blip was not measured, or its trace is too
    short. Raises StoreError.
    """
    onset, base, trace = measures.get("onset"), measures.get("base"), trace_of(history, number)
    if onset is None or base is None or trace is None:
        return None
    picture = cut(Grid.of(trace), onset, base, AROUND_BLIP, throttle=False)
    return picture if picture is not None and picture.time[-1] >= SHORTEST_AFTER else None
