"""The drill kind "trail": ease a held brake off over a given time, with blips or without.

The foot follows a falling tone. The brake is compared with a straight ramp from where the foot
began, at the slope that was asked, and each blip with its chord, as on the road.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict

import numpy as np

from drills.coach import Prompt, brake_to
from drills.deviation import Deviation
from drills.fault import Fault
from drills.kinds import cause, trail_words
from drills.kinds.asked_size import BLIP_KEYS, SIZE, BlippingKind, to_size
from drills.kinds.blipping import (
    blip_moves,
    find_off_size,
    first_that_holds,
    shape_faults,
    why_no_blip,
)
from drills.kinds.trail_picture import picture_of
from drills.level import Level
from drills.level_key import Key
from drills.measures.blip import ON
from drills.measures.chord import ChordDisturbance, Unchorded
from drills.measures.disturbance import RELEASED
from drills.measures.tempo import farthest, lateness
from drills.measures.way import WayDown, measure_way
from drills.remark import Remark
from drills.score import Judged, Reason, Verdict, weigh, within
from drills.task import AT_REST, FALL_HOLD, Move, Performance, Signal, Task
from drills.trace import SECOND, Grid, Pedal

LATEST = 1.5
"""How long after its due end an easing off is waited for before the repetition ends, in s."""
TAIL = 0.6
"""How long the pedals are recorded after the brake is off, in s: a late blip needs 0.3 s."""
PLACES: Mapping[int, tuple[float, ...]] = {0: (), 1: (0.4,), 2: (0.25, 0.6)}
"""When blips are cued after the cue to ease off, as shares of the time that the tone falls, by the
number of blips: the last leaves time to measure it."""
EASIEST: Mapping[int, float] = {0: 1.0, 1: 1.5, 2: 2.0}
"""Shortest easing off that leaves brake to measure its last blip by, in s, by the number of blips,
each answered in 0.3 s and 0.3 s long (common practice)."""
KEYS = (
    *BLIP_KEYS,
    Key("ease", 1.0, 5.0, about="s in which the brake should come down to nothing"),
    Key("blips", 0, 2, 0, whole=True, about="blips on the way down"),
)
OF_THE_RELEASE = ("release_start", "release_time", "ramp_error", "ramp_worst", "reversals")
"""Names of the measures of the brake on its way down."""
OF_THE_CHORD = ("dip", "mean_dip", "surge", "shortfall", "excess", "extra_distance")
"""Names of the measures of blips against their chords in an easing off."""
OF_THE_DEEPEST = ("carry", "early", "coupling")
"""Names of the measures of the blip with the deepest dip in an easing off."""
OF_BLIPS = (*OF_THE_CHORD, "dip_1", "dip_2", "peak", "width", *OF_THE_DEEPEST, "lateness")
"""Names of the measures that an easing off without blips does not have."""
PRESSED_AGAIN = 2 * RELEASED
"""Least brake in % that counts as pressed again after it was off; less is a trembling foot."""


class TrailDrill(BlippingKind):
    """The kind of drill that asks for easing off a held brake, with blips or without."""

    name = "trail"
    title = "Easing off"
    a_blip = "A blip"
    pedals = (Pedal.BRAKE, Pedal.THROTTLE)
    keys = KEYS
    measures = ("base", "base_error", *OF_THE_RELEASE, *OF_BLIPS)
    reveal_measures = ("ramp_error", "dip", "release_time", "release_start")
    guess_measure = "dip"
    guess_question = "How far did the brake fall under its way down?"
    learning_measure = "ramp_error"
    is_diagnosed = True

    def task(self, level: Level, target: float, rng: np.random.Generator) -> Task:
        ease, blips = level.own["ease"], round(level.own["blips"])
        latest = FALL_HOLD + ease + LATEST
        moves = [move for cue in range(1, blips + 1) for move in blip_moves(cue, latest)]
        return Task(
            target=target,
            start={Pedal.BRAKE: level.around(target), Pedal.THROTTLE: AT_REST},
            wait=level.foreperiod.draw(rng),
            cues=(0.0, *(round(place * ease, 3) for place in PLACES[blips])),
            signals=(Signal.FALL,) + (Signal.CUE,) * blips,
            falls=ease,
            moves=(*moves, Move(Pedal.BRAKE, RELEASED, up=False, within=latest, cue=0)),
            size=level.own[SIZE] if blips else 0.0,
            tail=TAIL,
            early={Pedal.THROTTLE: ON},
        )

    def judge(self, level: Level, task: Task, done: Performance) -> Judged:
        grid = Grid.of(done.trace)
        void = find_off_size(level, grid, done.cues[0], len(task.acts))
        if void is not None:
            return Judged(task, done, void, grid)
        way = measure_way(grid, done.cues[0], task.target, task.falls)
        if way is None:
            verdict = weigh({}, level.limits, Reason.LET_GO)
            return Judged(task, done, verdict, grid)
        measures = _measures(way, task, done)
        shortcoming = _shortcoming(level, way, task, measures)
        if shortcoming is Reason.NO_BLIP:
            shortcoming = why_no_blip(grid, done.cues[0])
        if shortcoming is Reason.CUT_SHORT and _came_back(grid, done.cues[0]):
            shortcoming = Reason.LET_GO
        limits = level.limits if task.acts else _without_blips(level)
        return Judged(task, done, weigh(measures, limits, shortcoming), grid, way)

    def prompt(self, level: Level, task: Task) -> Prompt:
        size, blips = to_size(level), len(task.acts)
        clicks = {0: "", 1: f", one blip{size} at the click", 2: f", a blip{size} at each click"}
        return brake_to(task, f"Dark, then ease off with the tone, {task.falls:g} s{clicks[blips]}")

    def comment(self, level: Level, verdict: Verdict) -> Remark:
        return trail_words.comment(level, verdict)

    def picture(self, level: Level, judged: Judged) -> Deviation | None:
        return picture_of(level, judged, self.headline(level, judged.verdict))

    def missed(self, level: Level, verdict: Verdict) -> tuple[str, str, str] | None:
        return trail_words.missed(level, verdict)

    def lean(self, level: Level, verdict: Verdict) -> float | None:
        return trail_words.lean(verdict)

    def fault(self, verdict: Verdict) -> Fault | None:
        return cause.of_easing(verdict, is_early=trail_words.is_early(verdict))

    def wrong(self, level: Level) -> tuple[str, str, str] | None:
        """Why the level cannot be played: too little time for its blips, or no usable limit."""
        ease, blips = level.own["ease"], round(level.own["blips"])
        if ease < EASIEST[blips]:
            return "ease", f"at least {EASIEST[blips]:g} for {blips} on the way down", f"{ease:g}"
        if not blips and not _without_blips(level):
            return "limits", "one on the way down, as no blip is asked", ", ".join(level.limits)
        return None


def _came_back(grid: Grid, cue: int) -> bool:
    """Whether the brake was off after the cue (ns) and then pressed again."""
    brake = grid.brake[grid.index(cue) :]
    off = np.flatnonzero(brake < RELEASED)
    return bool(off.size) and float(brake[off[0] :].max()) >= PRESSED_AGAIN


def _without_blips(level: Level) -> Mapping[str, float]:
    """Limits of a level on the brake's way down alone, without those on blips."""
    return {name: at for name, at in level.limits.items() if name not in OF_BLIPS}


def _measures(way: WayDown, task: Task, done: Performance) -> dict[str, float | None]:
    measures: dict[str, float | None] = {"base": way.held, "base_error": way.held - task.target}
    measures |= asdict(way.easing)
    if not task.acts or way.run is None:
        return measures
    measures |= {name: getattr(way.run, name) for name in OF_THE_CHORD}
    measures |= {
        f"dip_{place}": done.dip if isinstance(done, ChordDisturbance) else None
        for place, (_, done) in enumerate(way.run.blips[:2], start=1)
    }
    worst, pulse = max(
        ((done, pulse) for pulse, done in way.run.blips if isinstance(done, ChordDisturbance)),
        key=lambda one: one[0].dip,
    )
    measures |= {"peak": pulse.peak, "width": pulse.width}
    measures |= {name: getattr(worst, name) for name in OF_THE_DEEPEST}
    cues = [done.cues[k] / SECOND for k in task.acts if k < len(done.cues)]
    if len(cues) == way.blips:
        onsets = [pulse.onset for pulse, _ in way.run.blips]
        measures["lateness"] = farthest(lateness(onsets, cues))
    return measures


def _shortcoming(
    level: Level, way: WayDown, task: Task, measures: Mapping[str, float | None]
) -> Reason | None:
    asked = len(task.acts)
    pulses = [] if way.run is None else [pulse for pulse, _ in way.run.blips]
    return first_that_holds(
        {
            Reason.OFF_TARGET: not within(measures["base_error"], level.approach_band),
            Reason.NOT_EASED: way.easing.release_start is None,
            Reason.NO_BLIP: asked > 0 and way.blips == 0,
            Reason.FEW_BLIPS: way.blips < asked,
            Reason.EXTRA_BLIP: way.blips > asked,
            Reason.CUT_SHORT: way.cut is Unchorded.RELEASED,
            Reason.NOT_SCORED: way.cut is not None,
            **shape_faults(level, pulses),
        }
    )
