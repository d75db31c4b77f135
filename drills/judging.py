"""Verdict on a performed repetition: jumps are taken out, then foot and pedals are judged.

Playing and remeasuring judge by the same functions, so that both take out the same jumps.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from drills.level import Level
from drills.measures.blip import Pulse, find_blips
from drills.measures.device import DeviceHistory, Watched, device_fault
from drills.measures.disturbance import AFTER, Unscored, pulses_of
from drills.measures.jumps import without_jumps
from drills.measures.sampling import report_interval
from drills.score import Judged, Reason, Verdict
from drills.task import Performance, Task
from drills.trace import STEP, Grid, nanoseconds

AFTER_TURN_IN = nanoseconds(0.5)
"""Time from the end of a brake's line to the end of the measured window, in ns."""


def judge_foot(level: Level, task: Task, done: Performance) -> Judged:
    """Verdict on what the foot did, as the pedals reported it but for jumps.

    Its performance holds the trace without the jumps.
    """
    trace, jumps = without_jumps(done.trace)
    return replace(level.kind.judge(level, task, replace(done, trace=trace)), jumps=jumps)


def judge_repetition(
    level: Level, task: Task, done: Performance, opens: int, before: DeviceHistory
) -> tuple[Judged, DeviceHistory]:
    """Verdict on a repetition played to its end, and what is known of the pedals after it.

    A repetition whose pedals told too little is void. The measured window begins at `opens` (ns);
    `before` is what is known of the pedals from earlier repetitions.
    """
    judged = judge_foot(level, task, done)
    trace = judged.done.trace
    pulses = pulses_on(judged.grid)
    watched = _watched(judged, pulses, opens)
    fault = device_fault(watched, before)
    after = before.after(trace, report_interval(trace, pulses))
    if fault is None:
        return judged, after
    verdict = Verdict(Reason(fault.kind.value), pedal=fault.pedal)
    return Judged(task, done, verdict, Grid.of(done.trace), jumps=judged.jumps), after


def pulses_on(grid: Grid) -> Sequence[Pulse]:
    """Throttle pulses on the grid of a repetition, in order; empty where none can be timed."""
    found = find_blips(grid)
    pulses = pulses_of(grid, found) if found else []
    return [] if isinstance(pulses, Unscored) else pulses


def _watched(judged: Judged, pulses: Sequence[Pulse], opens: int) -> Watched:
    """What the pedals of a repetition are judged by; its measured window begins at `opens` (ns).

    It ends with the last blip's window; where the brake follows a line, soon after the line's end:
    a foot that rests on the pedal from then on may leave it on one value.
    """
    task, done = judged.task, judged.done
    closes = int(done.trace.time[-1]) + STEP
    if not task.cues:
        closes = min(closes, done.began + nanoseconds(task.wait + task.lasts))
    elif task.line:
        turn_in = done.cues[0] + nanoseconds(task.cues[-1] - task.cues[0])
        closes = min(closes, turn_in + AFTER_TURN_IN)
    elif pulses:
        closes = min(closes, judged.grid.start + (pulses[-1].after + AFTER) * STEP)
    asked = max((brake for _, brake in task.line), default=math.inf)
    return Watched(done.trace, opens, closes, tuple(pulses), judged.jumps, asked)
