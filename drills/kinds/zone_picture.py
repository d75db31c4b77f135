"""Picture of a braking zone: the whole brake curve against the asked line, its parts marked."""

from __future__ import annotations

from drills.deviation import Deviation
from drills.level import Level
from drills.remark import Headline
from drills.score import Judged


def picture_of(level: Level, judged: Judged, figure: Headline | None) -> Deviation | None:
    """Picture of the brake against the asked line; None where there is nothing to see."""
    return None
