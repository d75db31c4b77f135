"""Course of the road dip over drives, beside that of the drills: for history and report."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

import numpy as np

from engine.practice.changes import Change, Changed
from engine.practice.course import Course
from engine.practice.day_effects import DayEffects, day_effects, least
from engine.practice.level_days import comparable, level_days
from engine.road.drive import Drive
from engine.road.saved import all_drives, rig_drives
from engine.road.summary import Middle, middle_of
from engine.road.transfer import DAYS, DRILLED
from engine.store import History
from engine.store.changes import scale_start
from engine.store.courses import courses_of

MOST_DRIVES = 120
"""Largest number of drives in the course, the newest ones: the marks of more would touch."""
UNIT = "points"
"""Unit of the dips of drives and drills."""


@dataclass(frozen=True)
class DriveDay:
    """One drive in the course, with what the drills were like by then."""

    day: date
    """Local day of the drive."""
    road: Middle
    """Dips of the drive's scored blips."""
    drills: Mapping[str, float]
    """Dip in points by kind of drill, on today's level of that kind, on the last days with
    practice up to the drive; without kinds that cannot be told."""


@dataclass(frozen=True)
class RoadCourse:
    """Drives that may be compared with each other, and what is left out."""

    drives: tuple[DriveDay, ...] = ()
    """Drives with scored blips, oldest first."""
    older: int = 0
    """Number of drives left out because older definitions measured them."""
    other_rigs: int = 0
    """Number of drives left out because they were driven with other pedals."""
    other_scale: int = 0
    """Number of drives left out because they came before the brake's scale changed."""


NO_DRIVES = RoadCourse()
"""Course of a history without drives."""


def road_course(history: History, changes: Sequence[Change]) -> RoadCourse:
    """Course of the drives of the rig in use, on the newest scale of its brake.

    `changes` are those of that rig, oldest first. Raises StoreError.
    """
    known, of_rig = all_drives(history), rig_drives(history)
    if not known:
        return NO_DRIVES
    scales = [change.at for change in changes if change.what is Changed.SCALE]
    of_scale = [drive for drive in of_rig if not scales or drive.at > scales[-1]]
    current = [drive for drive in of_scale if drive.is_current]
    courses = courses_of(history, DRILLED, scale_start(history)) if current else {}
    return RoadCourse(
        drive_days(current, courses),
        older=len(of_scale) - len(current),
        other_rigs=len(known) - len(of_rig),
        other_scale=len(of_rig) - len(of_scale),
    )


def drive_days(drives: Sequence[Drive], courses: Mapping[str, Course]) -> tuple[DriveDay, ...]:
    """The newest drives with scored blips, each beside the drills, by kind, of the days before.

    What the drills are like is told with a level compared with itself: the geometric mean of the
    day effects at today's level over the last 10 days with practice of the kind that have one, up
    to the day of the drive. The first three days of a level have none.
    """
    found = sorted((drive for drive in drives if drive.dips), key=lambda drive: drive.at)
    effects = {
        kind: day_effects(comparable(level_days(course, least(UNIT))))
        for kind, course in courses.items()
    }
    return tuple(
        DriveDay(drive.at.date(), middle_of(drive.dips), _drills(effects, drive.at.date()))
        for drive in found[-MOST_DRIVES:]
    )


def _drills(effects: Mapping[str, DayEffects], day: date) -> dict[str, float]:
    """Dip in points by kind of drill on the last days with practice up to a day."""
    found = {}
    for kind in DRILLED:
        if kind in effects:
            logs = effects[kind].log[effects[kind].day <= day.toordinal()][-DAYS:]
            if logs.size:
                found[kind] = float(np.exp(logs.mean()))
    return found
