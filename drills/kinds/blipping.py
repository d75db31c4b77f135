"""What the drill kinds with blips share: level keys, limits and verdicts."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict, replace

from drills.kinds.asked_size import UNBOUNDED, off_size, peaks_asked
from drills.kinds.asked_words import PULSE
from drills.level import Level
from drills.measures.blip import (
    OFF,
    ON,
    PEAK_LEAST,
    Pulse,
    find_blips,
    find_jumps,
)
from drills.measures.disturbance import AFTER, OF_A_RUN, RELEASED, Run, Unscored, measure_run
from drills.score import Reason, Verdict, weigh
from drills.task import Move
from drills.trace import Grid, Pedal

OF_THE_BLIP = (
    "base_error",
    "onset",
    "end",
    "peak",
    "width",
    "rise",
    "fall",
    "reaction",
    "dip_at",
    "dip_at_50",
    "surge_at",
    "coupling",
    "lag",
)
"""Names of the measures of a single blip; onset and end are in s from the start of the trace."""
RECORDED = 1.5
"""How long a blip is waited for after its cue, in s; past the longest answer, to call it late."""
TAIL = 1.1
"""How long the pedals are recorded after the throttle is off, in s: the blip's window and more."""
UNSCORED = {
    Unscored.NO_BRAKE: Reason.LET_GO,
    Unscored.NO_BASE: Reason.NOT_SCORED,
    Unscored.NO_REST: Reason.LONG,
}
"""Outcome of a repetition whose run of blips cannot be measured, by the reason why not."""


def blip_moves(cue: int, within: float = RECORDED) -> tuple[Move, Move]:
    """The two pedal moves of a blip: throttle in, at most `within` s after its cue, and out."""
    return (
        Move(Pedal.THROTTLE, ON, up=True, within=within, cue=cue),
        Move(Pedal.THROTTLE, OFF, up=False, within=PULSE),
    )


def why_no_blip(grid: Grid, cue: int) -> Reason:
    """Outcome where no blip follows the cue (ns), by what the throttle did instead."""
    first, peak = grid.index(cue), _highest(grid, cue)
    if peak < ON:
        return Reason.NO_BLIP
    if peak < PEAK_LEAST:
        return Reason.LIGHT
    return Reason.SHORT if any(jump.top >= first for jump in find_jumps(grid)) else Reason.LONG


def find_off_size(level: Level, grid: Grid, cue: int, asked: int) -> Verdict | None:
    """Void verdict where a blip after the cue (ns) is not of the size asked; None otherwise.

    `asked` is how many blips are asked: the size of any beyond that does not matter. A tap too
    light for a blip is off its size too; a foot that does not answer the cue is judged by that.
    """
    found = find_blips(grid)
    peaks = [float(grid.throttle[blip.top]) for blip in found[:asked]]
    if asked and not found and why_no_blip(grid, cue) is Reason.LIGHT:
        peaks = [_highest(grid, cue)]
    return off_size(level, peaks)


def _highest(grid: Grid, cue: int) -> float:
    """Greatest throttle after the cue (ns), in %."""
    return float(grid.throttle[grid.index(cue) :].max(initial=0.0))


def shape_faults(level: Level, pulses: Sequence[Pulse]) -> Mapping[Reason, bool]:
    """Whether any throttle pulse was lighter, heavier or longer than a level asks, by outcome."""
    least, most = peaks_asked(level)
    return {
        Reason.LIGHT: any(pulse.peak < least for pulse in pulses),
        Reason.HEAVY: most < UNBOUNDED and any(pulse.peak > most for pulse in pulses),
        Reason.LONG: any(pulse.width > level.own["blip.longest"] for pulse in pulses),
    }


def first_that_holds(failed: Mapping[Reason, bool]) -> Reason | None:
    """The first outcome whose condition holds; None where none does."""
    return next((reason for reason, did in failed.items() if did), None)


def find_run(level: Level, grid: Grid, cue: int, base: slice, asked: int) -> Run | Verdict:
    """Run of blips on a grid, or the verdict where none can be measured, or one is off its size.

    `cue` (ns) is the first that was given, `base` the window of what was held before the foot
    could answer, `asked` how many blips are asked.
    """
    void = find_off_size(level, grid, cue, asked)
    if void is not None:
        return void
    found = find_blips(grid)
    if not found:
        return weigh({}, level.limits, why_no_blip(grid, cue))
    run = measure_run(grid, found, level.band, base=base)
    return weigh({}, level.limits, UNSCORED[run]) if isinstance(run, Unscored) else run


def is_brake_let_go(grid: Grid, run: Run) -> bool:
    """Whether the brake was off before the first blip, or was let go after the last one.

    A foot that leaves the brake during the pulse was pulled along by the blip: that is a dip.
    """
    if run.base < RELEASED:
        return True
    last = run.blips[-1][0]
    within = grid.brake[last.first : last.after]
    after = grid.brake[last.after : last.after + AFTER]
    return bool(within.min() >= RELEASED and after.min(initial=RELEASED) < RELEASED)


def measures_of(run: Run, reaction: float, target: float) -> dict[str, float | None]:
    """All measures of a run of blips by name: those of the run, then those of its first blip."""
    blip, disturbed = run.blips[0]
    single = {
        **asdict(disturbed),
        **asdict(blip),
        "base_error": run.base - target,
        "reaction": reaction,
    }
    whole = {name: getattr(run, name) for name in OF_A_RUN}
    return whole | {name: single[name] for name in OF_THE_BLIP}


def put_dip_first(verdict: Verdict, run: Run) -> Verdict:
    """The verdict, its worst measure the dip if that is over and the foot came off the brake."""
    off = run.base - run.dip < RELEASED
    return replace(verdict, worst="dip") if off and "dip" in verdict.over else verdict
