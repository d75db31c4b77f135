"""The one way from a performed repetition to its verdict: jumps out, the foot, then the pedals.

Playing and remeasuring judge by the same functions, so that both take out the same jumps.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from drills.level import Level
from drills.measures.blip import Pulse, find_blips
from drills.measures.device import DeviceHistory, Watched, device_fault
from drills.measures.disturbance import AFTER, Unscored, pulses_of
from drills.measures.jumps import without_jumps
from drills.measures.sampling import report_interval
from drills.score import Judged, Reason, Verdict
from drills.task import Performance, Signal, Task
from drills.trace import STEP, Grid, nanoseconds

BEFORE_CUE, AFTER_CUE = nanoseconds(0.4), nanoseconds(0.1)
"""Time before and after a cue in which the brake is still held, in ns: none answers sooner."""
BEFORE_BEAT, UNTIL_BEAT = nanoseconds(0.9), nanoseconds(0.4)
"""Times before the first beat between which the brake is held in a counted-in run, in ns."""
AT_LAST = nanoseconds(0.5)
"""Time at the end of a squeeze in which the brake is held, in ns."""
ROLLING = nanoseconds(0.1)
"""Time before the onset of a blip in which the foot begins to roll, in ns."""


def judge_foot(level: Level, task: Task, done: Performance) -> Judged:
    """Verdict on what the foot did, its pedals taken at their word but for jumps.

    The performance in it has the trace without the jumps.
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
    """The parts of a repetition in which its pedals are judged; `opens` is in ns."""
    task, done, grid = judged.task, judged.done, judged.grid
    last = int(done.trace.time[-1]) + STEP
    if not task.cues:
        begins = done.began + nanoseconds(task.wait)
        held = moved = (begins, min(begins + nanoseconds(task.lasts), last))
    else:
        held, moved = _held(task, done), (done.cues[0], last)
        if pulses:
            first, after = (grid.start + at * STEP for at in (pulses[0].first, pulses[-1].after))
            moved = (first - ROLLING, min(after + AFTER * STEP, last))
    return Watched(done.trace, opens, held, moved, tuple(pulses), judged.jumps)


def _held(task: Task, done: Performance) -> tuple[int, int]:
    """Window in which a repetition with cues has the brake held, in ns."""
    cue = done.cues[0]
    if not task.begins_on_target:
        end = cue + nanoseconds(task.lasts)
        return end - AT_LAST, end
    if Signal.COUNT in task.signals:
        beat = cue + nanoseconds(task.cues[task.acts[0]] - task.cues[0])
        return beat - BEFORE_BEAT, beat - UNTIL_BEAT
    return cue - BEFORE_CUE, cue + AFTER_CUE
