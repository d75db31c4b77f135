"""Picture of a braking zone: the whole brake curve against the asked line, its parts marked."""

from __future__ import annotations

from dataclasses import dataclass

from drills.deviation import Deviation
from drills.level import Level
from drills.measures.zone import ZoneWork
from drills.remark import Headline
from drills.score import Judged


@dataclass(frozen=True, eq=False)
class Zone:
    """What was measured of a zone, for its picture."""

    work: ZoneWork
    """Measures of the zone."""
    point: int
    """Grid index of the braking point."""
    beats: tuple[float, ...]
    """When each blip was due, in s on the time axis of the trace."""


def picture_of(level: Level, judged: Judged, figure: Headline | None) -> Deviation | None:
    """Picture of the brake against the asked line; None where there is nothing to see."""
    return None
