"""The drill kind "zone": a whole braking zone, from the braking point to turn-in.

Three knocks count in. The brake goes on to its peak at once and comes down along a line with the
falling tone, with a downshift on each beat, and is off at the last knock. Line and beats come from
the physics of the corner that a level describes.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from itertools import pairwise

import numpy as np

from drills.braking_zone import KMH, BrakingZone, spread
from drills.coach import Prompt
from drills.deviation import Deviation
from drills.fault import Fault
from drills.headline import WORDS
from drills.kinds import cause, shift_words, zone_faults, zone_words
from drills.kinds.asked_size import BLIP_KEYS, SIZE, BlippingKind, to_size
from drills.kinds.blipping import RECORDED, blip_moves, find_off_size, why_no_blip
from drills.kinds.shifting import limits_of, shift_measures, shift_out_of_order, with_shifts
from drills.kinds.zone_clutch import OF_THE_CLUTCH, clutch_faults
from drills.kinds.zone_example import EXAMPLE
from drills.kinds.zone_picture import Zone, picture_of
from drills.kinds.zone_shortcoming import shortcoming_of
from drills.level import Level
from drills.level_key import Key
from drills.measures.blip import OFF, ON, find_blips
from drills.measures.chord import FROM
from drills.measures.distance import Stop
from drills.measures.disturbance import RELEASED
from drills.measures.easing import JUDGED_LEAST
from drills.measures.shift import SHIFT, SHIFT_BY_PLACE
from drills.measures.zone import BEGUN, measure_zone
from drills.measures.zone_table import (
    BY_PLACE,
    OF_THE_CHORDS,
    OF_THE_DEEPEST,
    OF_THE_END,
    OF_THE_LINE,
    OF_THE_SQUEEZE,
    OF_THE_THROTTLE,
    zone_measures,
)
from drills.remark import Remark
from drills.score import Judged, Reason, Verdict, weigh
from drills.task import AT_REST, Move, Performance, Signal, Task
from drills.trace import SECOND, Grid, Pedal, nanoseconds

COUNTED = 3
"""Number of knocks that count in to the braking point."""
APART = 0.6
"""Time from one knock to the next, and from the last to the braking point, in s."""
SHORTEST, LONGEST = 2.0, 5.0
"""Times from braking point to turn-in that a level may ask, in s."""
READING = 1.5
"""How long the pedals rest, with the prompt still there, before it goes dark, in s: feet that are
off already leave no other time to read it."""
CLOSEST = 0.35
"""Least time from one blip to the next, in s: a quick foot needs it (common practice)."""
SOONEST = 0.45
"""Least time from the braking point to the first blip, in s: the brake must be on before it."""
OF_A_SQUEEZE, OF_A_BLIP = 0.5, 0.6
"""Time from the braking point until a good squeeze is over, and from a beat until the line is
judged again: a blip 0.1 s late and 0.2 s long, and 0.3 s more; in s (common practice)."""
ROOM = 0.45
"""Least time from the last blip to turn-in, in s: what it does to the brake needs brake."""
LINE_LEAST = JUDGED_LEAST / 1000
"""Least time of the line that the squeeze and the blips must leave, in s, for a limit on it."""
LATEST = 1.5
"""How long after turn-in a brake that stays on is waited for before the repetition ends, in s."""
TAIL = 0.6
"""How long the pedals are recorded after the brake is off, in s: a late blip needs 0.3 s."""
FAST = 200 * KMH
"""Speed at which a level says what downforce adds, in m/s."""
KEYS = (
    *BLIP_KEYS,
    Key("from", 60, 400, about="km/h at the braking point"),
    Key("to", 20, 300, about="km/h at turn-in"),
    Key("decel", 3, 40, 10, about="m/s2 that the tyres slow the car by, without downforce"),
    Key("downforce", 0, 3, 0, about="share of decel that downforce adds at 200 km/h"),
    Key("ease", 0.3, 3, 1, about="s in which the brake comes off before turn-in"),
    Key("shifts", 0, 4, 0, whole=True, about="downshifts, spread evenly in speed; 0: see gears"),
    Key("gears", 20, 400, many=4, about="km/h at which each gear is taken, instead of shifts"),
)


class ZoneDrill(BlippingKind):
    """The kind of drill that asks for a whole braking zone."""

    name = "zone"
    title = "A braking zone"
    a_blip = "A blip"
    pedals = (Pedal.BRAKE, Pedal.THROTTLE)
    keys = KEYS
    targets_key = "peak"
    measures = (
        *(*OF_THE_SQUEEZE, *OF_THE_LINE, *OF_THE_CHORDS, *OF_THE_DEEPEST),
        *(*OF_THE_THROTTLE, *BY_PLACE, *OF_THE_END, *OF_THE_CLUTCH, SHIFT, *SHIFT_BY_PLACE),
    )
    reveal_measures = ("dip", "lateness", "line_error", "off_at", SHIFT)
    learning_measure = "line_error"
    is_diagnosed = True
    answering_pedal = "brake or the throttle"
    example = EXAMPLE
    figure_words: Mapping[str, str] = {**WORDS, "rise": "to reach the peak"}

    def task(self, level: Level, target: float, rng: np.random.Generator) -> Task:
        zone, point = zone_of(level), COUNTED * APART
        beats, turn_in = beats_of(level), round(point + zone.seconds, 3)
        off = COUNTED + len(beats) + 1
        blips = [
            blip_moves(COUNTED + place, zone.seconds - beat + RECORDED)
            for place, beat in enumerate(beats, start=1)
        ]
        latest = zone.seconds + LATEST
        return Task(
            target=target,
            start=dict.fromkeys(level.pedals, AT_REST),
            wait=level.foreperiod.draw(rng),
            steady=READING,
            cues=(
                *(round(APART * beat, 3) for beat in range(COUNTED + 1)),
                *(round(point + beat, 3) for beat in beats),
                turn_in,
            ),
            signals=(
                *(*(Signal.COUNT,) * COUNTED, Signal.FALL),
                *(*(Signal.CUE,) * len(beats), Signal.OFF),
            ),
            line=zone.line(target),
            moves=(
                Move(Pedal.BRAKE, BEGUN * target, up=True, within=latest, cue=COUNTED),
                *(move for pair in blips for move in pair),
                Move(Pedal.BRAKE, RELEASED, up=False, within=LATEST, cue=off),
            ),
            size=level.own[SIZE],
            lasts=turn_in,
            tail=TAIL,
            early={Pedal.THROTTLE: ON, Pedal.BRAKE: max(OFF, BEGUN * target)},
        )

    def judge(self, level: Level, task: Task, done: Performance) -> Judged:
        grid = Grid.of(done.trace)
        beats = tuple(_given(task, done, cue) / SECOND for cue in task.acts)
        void = find_off_size(level, grid, done.cues[0], len(beats))
        if void is not None:
            return Judged(task, done, void, grid)
        start, point = grid.index(done.cues[0]), grid.index(_given(task, done, COUNTED))
        work = measure_zone(grid, start, point, task.line, find_blips(grid), _road(level))
        if work is None:
            return Judged(task, done, weigh({}, level.limits, Reason.NOT_PRESSED), grid)
        zone, measures = Zone(work, point, beats), zone_measures(work, beats)
        shortcoming = shortcoming_of(level, grid, task, zone, measures)
        if shortcoming is Reason.NO_BLIP:
            shortcoming = why_no_blip(grid, done.cues[0])
        clutch, out_of_order = clutch_faults(level, grid, done.trace, work.pulses, point)
        out_of_order = out_of_order or shift_out_of_order(done.trace, grid, work.pulses)
        measures |= {**clutch, **shift_measures(grid, work.pulses)}
        limits = limits_of(level, grid)
        return Judged(task, done, weigh(measures, limits, shortcoming or out_of_order), grid, zone)

    def prompt(self, level: Level, task: Task) -> Prompt:
        blips = len(task.acts)
        size = to_size(level)
        each = f"one blip{size} at the click" if blips == 1 else f"a blip{size} at each click"
        return Prompt(
            "brake to",
            f"{task.target:.0f}",
            f"Dark, {COUNTED} knocks, brake, ease with the tone: {each}, off at the last knock",
            find="Let the brake go",
            keep="Rest on the brake, and wait",
        )

    def asks(self, level: Level) -> str:
        zone, beats = zone_of(level), beats_of(level)
        word = "blip" if len(beats) == 1 else "blips"
        times = ", ".join(f"{beat:.1f}" for beat in beats)
        return f"{zone.seconds:.1f} s, {zone.metres:.0f} m; {word} at {times} s"

    def void_remark(self, level: Level, verdict: Verdict) -> Remark:
        if verdict.reason is Reason.ANTICIPATION:
            return Remark(verdict.reason.value, *zone_faults.BEFORE_THE_KNOCKS)
        return super().void_remark(level, verdict)

    def comment(self, level: Level, verdict: Verdict) -> Remark:
        return shift_words.comment(verdict) or zone_words.comment(level, verdict)

    def note(self, verdict: Verdict) -> str:
        return shift_words.note(verdict)

    def picture(self, level: Level, judged: Judged) -> Deviation | None:
        figure = self.headline(level, judged.verdict)
        return with_shifts(picture_of(level, judged, figure), judged, figure)

    def missed(self, level: Level, verdict: Verdict) -> tuple[str, str, str] | None:
        return shift_words.missed(verdict) or zone_words.missed(level, verdict)

    def lean(self, level: Level, verdict: Verdict) -> float | None:
        return zone_words.lean(verdict)

    def fault(self, verdict: Verdict) -> Fault | None:
        return cause.of_easing(verdict, is_early=zone_words.is_early(verdict))

    def wrong(self, level: Level) -> tuple[str, str, str] | None:
        """Why the level cannot be played: no such corner, or beats too close to be blipped."""
        fast, slow = level.own["from"], level.own["to"]
        if slow >= fast:
            return "to", f"less than from = {fast:g}", f"{slow:g}"
        if bool(level.own["shifts"]) == bool(level.listed["gears"]):
            both = "both" if level.own["shifts"] else "neither"
            return "shifts", "a number of shifts, or the speeds under gears", both
        zone = zone_of(level)
        if not zone.is_possible:
            return "from", _enough_speed(zone), f"{fast:g}"
        if not SHORTEST <= round(zone.seconds, 2) <= LONGEST:
            expected = f"speeds that are {SHORTEST:g} to {LONGEST:g} s of braking apart"
            return "from", expected, f"{zone.seconds:.2f} s"
        outside = [speed for speed in level.listed["gears"] if not slow < speed < fast]
        if outside:
            return "gears", f"speeds between {slow:g} and {fast:g}", f"{outside[0]:g}"
        return _wrong_beats(level, zone) or _wrong_limits(level, zone)


def zone_of(level: Level) -> BrakingZone:
    """Braking zone that a level describes, in SI units."""
    own = level.own
    return BrakingZone(
        fast=own["from"] * KMH,
        slow=own["to"] * KMH,
        grip=own["decel"],
        downforce=own["downforce"] * own["decel"] / FAST**2,
        ease=own["ease"],
    )


def beats_of(level: Level) -> tuple[float, ...]:
    """When each gear is taken, in s from the braking point."""
    zone, shifts = zone_of(level), round(level.own["shifts"])
    gears = [speed * KMH for speed in level.listed["gears"]]
    speeds = gears or spread(zone.fast, zone.slow, shifts)
    return tuple(zone.time_at(speed) for speed in speeds)


def _enough_speed(zone: BrakingZone) -> str:
    """Speed at the braking point that easing off needs, in words; where none is enough, why."""
    if not zone.has_ease:
        return f"less downforce, or under {zone.ease:g} s of easing off"
    least = math.ceil(round(zone.eased_at / KMH, 6))
    return f"at least {least}, with {zone.ease:g} s of easing off"


def _wrong_beats(level: Level, zone: BrakingZone) -> tuple[str, str, str] | None:
    key, beats = "gears" if level.listed["gears"] else "shifts", beats_of(level)
    closest = min((after - before for before, after in pairwise(beats)), default=CLOSEST)
    if round(closest, 3) < CLOSEST:
        return key, f"blips at least {CLOSEST:g} s apart", f"{closest:.3f} s"
    if round(beats[0], 3) < SOONEST:
        return key, f"the first blip at least {SOONEST:g} s after braking", f"{beats[0]:.3f} s"
    left = zone.seconds - beats[-1]
    if round(left, 3) < ROOM:
        return key, f"the last blip at least {ROOM:g} s before turn-in", f"{left:.3f} s"
    return None


def _wrong_limits(level: Level, zone: BrakingZone) -> tuple[str, str, str] | None:
    """Why a limit on the line cannot be judged: the blips leave too little of it."""
    beats = beats_of(level)
    ends = [0.0, *(beat + OF_A_BLIP for beat in beats)]
    begins = [*(beat - FROM / 1000 for beat in beats), zone.seconds]
    begins[0] -= OF_A_SQUEEZE
    left = sum(max(at - end, 0.0) for end, at in zip(ends, begins, strict=True))
    limited = [name for name in level.limits if name in OF_THE_LINE]
    if not limited or round(left, 3) >= LINE_LEAST:
        return None
    [name, *_] = limited
    expected = f"none, or blips that leave at least {LINE_LEAST:g} s of the line"
    return f"limits.{name}", expected, f"{left:.3f} s"


def _given(task: Task, done: Performance, cue: int) -> int:
    """When a cue was given or, where the zone ended before it, due; in ns as of the trace."""
    if cue < len(done.cues):
        return done.cues[cue]
    return done.cues[0] + nanoseconds(task.cues[cue] - task.cues[0])


def _road(level: Level) -> Stop:
    """Braking from the first blip on, at the mean deceleration from there to turn-in."""
    zone, first = zone_of(level), beats_of(level)[0]
    speed = zone.speed(first)
    return Stop(speed, zone.slow, (speed - zone.slow) / (zone.seconds - first))
