"""What kinds of drill share that measure the shift button; nothing changes without a button."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from drills.deviation import Deviation, MarkedTime
from drills.judging import pulses_on
from drills.kinds.shift_words import deciding
from drills.level import Level
from drills.measures.blip import Pulse
from drills.measures.clutch import in_order, tie
from drills.measures.sampling import report_interval
from drills.measures.shift import (
    SHIFT,
    SHIFT_BY_PLACE,
    farthest_shift,
    is_told,
    measure_shifts,
    presses_of,
)
from drills.remark import Headline
from drills.score import Judged, Reason
from drills.trace import Grid, Trace


def limits_of(level: Level, grid: Grid) -> Mapping[str, float]:
    """Limits of a level that a repetition is weighed by: the shift's only with a shift button.

    A button that was down all along tells of no shift, and counts as none.
    """
    if is_told(grid):
        return level.limits
    return {name: limit for name, limit in level.limits.items() if name != SHIFT}


def shift_measures(
    grid: Grid, pulses: Sequence[Pulse], *, by_place: bool = True
) -> Mapping[str, float | None]:
    """Measures of the shifts at the blips of a repetition by name; none without a shift button.

    `by_place` is whether each blip has one of its own too.
    """
    if not is_told(grid):
        return {}
    shifts = measure_shifts(grid, pulses)
    each = zip(SHIFT_BY_PLACE if by_place else (), shifts, strict=False)
    return {
        SHIFT: farthest_shift(shifts),
        **{name: None if shift is None else shift.shift_at for name, shift in each},
    }


def shift_out_of_order(trace: Trace, grid: Grid, pulses: Sequence[Pulse]) -> Reason | None:
    """Outcome where a shift under the clutch was out of order; None where it was in order.

    The order is clutch down, blip, shift, clutch up. Movements closer than the device can tell
    apart are in order, and so is a blip without a shift or without the clutch.
    """
    if grid.shift is None or grid.clutch is None:
        return None
    together = tie(report_interval(trace, pulses))
    for shift in measure_shifts(grid, pulses):
        if shift is None or shift.after_clutch is None:
            continue
        if not in_order(shift.before_blip, together):
            return Reason.SHIFT_FIRST
        if not in_order(shift.after_clutch, together):
            return Reason.SHIFT_LAST
    return None


def with_shifts(
    picture: Deviation | None, judged: Judged, figure: Headline | None
) -> Deviation | None:
    """The picture of a repetition with the presses of the shift button in it.

    Where a shift decided, the time between it and its blip's peak is marked with the `figure`.
    """
    grid = judged.grid
    if picture is None or grid.shift is None:
        return picture
    zero, (begins, ends) = picture.origin, picture.span
    times = [grid.seconds(press) - zero for press in presses_of(grid).tolist()]
    shown = replace(picture, shifts=tuple(time for time in times if begins <= time <= ends))
    value = deciding(judged.verdict)
    if value is None or figure is None or not figure.value[0].isdigit():
        return shown
    for shift in measure_shifts(grid, pulses_on(grid)):
        if shift is not None and shift.shift_at == value:
            at = (shift.peak - zero, shift.peak - zero + value)
            return replace(shown, timing=MarkedTime(min(at), max(at), figure.value))
    return shown
