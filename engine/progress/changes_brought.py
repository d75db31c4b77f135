"""What each change that the player marked brought: the dip of single blips before and with it.

A dip grows with its blip. So both the dips as they were and as they would be at blips of one size
(`engine.practice.blip_size`) are compared, and a difference is told only where both show it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from enum import Enum

import numpy as np
from numpy.typing import NDArray

from engine.practice.before_after import (
    EARLIEST,
    FEWEST,
    BeforeAfter,
    Sides,
    before_after,
    days_on,
    sides,
)
from engine.practice.blip_size import BLIP
from engine.practice.changes import Change, Changed
from engine.practice.course import Course
from engine.practice.level_days import LevelDays, comparable, level_days
from engine.progress.typical_blip import APART

LEAST = 0.1
"""Smallest dip compared, in points: any below is raised to it, to have a logarithm."""
MOST = 5
"""Newest changes that are compared, as a count."""


class Told(Enum):
    """What can be told of a change."""

    TOO_FEW = "too few days"
    UNSURE = "cannot be told"
    BLIPS_DIFFER = "the blips differ"
    """The dips as they were show a difference that those of one size of blip do not show, and the
    typical blip changed."""
    BETTER = "better"
    WORSE = "worse"


@dataclass(frozen=True)
class Brought:
    """What one change brought."""

    change: Change
    """The change that the player marked."""
    days: int
    """Days with practice since, that enter the comparison, as a count."""
    is_open: bool
    """Whether more days can still enter the comparison."""
    dips: BeforeAfter | None = None
    """Dips before and with the change, in points; None where there are too few days."""
    at_one_size: BeforeAfter | None = None
    """The same as they would be at blips of one size, in points; None likewise."""
    blips: tuple[float, float] | None = None
    """Median throttle at the peak of a blip before and with it, in %; None where not known."""
    enough_before: bool = True
    """Whether enough days before it enter the comparison."""
    is_early: bool = False
    """Whether it is too early to compare, however many days there are."""

    @property
    def compared_from(self) -> date:
        """Local day from which the days before and with the change are compared."""
        return self.change.at.date() + EARLIEST

    @property
    def told(self) -> Told:
        """What can be told: a difference only where both dips show it."""
        if self.dips is None or self.at_one_size is None:
            return Told.TOO_FEW
        if not self.dips.is_told:
            return Told.UNSURE
        if not self.at_one_size.is_told and self._are_blips_alike:
            return Told.UNSURE
        if not self.at_one_size.is_told or self.dips.step * self.at_one_size.step < 0:
            return Told.BLIPS_DIFFER
        return Told.BETTER if self.dips.step < 0 else Told.WORSE

    @property
    def unsure(self) -> BeforeAfter | None:
        """The comparison that may be luck: that of the dips as they were, where both may be."""
        dips = self.dips
        return self.at_one_size if dips is not None and dips.is_told else dips

    @property
    def _are_blips_alike(self) -> bool:
        """Whether the typical blip stayed the same, so that no blip made the dip another."""
        return self.blips is not None and abs(self.blips[1] - self.blips[0]) <= APART


def brought(
    changes: Sequence[Change], dips: Course, peaks: NDArray[np.float64], today: date
) -> tuple[Brought, ...]:
    """What the newest changes brought that the player marked, oldest first.

    `changes` are all there are, `dips` is the course of single blips, and `peaks` has the throttle
    at each of its blips in %. Each change is compared on the brake's scale of its time.
    """
    marked = [change for change in changes if change.what.by_player][-MOST:]
    if not marked:
        return ()
    sized = replace(dips, value=dips.value * BLIP / np.where(peaks > 0, peaks, np.nan))
    blips = replace(dips, value=peaks)
    others = [change.at.date() for change in changes if change.what is not Changed.SET_UP]
    begins = [_scale_begin(change, changes) for change in marked]
    found = {after: (_level_days(dips, after), _level_days(sized, after)) for after in set(begins)}
    return tuple(
        _brought(change, others, *found[after], blips, today)
        for change, after in zip(marked, begins, strict=True)
    )


def _level_days(course: Course, after: int) -> LevelDays:
    """Level-days to compare of the repetitions numbered above `after`."""
    return comparable(level_days(course.only(course.number > after), LEAST))


def _scale_begin(change: Change, changes: Sequence[Change]) -> int:
    """Number of the newest repetition before the brake had the scale that it has with a change.

    0 if the brake never had another one. A later scale needs no number, as `sides` ends before it.
    """
    day = change.at.date()
    scales = [one for one in changes if one.what is Changed.SCALE and one.at.date() <= day]
    return max((one.after for one in scales), default=0)


def _brought(
    change: Change,
    others: Sequence[date],
    found: LevelDays,
    at_one_size: LevelDays,
    blips: Course,
    today: date,
) -> Brought:
    day = change.at.date()
    compared = sides(day, others)
    so_far = Brought(
        change,
        days_on(found, compared.after),
        today < compared.after[1],
        enough_before=days_on(found, compared.before) >= FEWEST,
        is_early=today < day + EARLIEST,
    )
    if so_far.is_early:
        return so_far
    return replace(
        so_far,
        dips=before_after(found, day, compared),
        at_one_size=before_after(at_one_size, day, compared),
        blips=_typical(blips, compared),
    )


def _typical(blips: Course, compared: Sides) -> tuple[float, float] | None:
    """Median blip before a change and with it, in %; None where one side has none."""
    sides_of = [
        blips.value[
            (blips.day >= first.toordinal())
            & (blips.day <= last.toordinal())
            & np.isfinite(blips.value)
        ]
        for first, last in (compared.before, compared.after)
    ]
    if not all(side.size for side in sides_of):
        return None
    before, after = (float(np.median(side)) for side in sides_of)
    return before, after
