"""Words that put the typical blip beside a typical dip: a dip grows with the blip that makes it."""

from __future__ import annotations

from collections.abc import Sequence

from drills.measures.catalogue import CATALOGUE
from engine.practice.blip_size import BLIP
from engine.progress.bins import CalendarBin

APART = 5.0
"""Difference between two typical blips above which their scaled dips are said too, in points."""


def size_words(peaks: Sequence[float]) -> str:
    """Sentence on the typical blip in %, that of the first days and of the newest."""
    sizes = [CATALOGUE["peak"].written(peak) for peak in peaks]
    if len(sizes) < 2 or sizes[0] == sizes[-1]:
        return f"Typical blip: {sizes[-1]} throttle."
    return f"Typical blip: {sizes[0]} throttle at first, then {sizes[-1]}."


def scaled_words(peaks: Sequence[float], dips: Sequence[float]) -> list[str]:
    """Sentence with two typical dips at blips of one size; none where the blips were alike.

    `peaks` are the typical blips in %, `dips` the typical scaled dips in points, both of the first
    days and then of the newest.
    """
    if max(peaks, default=0.0) - min(peaks, default=0.0) <= APART:
        return []
    first, second = (f"{value:.1f}" for value in dips)
    dipped = CATALOGUE["dip"].with_unit(second)
    return [f"At blips of {BLIP:g} %: {first} at first, then {dipped}."]


def median_in(bins: Sequence[CalendarBin], like: CalendarBin) -> float | None:
    """Median of the newest of these bins that begins on the same day as another; None for none."""
    return next((one.middle for one in reversed(bins) if one.first == like.first), None)
