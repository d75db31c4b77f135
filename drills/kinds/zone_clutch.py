"""Order of the clutch in a braking zone, judged where the foot used it or the level asks for it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from drills.level import Level
from drills.measures.blip import Pulse
from drills.score import Reason
from drills.trace import Grid, Trace

OF_THE_CLUTCH = ("under_clutch",)
"""Names of the measures of the clutch in a zone."""


def clutch_faults(
    level: Level, grid: Grid, trace: Trace, pulses: Sequence[Pulse], beats: Sequence[float]
) -> tuple[Mapping[str, float | None], Reason | None]:
    """Measures of the clutch in a zone, and what was out of order; none where it was not used."""
    return {}, None
