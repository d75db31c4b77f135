"""What the drill kinds with blips share: level keys, limits, verdicts, sentences and pictures."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict, replace

from drills.deviation import AROUND_BLIP, BEFORE_CUE, Bound, Deviation, cut, of_run, reach_of
from drills.digits import outside
from drills.kinds.asked_size import UNBOUNDED, off_size, peaks_asked
from drills.level import Level
from drills.measures.blip import (
    NARROWEST,
    OFF,
    ON,
    PEAK_LEAST,
    Pulse,
    find_blips,
    find_jumps,
)
from drills.measures.catalogue import CATALOGUE
from drills.measures.disturbance import AFTER, OF_A_RUN, RELEASED, Run, Unscored, measure_run
from drills.score import Judged, Reason, Verdict, weigh
from drills.task import Move
from drills.trace import SECOND, Grid, Pedal

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
ANSWER = 1.0
"""Longest reaction in s with which a blip answers its cue: a later one is another downshift."""
RECORDED = 1.5
"""How long a blip is waited for after its cue, in s; past the longest answer, to call it late."""
PULSE = 1.0
"""Longest throttle pulse that counts as a blip, in s."""
TAIL = 1.1
"""How long the pedals are recorded after the throttle is off, in s: the blip's window and more."""
UNSCORED = {
    Unscored.NO_BRAKE: Reason.LET_GO,
    Unscored.NO_BASE: Reason.NOT_SCORED,
    Unscored.NO_REST: Reason.LONG,
}
"""Outcome of a repetition whose run of blips cannot be measured, by the reason why not."""
IN_POINTS = ("dip", "mean_dip", "surge", "rebound", "offset", "swing")
"""Names of the measures whose limits set the scale of a blip's picture."""


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


def run_with_picture(judged: Judged) -> tuple[Run, Deviation] | None:
    """Measured run of a repetition with its picture; None where either is missing."""
    run, cues = judged.measured, judged.done.cues
    if not isinstance(run, Run):
        return None
    asked = judged.task.acts[0]
    picture = of_run(judged.grid, run, cues[asked] / SECOND if asked < len(cues) else None)
    return None if picture is None else (run, picture)


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


def picture_about_cue(level: Level, judged: Judged) -> Deviation | None:
    """Picture of the brake against its target, about the first cue that was given or due."""
    task, done = judged.task, judged.done
    given = bool(done.cues)
    cue = done.cues[0] / SECOND if given else done.began / SECOND + task.wait + task.cues[0]
    picture = cut(judged.grid, cue, task.target, AROUND_BLIP if given else BEFORE_CUE)
    if picture is None:
        return None
    return replace(picture, cues=(0.0,), zero="target", reach=reach(level))


def reach(level: Level) -> float:
    """Reach of the scale, up and down, of the pictures of a level, in points."""
    return reach_of([limit for name, limit in level.limits.items() if name in IN_POINTS])


def bounds(level: Level, run: Run) -> tuple[Bound, ...]:
    """Limits of a level that the picture of a run can show, each over the time it is judged in."""
    first, (final, done) = run.blips[0][0], run.blips[-1]
    start, stop, last = (at - first.onset for at in (run.start, run.stop, final.onset))
    found = {
        "dip": lambda at: Bound(f"dip {at:g}", -at, None, (start, stop)),
        "surge": lambda at: Bound(f"above {at:g}", None, at, (start, stop)),
        "rebound": lambda at: Bound(f"back over {at:g}", None, at, (last + done.dip_at, stop)),
        "offset": lambda at: Bound(f"end ±{at:g}", -at, at, (stop - 0.2, stop)),
        "settle": lambda at: Bound(
            f"steady ±{level.band:g}", -level.band, level.band, (min(last + at, stop), stop)
        ),
    }
    return tuple(found[name](at) for name, at in level.limits.items() if name in found)


def not_as_asked(verdict: Verdict) -> str:
    """Sentence on a blip that was not as the level asks."""
    match verdict.reason:
        case Reason.LET_GO:
            return _let_go(verdict)
        case Reason.OFF_TARGET:
            heavy = verdict.amount("base_error") > 0
            side = "heavy" if heavy else "light"
            return (
                f"The brake left the target in the dark, on the {side} side: "
                "keep the weight you had when the light went."
            )
        case reason:
            return _SENTENCES[reason]


def _let_go(verdict: Verdict) -> str:
    held = verdict.measures.get("base")
    if held is None or held < RELEASED:
        return "The brake was let go in the dark: keep the weight on until the light comes back."
    return "The brake was let go after the blip: keep it on until the light comes back."


_SENTENCES = {
    Reason.NO_BLIP: "No blip came: at the cue, one short stab of the throttle.",
    Reason.EXTRA_BLIP: "More than one blip came: stab once, then leave the throttle alone.",
    Reason.LIGHT: "The blip was too light: stab deeper, and as short.",
    Reason.HEAVY: "The blip was too big: stab less deep, and as short.",
    Reason.LATE: "The blip came too late: have the foot ready to roll at the cue.",
    Reason.LONG: "The throttle stayed on too long: one short stab, in and out.",
    Reason.SHORT: (
        "The throttle only jumped, quicker than any foot: if it does again, check its cable."
    ),
    Reason.NOT_SCORED: "There was too little held brake before the blip to measure it against.",
}


def missed(level: Level, verdict: Verdict) -> tuple[str, str, str] | None:
    """Figure for what a repetition with one blip asked and was not done, as in `Kind.missed`."""
    measures = verdict.measures
    least, most = peaks_asked(level)
    base, error = measures.get("base") or 0.0, measures.get("base_error") or 0.0

    def written(name: str) -> str:
        return CATALOGUE[name].written(measures[name]) if name in measures else "too little"

    return {
        Reason.NO_BLIP: ("Blips", "none", "one was asked"),
        Reason.EXTRA_BLIP: ("Blips", "several", "one was asked"),
        Reason.LATE: ("Reaction", written("reaction"), f"within {ANSWER:g} s was asked"),
        Reason.LIGHT: ("Throttle", written("peak"), f"{least:g} % at least was asked"),
        Reason.HEAVY: ("Throttle", written("peak"), f"{most:g} % at most was asked"),
        Reason.SHORT: ("Width", f"under {NARROWEST / 1000:g} s", "a stab by the foot was asked"),
        Reason.LONG: (
            "Width",
            written("width") if "width" in measures else f"over {PULSE:g} s",
            f"{level.own['blip.longest']:g} s at most was asked",
        ),
        Reason.OFF_TARGET: (
            "Held",
            f"{outside(base, base - error, level.approach_band)} %",
            f"{base - error:g} ±{level.approach_band:g} was asked",
        ),
        Reason.LET_GO: ("Brake", "let go", "to keep it on was asked"),
    }.get(verdict.reason)
