"""What a braking zone asked and was not done: the most telling thing of it."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise

from drills.kinds.blipping import UNSCORED, first_that_holds, shape_faults
from drills.kinds.zone_picture import Zone
from drills.level import Level
from drills.measures.chord import Unchorded
from drills.measures.disturbance import Unscored
from drills.measures.let_go import came_back, is_let_go
from drills.score import Reason, within
from drills.task import Task
from drills.trace import Grid, nanoseconds

FARTHEST = 0.5
"""Farthest from its beat that a blip still answers it, in s; of closer beats half the time between
them."""


def shortcoming_of(
    level: Level, grid: Grid, task: Task, zone: Zone, measures: Mapping[str, float | None]
) -> Reason | None:
    """Outcome of a zone in which something asked was not done; None where all was.

    A brake that was let go comes first, as nothing after it was braking; then the number of blips,
    then their beats: a dip at a blip that answers no beat says little.
    """
    work, asked = zone.work, len(zone.beats)
    pulses = work.pulses
    if isinstance(work.run, Unscored):
        return UNSCORED[work.run]
    closest = min((after - before for before, after in pairwise(zone.beats)), default=2 * FARTHEST)
    failed = {done for _, done in work.blips if isinstance(done, Unchorded)}
    return first_that_holds(
        {
            Reason.LET_GO: _is_let_go(grid, task, zone),
            Reason.NO_BLIP: not pulses,
            Reason.FEW_BLIPS: len(pulses) < asked,
            Reason.EXTRA_BLIP: len(pulses) > asked,
            Reason.OFF_BEAT: not within(measures.get("lateness"), min(closest / 2, FARTHEST)),
            Reason.CUT_SHORT: Unchorded.RELEASED in failed,
            Reason.NOT_SCORED: bool(failed),
            **shape_faults(level, pulses),
        }
    )


def _is_let_go(grid: Grid, task: Task, zone: Zone) -> bool:
    """Whether the brake was let go before the last blip asked, or came off and was pressed again.

    A brake that came off with the last blip, and stayed off, was cut short.
    """
    work, asked, point = zone.work, len(zone.beats), zone.point
    answers = work.pulses[:asked]
    last = answers[-1].first if len(answers) == asked else grid.index(nanoseconds(zone.beats[-1]))
    if is_let_go(grid, work, point, task.line, answers, last):
        return True
    turn_in = point + round(1000 * task.line[-1][0])
    return len(work.pulses) == asked and any(
        came_back(grid, pulse.after, turn_in)
        for pulse, done in work.blips
        if done is Unchorded.RELEASED and pulse.first > work.squeeze[0]
    )
