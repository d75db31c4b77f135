"""`summary_of`: the blips of a drive in a few figures, for the terminal, the screen and JSON."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median

import numpy as np

from engine.road.blips import RoadBlip

PLACE_LEAST = 8
"""Fewest scored blips of a place in the run whose typical dip is told, as a count: the median of
fewer is not sure enough to be held against another place."""


@dataclass(frozen=True)
class Middle:
    """Median of some dips, and the middle half of them."""

    count: int
    """Number of dips."""
    dip: float
    """Median dip, in points."""
    low: float
    """Lower quartile of the dips, in points, interpolated linearly."""
    high: float
    """Upper quartile of the dips, in points, interpolated linearly."""


@dataclass(frozen=True)
class BlipsAtPlace:
    """Scored blips that have the same place in their runs, such as all second ones."""

    place: int
    """Number of the blips within their runs, from 1."""
    count: int
    """Number of these blips."""
    dip: float
    """Median dip of these blips, in points."""


@dataclass(frozen=True)
class Summary:
    """The blips of a drive in a few figures."""

    blips: int
    """Number of all blips."""
    reasons: tuple[tuple[str, int], ...]
    """Reasons why blips are not scored, each with their number, the most frequent first."""
    typical: Middle | None
    """Dips of the scored blips; None if there are none."""
    peak: float | None
    """Median of the highest throttle of the scored blips, in %; None if there are none."""
    worst: float | None
    """Deepest dip, in points; None if no blip is scored."""
    carry: float | None
    """Median change of the brake that is taken as meant, in points; None where none is known."""
    early: int
    """Number of blips at which the brake left before the throttle."""
    early_known: int
    """Number of blips of which that is known."""
    early_dip: float | None
    """Median of how far the brake had left by then at the `early` blips, in points; None if there
    are none."""
    places: tuple[BlipsAtPlace, ...]
    """Places in the run with enough scored blips, the first place first; empty if it is one."""
    extra_distance: float | None
    """Largest extra stopping distance of one blip, in m: an estimate, and at most; None where it
    is not known."""

    @property
    def scored(self) -> int:
        """Number of scored blips."""
        return self.typical.count if self.typical is not None else 0


def summary_of(blips: Sequence[RoadBlip]) -> Summary:
    """The blips of a drive, in order of time, in a few figures."""
    scored = [blip for blip in blips if blip.dip is not None]
    dips = [blip.dip for blip in scored if blip.dip is not None]
    carries = [blip.carry for blip in scored if blip.carry is not None]
    costs = [blip.extra_distance for blip in scored if blip.extra_distance is not None]
    early = [blip.early for blip in blips if blip.is_early and blip.early is not None]
    reasons = Counter(blip.reason for blip in blips if blip.dip is None)
    return Summary(
        blips=len(blips),
        reasons=tuple(reasons.most_common()),
        typical=middle_of(dips) if dips else None,
        peak=median(blip.peak for blip in scored) if scored else None,
        worst=max(dips, default=None),
        carry=median(carries) if carries else None,
        early=len(early),
        early_known=sum(blip.early is not None for blip in blips),
        early_dip=median(early) if early else None,
        places=_places(scored),
        extra_distance=max(costs, default=None),
    )


def middle_of(dips: Sequence[float]) -> Middle:
    """Median and middle half of some dips in points, at least one."""
    low, middle, high = np.quantile(dips, [0.25, 0.5, 0.75]).tolist()
    return Middle(len(dips), middle, low, high)


def _places(scored: Sequence[RoadBlip]) -> tuple[BlipsAtPlace, ...]:
    dips: dict[int, list[float]] = {}
    for blip in scored:
        if blip.dip is not None:
            dips.setdefault(blip.place, []).append(blip.dip)
    found = tuple(
        BlipsAtPlace(place, len(dips[place]), median(dips[place]))
        for place in sorted(dips)
        if len(dips[place]) >= PLACE_LEAST
    )
    return found if len(found) > 1 else ()
