"""Steadiness over the days, read from the history: each day's, and the step from first to now."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from drills.level import Level
from engine.five.player_history import BLIPS, steadiness_blips
from engine.practice.results import Purpose
from engine.practice.steadiness import (
    DaySteadiness,
    SteadinessBlip,
    SteadinessStep,
    counted,
    steadiness,
    step_of,
)
from engine.store import History

ALL = 1_000_000
"""Number of steadiness blips to read, so that all are: more than anyone plays."""
DAYS = 120
"""Largest number of days on the chart of steadiness: the marks of more would touch."""


@dataclass(frozen=True)
class SteadinessDays:
    """Steadiness over the days, and how far the first one is."""

    days: tuple[DaySteadiness, ...]
    """Steadiness at the end of each day, or of every n-th day if they are many, oldest first."""
    step: SteadinessStep | None
    """Step from the first steadiness on the brake's newest scale to the present one, if any."""
    blips: int
    """Blips on the brake's newest scale that steadiness counts, as a count."""


def steadiness_days(history: History, band: Level, scales: Sequence[int]) -> SteadinessDays:
    """Steadiness over all days with blips of `band`, the steadiness drill. Raises StoreError.

    `scales` are the numbers of the newest repetitions before the brake's scale changed: no value
    is computed from blips on two scales.
    """
    blips = steadiness_blips(history, band, Purpose.BAND, count=ALL, after=0)
    begins = [
        len(blips) - len(steadiness_blips(history, band, Purpose.BAND, count=ALL, after=after))
        for after in scales
    ]
    of_scale = blips[begins[-1] if begins else 0 :]
    return SteadinessDays(
        tuple(_days(blips, begins)),
        step_of(of_scale),
        len(counted(of_scale)),
    )


def _days(blips: Sequence[SteadinessBlip], begins: Sequence[int]) -> Iterator[DaySteadiness]:
    """Steadiness at the end of each day, each from blips since the scale last changed.

    `begins` are the indices of the first blips on another scale.
    """
    ends = {blip.day: count for count, blip in enumerate(blips, start=1)}
    every = max(-(-len(ends) // DAYS), 1)
    for day in reversed(sorted(ends)[::-every]):
        end = ends[day]
        begin = max((begin for begin in begins if begin < end), default=0)
        found = steadiness(blips[max(end - BLIPS, begin) : end])
        if found is not None:
            yield DaySteadiness(day, found.value, found.low, found.high)
