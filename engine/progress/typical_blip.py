"""Words that put the typical blip beside a typical dip: a dip grows with the blip that makes it."""

from __future__ import annotations

from collections.abc import Sequence

from drills.measures.catalogue import CATALOGUE
from engine.practice.blip_size import BLIP
from engine.progress.bins import CalendarBin

APART = 5.0
"""Difference between two typical blips above which their scaled dips are said too, in points."""


def at_blips(peak: float | None) -> str:
    """Words for the typical blip beside a dip, such as ", at blips of 45 %"; empty for none."""
    return "" if peak is None else f", at blips of {CATALOGUE['peak'].written(peak)}"


def scaled_words(peaks: Sequence[float], dips: Sequence[float]) -> list[str]:
    """Sentence with two typical dips at blips of one size; none where the blips were alike.

    `peaks` are the typical blips in %, `dips` the typical scaled dips in points, in the same order.
    """
    if max(peaks, default=0.0) - min(peaks, default=0.0) <= APART:
        return []
    first, second = (f"{value:.1f}" for value in dips)
    return [f"At blips of {BLIP:g} %: {first} and {CATALOGUE['dip'].with_unit(second)}."]


def median_in(bins: Sequence[CalendarBin], like: CalendarBin) -> float | None:
    """Median of the newest of these bins that begins on the same day as another; None for none."""
    return next((one.middle for one in reversed(bins) if one.first == like.first), None)
