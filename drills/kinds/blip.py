"""The blip: hold the brake, and on the cue blip the throttle once without disturbing it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, replace

import numpy as np

from drills.coach import disturbance, leaning
from drills.deviation import (
    AROUND_BLIP,
    BEFORE_CUE,
    Bound,
    Deviation,
    cut,
    of_run,
    reach_of,
)
from drills.kinds.base import AT_REST, Kind, Prompt, brake_to
from drills.level import Key, Level
from drills.measures.blip import ANTICIPATION, OFF, ON, PEAK_LEAST, find_blips
from drills.measures.catalogue import CATALOGUE
from drills.measures.disturbance import (
    AFTER,
    OF_A_RUN,
    RELEASED,
    Run,
    Unscored,
    measure_run,
)
from drills.score import Reason, Verdict, kept, weigh
from drills.task import Move, Performance, Task
from drills.trace import SECOND, STEP, Grid, Pedal

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
    "surge_at",
    "coupling",
    "lag",
)
"""Measures of the one blip; onset and end are s from the start of the trace."""
ANSWER = 1.0
"""s from the cue within which the blip must begin: a downshift that comes later is another one."""
RECORDED = 1.5
"""s from the cue that a blip is waited for, so that a late one can be called late."""
PULSE = 1.0
"""s a blip may last before it is something else."""
TAIL = 1.1
"""s recorded after the throttle is off: the second its window may take, and some to spare."""
OWN = (
    Key("least", 15, 100, 30, table="blip", most="most", about="%, least throttle peak asked"),
    Key("most", 15, 100, 100, table="blip", about="%, greatest throttle peak asked"),
    Key("longest", 0.05, 1, 0.6, table="blip", about="s, greatest width of a blip asked"),
)
"""What a level says of the blip it asks for."""


def _task(level: Level, target: float, rng: np.random.Generator) -> Task:
    return Task(
        target=target,
        start={Pedal.BRAKE: level.around(target), Pedal.THROTTLE: AT_REST},
        wait=level.foreperiod.draw(rng),
        cues=(0.0,),
        moves=(
            Move(Pedal.THROTTLE, ON, up=True, within=RECORDED, cue=0),
            Move(Pedal.THROTTLE, OFF, up=False, within=PULSE),
        ),
        tail=TAIL,
        early={Pedal.THROTTLE: ON},
    )


def _judge(level: Level, task: Task, done: Performance) -> Verdict:
    grid = Grid.of(done.trace)
    found = find_blips(grid)
    if not found:
        return weigh({}, level.limits, _what_came_instead(grid, done.cues[0]))
    run = measure_run(grid, found, level.band)
    if isinstance(run, Unscored):
        let_go = run is Unscored.NO_BRAKE
        return weigh({}, level.limits, Reason.LET_GO if let_go else Reason.NOT_SCORED)
    onset = grid.start + run.blips[0][0].first * STEP
    reaction = (onset - done.cues[0]) / SECOND
    if reaction < ANTICIPATION:
        return Verdict(Reason.ANTICIPATION, measures={"reaction": reaction})
    measures = _flat(run, reaction, task.target)
    verdict = weigh(measures, level.limits, _shortcoming(level, grid, run, measures))
    came_off = run.base - run.dip < RELEASED
    return replace(verdict, worst="dip") if came_off and "dip" in verdict.over else verdict


def _what_came_instead(grid: Grid, cue: int) -> Reason:
    """What the throttle did after the cue (ns) where none of it is a blip."""
    peak = float(grid.throttle[grid.index(cue) :].max(initial=0.0))
    if peak < ON:
        return Reason.NO_BLIP
    return Reason.LIGHT if peak < PEAK_LEAST else Reason.LONG


def _shortcoming(
    level: Level, grid: Grid, run: Run, measures: Mapping[str, float | None]
) -> Reason | None:
    """What was asked and not done, the most telling first."""
    pulse = run.blips[0][0]
    failed = {
        Reason.LET_GO: _is_let_go(grid, run),
        Reason.OFF_TARGET: not kept(measures["base_error"], level.approach_band),
        Reason.EXTRA_BLIP: len(run.blips) > 1,
        Reason.LATE: not kept(measures["reaction"], ANSWER),
        Reason.LIGHT: pulse.peak < level.own["blip.least"],
        Reason.HEAVY: pulse.peak > level.own["blip.most"],
        Reason.LONG: pulse.width > level.own["blip.longest"],
    }
    return next((reason for reason, did in failed.items() if did), None)


def _is_let_go(grid: Grid, run: Run) -> bool:
    """Whether the brake was off before the first blip, or came off after the last one.

    A foot that comes off within a pulse was taken along by the blip: that is a dip.
    """
    if run.base < RELEASED:
        return True
    last = run.blips[-1][0]
    within = grid.brake[last.first : last.after]
    after = grid.brake[last.after : last.after + AFTER]
    return bool(within.min() >= RELEASED and after.min(initial=RELEASED) < RELEASED)


def _flat(run: Run, reaction: float, target: float) -> dict[str, float | None]:
    """All measures by name: those of the run, then those of its first blip."""
    blip, disturbed = run.blips[0]
    single = {
        **asdict(disturbed),
        **asdict(blip),
        "base_error": run.base - target,
        "reaction": reaction,
    }
    whole = {name: getattr(run, name) for name in OF_A_RUN}
    return whole | {name: single[name] for name in OF_THE_BLIP}


def _prompt(_: Level, task: Task) -> Prompt:
    return brake_to(task, "Then it goes dark: at the cue, blip once.")


def _tell(level: Level, verdict: Verdict) -> str:
    if verdict.reason in (Reason.CLEAN, Reason.OVER_LIMIT):
        return disturbance(verdict, level.limits)
    match verdict.reason:
        case Reason.LET_GO:
            return _let_go(verdict)
        case Reason.OFF_TARGET:
            return _off_target(verdict)
        case reason:
            return _TOLD[reason]


def _let_go(verdict: Verdict) -> str:
    held = verdict.measures.get("base")
    if held is None or held < RELEASED:
        return "The brake was let go in the dark: keep the weight on until the light comes back."
    return "The brake was let go after the blip: keep it on until the light comes back."


def _off_target(verdict: Verdict) -> str:
    heavy = (verdict.measures.get("base_error") or 0.0) > 0
    side = "heavy" if heavy else "light"
    return (
        f"The brake left the target in the dark, on the {side} side: "
        "keep the weight you had when the light went."
    )


_TOLD = {
    Reason.NO_BLIP: "No blip came: at the cue, one short stab of the throttle.",
    Reason.EXTRA_BLIP: "More than one blip came: stab once, then leave the throttle alone.",
    Reason.LIGHT: "The blip was too light: stab deeper, and as short.",
    Reason.HEAVY: "The blip was too big: stab less deep, and as short.",
    Reason.LATE: "The blip came too late: have the foot ready to roll at the cue.",
    Reason.LONG: "The throttle stayed on too long: one short stab, in and out.",
    Reason.NOT_SCORED: "There was too little held brake before the blip to measure it against.",
}


def _deviation(level: Level, task: Task, done: Performance, verdict: Verdict) -> Deviation | None:
    grid = Grid.of(done.trace)
    run = None if verdict.measures.get("base") is None else measure_run(grid, find_blips(grid))
    if not isinstance(run, Run):
        return _about_the_cue(level, task, done, grid)
    picture = of_run(grid, run)
    if picture is None:
        return None
    cue = done.cues[0] / SECOND - run.blips[0][0].onset
    return replace(picture, cue=cue, reach=_reach(level), bounds=_bounds(level, run))


def _about_the_cue(level: Level, task: Task, done: Performance, grid: Grid) -> Deviation | None:
    """The brake against its target, about the cue that was given or due."""
    given = bool(done.cues)
    cue = done.cues[0] / SECOND if given else done.began / SECOND + task.wait + task.cues[0]
    picture = cut(grid, cue, task.target, AROUND_BLIP if given else BEFORE_CUE)
    if picture is None:
        return None
    return replace(picture, cue=0.0, zero="target", reach=_reach(level))


def _reach(level: Level) -> float:
    return reach_of([limit for name, limit in level.limits.items() if name in _IN_POINTS])


def _bounds(level: Level, run: Run) -> tuple[Bound, ...]:
    """The limits of the level that a picture can show, each where it is judged."""
    first, (final, done) = run.blips[0][0], run.blips[-1]
    stop = run.stop - first.onset
    back = final.onset - first.onset + done.dip_at
    found = {
        "dip": lambda at: Bound(f"dip {at:g}", -at, None, (-0.1, stop)),
        "surge": lambda at: Bound(f"above {at:g}", None, at, (-0.1, stop)),
        "rebound": lambda at: Bound(f"back over {at:g}", None, at, (max(back, -0.1), stop)),
        "offset": lambda at: Bound(f"end ±{at:g}", -at, at, (stop - 0.2, stop)),
        "settle": lambda at: Bound(
            f"steady ±{level.band:g}", -level.band, level.band, (min(at, stop), stop)
        ),
    }
    return tuple(found[name](at) for name, at in level.limits.items() if name in found)


_IN_POINTS = ("dip", "mean_dip", "surge", "rebound", "offset", "swing")
"""Measures whose limits set the scale."""


def _missed(level: Level, verdict: Verdict) -> tuple[str, str, str] | None:
    measures = verdict.measures
    least, most = level.own["blip.least"], level.own["blip.most"]
    base, error = measures.get("base") or 0.0, measures.get("base_error") or 0.0

    def seen(name: str) -> str:
        return CATALOGUE[name].written(measures[name]) if name in measures else "too little"

    return {
        Reason.NO_BLIP: ("Blips", "none", "one was asked"),
        Reason.EXTRA_BLIP: ("Blips", "several", "one was asked"),
        Reason.LATE: ("Reaction", seen("reaction"), f"within {ANSWER:g} s was asked"),
        Reason.LIGHT: ("Throttle", seen("peak"), f"{least:g} % at least was asked"),
        Reason.HEAVY: ("Throttle", seen("peak"), f"{most:g} % at most was asked"),
        Reason.LONG: (
            "Width",
            seen("width") if "width" in measures else f"over {PULSE:g} s",
            f"{level.own['blip.longest']:g} s at most was asked",
        ),
        Reason.OFF_TARGET: (
            "Held",
            f"{base:.0f} %",
            f"{base - error:.0f} ±{level.approach_band:g} was asked",
        ),
        Reason.LET_GO: ("Brake", "let go", "kept on was asked"),
    }.get(verdict.reason)


BLIP = Kind(
    name="blip",
    pedals=(Pedal.BRAKE, Pedal.THROTTLE),
    keys=OWN,
    measures=OF_A_RUN + OF_THE_BLIP,
    shown=("dip", "surge", "settle", "reaction"),
    task=_task,
    judge=_judge,
    prompt=_prompt,
    tell=_tell,
    deviation=_deviation,
    guessed="dip",
    missed=_missed,
    lean=leaning,
)
