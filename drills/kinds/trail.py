"""Easing off: from a held brake to nothing over a given time, with blips inside or without.

The foot follows a tone that falls for as long as it should take. How straight it came down is
told by a ramp from where it began, and each blip by its chord, as on the road.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, replace

import numpy as np

from drills.coach import leaning
from drills.deviation import Bound, Deviation, cut, reach_of
from drills.digits import apart
from drills.kinds.base import AT_REST, Kind, Prompt, brake_to
from drills.kinds.blipping import ASKED, blip_moves, first_of, missed, misshapen, told
from drills.level import Key, Level
from drills.measures.blip import ON
from drills.measures.chord import FROM as CHORD_FROM
from drills.measures.chord import ChordDisturbance, Unchorded, chord_of
from drills.measures.disturbance import RELEASED
from drills.measures.easing import ramp
from drills.measures.tempo import farthest
from drills.measures.way import WayDown, measure_way
from drills.score import Reason, Verdict, kept, weigh
from drills.task import Move, Performance, Signal, Task
from drills.trace import SECOND, Grid, Pedal, nanoseconds

LATEST = 1.5
"""s the brake may still be on after it should be off, before the repetition ends without it."""
TAIL = 0.6
"""s recorded after the brake is off: a blip that ends with it wants 0.3 s behind it."""
PLACES: Mapping[int, tuple[float, ...]] = {0: (), 1: (0.4,), 2: (0.25, 0.6)}
"""1, where in the fall the blips are called, by how many there are: the last one leaves time to
be measured before the brake is off."""
KEYS = (
    *ASKED,
    Key("ease", 1.0, 5.0, about="s in which the brake should come down to nothing"),
    Key("blips", 0, 2, 0, whole=True, about="blips on the way down"),
)
OF_THE_RELEASE = ("release_start", "release_time", "ramp_error", "ramp_worst", "reversals")
OF_THE_CHORD = ("dip", "mean_dip", "surge", "shortfall", "excess", "extra_distance")
BEFORE = 0.3
"""s shown before the cue."""
AFTER = 0.8
"""s shown after the brake should be off, from the cue."""


def _task(level: Level, target: float, rng: np.random.Generator) -> Task:
    ease, blips = level.own["ease"], round(level.own["blips"])
    moves = [move for cue in range(1, blips + 1) for move in blip_moves(cue, ease + LATEST)]
    return Task(
        target=target,
        start={Pedal.BRAKE: level.around(target), Pedal.THROTTLE: AT_REST},
        wait=level.foreperiod.draw(rng),
        cues=(0.0, *(round(place * ease, 3) for place in PLACES[blips])),
        signals=(Signal.FALL,) + (Signal.CUE,) * blips,
        falls=ease,
        moves=(*moves, Move(Pedal.BRAKE, RELEASED, up=False, within=ease + LATEST, cue=0)),
        tail=TAIL,
        early={Pedal.THROTTLE: ON},
    )


def _judge(level: Level, task: Task, done: Performance) -> Verdict:
    grid = Grid.of(done.trace)
    way = measure_way(grid, grid.index(done.cues[0]), task.falls)
    if way is None:
        return weigh({}, level.limits, Reason.LET_GO)
    measures = _measures(way, task, done)
    return weigh(measures, level.limits, _shortcoming(level, way, task, measures))


def _measures(way: WayDown, task: Task, done: Performance) -> dict[str, float | None]:
    measures: dict[str, float | None] = {"base": way.held, "base_error": way.held - task.target}
    measures |= asdict(way.easing)
    if not task.acts or way.run is None:
        return measures
    measures |= {name: getattr(way.run, name) for name in OF_THE_CHORD}
    dips = [done.dip for _, done in way.run.blips if isinstance(done, ChordDisturbance)]
    measures |= {f"dip_{place}": dip for place, dip in enumerate(dips[:2], start=1)}
    worst, pulse = max(
        ((done, pulse) for pulse, done in way.run.blips if isinstance(done, ChordDisturbance)),
        key=lambda one: one[0].dip,
    )
    measures |= {"peak": pulse.peak, "width": pulse.width, "coupling": worst.coupling}
    cues = [done.cues[k] / SECOND for k in task.acts if k < len(done.cues)]
    if len(cues) == way.blips:
        late = [pulse.onset - cue for (pulse, _), cue in zip(way.run.blips, cues, strict=True)]
        measures["lateness"] = farthest(late)
    return measures


def _shortcoming(
    level: Level, way: WayDown, task: Task, measures: Mapping[str, float | None]
) -> Reason | None:
    asked = len(task.acts)
    pulses = [] if way.run is None else [pulse for pulse, _ in way.run.blips]
    return first_of(
        {
            Reason.OFF_TARGET: not kept(measures["base_error"], level.approach_band),
            Reason.NOT_EASED: way.easing.release_start is None,
            Reason.NO_BLIP: asked > 0 and way.blips == 0,
            Reason.FEW_BLIPS: way.blips < asked,
            Reason.EXTRA_BLIP: way.blips > asked,
            Reason.CUT_SHORT: way.cut is Unchorded.RELEASED,
            Reason.NOT_SCORED: way.cut is not None,
            **misshapen(level, pulses),
        }
    )


def _prompt(_: Level, task: Task) -> Prompt:
    blips = {0: "", 1: " Blip once at the click.", 2: " Blip at each of the two clicks."}
    return brake_to(
        task,
        f"Then, in the dark, ease off as the tone falls, over {task.falls:g} s."
        f"{blips[len(task.acts)]}",
    )


def _tell(level: Level, verdict: Verdict) -> str:
    if verdict.reason in _TOLD:
        return _TOLD[verdict.reason]
    if verdict.reason not in (Reason.CLEAN, Reason.OVER_LIMIT):
        return told(verdict)
    if verdict.clean:
        blips = "dip" in verdict.measures
        return (
            "Clean: straight down, and the blip left the way as it was."
            if blips
            else "Clean: straight down, from the weight that was held to nothing."
        )
    return _over(verdict, level.limits[verdict.worst])


def _over(verdict: Verdict, limit: float) -> str:
    name, value = verdict.worst, verdict.measures.get(verdict.worst)
    shown = apart(value or 0.0, limit)[0]
    match name:
        case "dip" | "mean_dip" | "shortfall" | "extra_distance":
            fell = f"{shown} points" if name in ("dip", "mean_dip") else "too much"
            return (
                f"The brake fell {fell} under its way down at the blip: "
                "ease with the leg, and let only the edge roll."
            )
        case "surge" | "excess":
            rose = f"{shown} points" if name == "surge" else "too much"
            return (
                f"The brake rose {rose} over its way down at the blip: "
                "do not push with the roll, go on easing."
            )
        case "reversals":
            return "The brake turned upward on the way down: let it only ever come off."
        case "lateness":
            side = "behind" if (value or 0.0) > 0 else "ahead of"
            return f"A blip came {side} its click: have the foot ready to roll."
        case "release_start":
            return "The foot began late: ease off as soon as the tone starts to fall."
        case "release_time" if value is None:
            return "The brake was never let go: follow the tone all the way down."
        case "release_time":
            return "The brake came off too slowly: be at nothing when the tone ends."
        case "ramp_worst":
            return (
                f"The brake was {shown} points off a straight way down: "
                "as much in each moment as in the last."
            )
    return f"The way down was not straight, {shown} points off in the middle: follow the tone."


_TOLD = {
    Reason.NOT_EASED: "The brake was not eased off: follow the tone as it falls.",
    Reason.NO_BLIP: "No blip came: at the click, one short stab while the brake comes down.",
    Reason.FEW_BLIPS: "A blip was missing: one to each click, while the brake comes down.",
    Reason.EXTRA_BLIP: "There was a blip too many: one to each click, no more.",
    Reason.CUT_SHORT: "The brake was off before the blip was over: ease off more slowly.",
    Reason.NOT_SCORED: "A blip came too close to another to be measured: one to each click.",
    Reason.LET_GO: "The brake was let go in the dark: keep the weight on until the tone falls.",
    Reason.LIGHT: "A blip was too light: stab deeper, and as short.",
    Reason.HEAVY: "A blip was too big: stab less deep, and as short.",
    Reason.LONG: "The throttle stayed on too long: one short stab, in and out.",
}


def _deviation(level: Level, task: Task, done: Performance, verdict: Verdict) -> Deviation | None:
    """The brake against its way down: the ramp, and within a blip its chord."""
    grid, given = Grid.of(done.trace), bool(done.cues)
    cue = done.cues[0] / SECOND if given else done.began / SECOND + task.wait
    span = (-BEFORE, task.falls + AFTER)
    held = verdict.measures.get("base")
    picture = cut(grid, cue, task.target if held is None else held, span)
    if picture is None:
        return None
    limits = [at for name, at in level.limits.items() if name in _IN_POINTS]
    cues = tuple(cue_at / SECOND - cue for cue_at in done.cues) if given else (0.0,)
    picture = replace(picture, span=span, reach=reach_of(limits), cues=cues)
    way = None
    if given and held is not None:
        way = measure_way(grid, grid.index(done.cues[0]), task.falls)
    if way is None or way.easing.release_start is None:
        return replace(picture, zero="target" if held is None else "held")
    return _on_the_way(level, task, grid, way, cue, picture)


def _on_the_way(
    level: Level, task: Task, grid: Grid, way: WayDown, cue: float, picture: Deviation
) -> Deviation:
    began = way.easing.release_start or 0.0
    start = grid.index(nanoseconds(cue + began))
    first = grid.index(nanoseconds(cue + float(picture.time[0])))
    points = np.arange(first, first + picture.time.size)
    meant = np.maximum(ramp(points, start, float(grid.brake[start]), task.falls), 0.0)
    meant[points < start] = way.held
    windows = []
    for pulse, done in way.run.blips if way.run is not None else ():
        if isinstance(done, ChordDisturbance):
            window = (pulse.onset - CHORD_FROM / 1000 - cue, done.stop - cue)
            inside = (picture.time >= window[0]) & (picture.time < window[1])
            meant[inside] = chord_of(pulse, done, picture.time[inside] + cue)
            windows.append(window)
    brake = grid.brake[first : first + picture.time.size]
    return replace(
        picture,
        deviation=brake - meant,
        zero="way",
        bounds=_bounds(level, (began, began + task.falls), windows),
    )


def _bounds(
    level: Level, way: tuple[float, float], windows: list[tuple[float, float]]
) -> tuple[Bound, ...]:
    """What the ramp may be off between the blips, and what each blip may take."""
    bounds: list[Bound] = []
    at = way[0]
    worst = level.limits.get("ramp_worst")
    for opens, closes in [*windows, (way[1], way[1])]:
        if worst is not None and opens > at:
            bounds.append(Bound("" if bounds else f"way ±{worst:g}", -worst, worst, (at, opens)))
        at = max(at, closes)
    for number, window in enumerate(windows):
        for name, word, sign in (("dip", "dip", -1), ("surge", "above", 1)):
            limit = level.limits.get(name)
            if limit is not None:
                label = "" if number else f"{word} {limit:g}"
                low, high = (-limit, None) if sign < 0 else (None, limit)
                bounds.append(Bound(label, low, high, window))
    return tuple(bounds)


_IN_POINTS = ("ramp_worst", "ramp_error", "dip", "surge")


def _missed(level: Level, verdict: Verdict) -> tuple[str, str, str] | None:
    return {
        Reason.NOT_EASED: ("Brake", "not eased off", "down to nothing was asked"),
        Reason.NO_BLIP: ("Blips", "none", "one to each click was asked"),
        Reason.FEW_BLIPS: ("Blips", "too few", "one to each click was asked"),
        Reason.EXTRA_BLIP: ("Blips", "too many", "one to each click was asked"),
        Reason.CUT_SHORT: ("Brake", "off too soon", "on beyond the blip was asked"),
        Reason.LIGHT: ("Throttle", "too light", f"{level.own['blip.least']:g} % at least"),
        Reason.HEAVY: ("Throttle", "too big", f"{level.own['blip.most']:g} % at most"),
        Reason.LONG: ("Width", "too long", f"{level.own['blip.longest']:g} s at most"),
    }.get(verdict.reason) or missed(level, verdict)


def _lean(level: Level, verdict: Verdict) -> float | None:
    """Light where a blip took too much, heavy where it pushed or the brake never came off."""
    if verdict.reason is Reason.NOT_EASED:
        return 1.0
    if verdict.over and verdict.worst == "release_time":
        return 1.0
    return leaning(level, verdict)


TRAIL = Kind(
    name="trail",
    pedals=(Pedal.BRAKE, Pedal.THROTTLE),
    keys=KEYS,
    measures=(
        *("base", "base_error", *OF_THE_RELEASE, *OF_THE_CHORD),
        *("dip_1", "dip_2", "peak", "width", "coupling", "lateness"),
    ),
    shown=("ramp_error", "dip", "release_time", "release_start"),
    task=_task,
    judge=_judge,
    prompt=_prompt,
    tell=_tell,
    deviation=_deviation,
    called="Easing off",
    guessed="dip",
    asks="How far did the brake fall under its way down?",
    missed=_missed,
    lean=_lean,
)
