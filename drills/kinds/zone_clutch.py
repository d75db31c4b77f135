"""Order of the clutch in a braking zone, judged where the foot used it or the level asks for it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from drills.kinds.blipping import first_that_holds
from drills.level import Level
from drills.measures.blip import Pulse
from drills.measures.clutch import DOWN, in_order, measure_strokes, tie
from drills.measures.sampling import report_interval
from drills.score import Reason
from drills.trace import Grid, Pedal, Trace

OF_THE_CLUTCH = ("under_clutch",)
"""Names of the measures of the clutch in a zone: the least share among its blips."""


def clutch_faults(
    level: Level, grid: Grid, trace: Trace, pulses: Sequence[Pulse], point: int
) -> tuple[Mapping[str, float | None], Reason | None]:
    """Measures of the clutch in a zone, and what was out of order; none where it was not used.

    A clutch that went to 50 % from the braking point on, at grid index `point`, was used. A level
    that names the clutch among its pedals asks for it.
    """
    is_asked, clutch = Pedal.CLUTCH in level.pedals, grid.clutch
    if clutch is None or not pulses:
        return {}, Reason.NO_CLUTCH if is_asked else None
    if not is_asked and float(clutch[point:].max(initial=0.0)) < DOWN:
        return {}, None
    blips = measure_strokes(clutch, point, pulses)
    together = tie(report_interval(trace, pulses))
    down = [blip.down_late for blip in blips]
    up = [blip.up_early for blip in blips if blip.down_late is not None]
    return {"under_clutch": min(blip.under_clutch for blip in blips)}, first_that_holds(
        {
            Reason.NO_CLUTCH: None in down,
            Reason.BLIP_FIRST: not _are_in_order(down, together),
            Reason.CLUTCH_STAYED: None in up,
            Reason.CLUTCH_FIRST: not _are_in_order(up, together),
        }
    )


def _are_in_order(lates: Sequence[float | None], together: float) -> bool:
    """Whether all movements that were made came in order, or less than `together` s too late."""
    return all(late is None or in_order(late, together) for late in lates)
