"""The drill kind "run": two to four blips at a counted-in tempo, while the brake is held."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from drills.coach import Prompt, brake_to
from drills.deviation import Bound, Deviation, Span
from drills.fault import Fault
from drills.kinds import cause, run_words, shift_words
from drills.kinds.asked_size import BLIP_KEYS, SIZE, BlippingKind, to_size
from drills.kinds.blip_picture import (
    against_target,
    bound,
    decided,
    is_of_target,
    picture_about_cue,
    reach,
    run_with_picture,
)
from drills.kinds.blip_words import lean_of
from drills.kinds.blipping import (
    OF_THE_BLIP,
    RECORDED,
    TAIL,
    blip_moves,
    find_run,
    first_that_holds,
    is_brake_let_go,
    measures_of,
    put_dip_first,
    shape_faults,
)
from drills.kinds.shifting import limits_of, shift_measures, with_shifts
from drills.level import Level
from drills.level_key import Key
from drills.measures.base import base_before, base_before_beat
from drills.measures.blip import BEFORE_TO, ON
from drills.measures.catalogue import PLACES
from drills.measures.disturbance import AFTER, OF_A_RUN, RELEASED, Run
from drills.measures.shift import SHIFT, SHIFT_BY_PLACE
from drills.measures.tempo import farthest, lateness, spacing_error
from drills.remark import Headline, Remark
from drills.score import Judged, Reason, Verdict, weigh, within
from drills.task import AT_REST, Performance, Signal, Task
from drills.trace import SECOND, Grid, Pedal, nanoseconds

COUNTED = 2
"""Number of count-in beats before the first cue of a run: two tell a tempo, more only delay."""
SHOWN_AFTER = 1.5
"""Time after the last cue that the picture of a run still shows, in s."""
KEYS = (
    *BLIP_KEYS,
    Key("tempo", 0.4, 2.0, about="s from one blip to the next"),
    Key("least", 2, 4, 3, whole=True, table="blips", most="most", about="fewest blips asked"),
    Key("most", 2, 4, 3, whole=True, table="blips", about="most blips asked"),
)
SINGLE = tuple(name for name in OF_THE_BLIP if name not in ("reaction", "rise", "fall"))
"""Names of the measures of the blip with the deepest dip; the width is the widest blip's."""
ON_EVERY_BLIP = ("dip", "surge", "rebound")
"""Names of the measures whose limits are drawn over the window of each blip of a run."""
BY_PLACE = tuple(f"{name}_{place}" for name in ("dip", "lateness") for place in PLACES)
"""Names of the measures that each blip of a run has under its place, such as the dip of the 2nd."""
OF_THE_SHIFT = (SHIFT, *SHIFT_BY_PLACE)
"""Names of the measures of the shifts, where a shift button is bound."""


@dataclass(frozen=True)
class _Beats:
    """When the blips of a run are cued."""

    cues: tuple[float, ...]
    """Times at which the blips of a run are cued, in s on the axis of the trace."""
    tempo: float
    """Time from one cue of a run to the next, in s."""

    @classmethod
    def of(cls, task: Task, done: Performance) -> _Beats:
        """Every cue of a run, as given or, where the run ended before it, as due."""
        zero = done.cues[0] / SECOND - task.cues[0]
        cues = [
            done.cues[k] / SECOND if k < len(done.cues) else zero + task.cues[k] for k in task.acts
        ]
        return cls(tuple(cues), task.cues[1] - task.cues[0])


class RunDrill(BlippingKind):
    """The kind of drill that asks for a run of blips while the brake is held."""

    name = "run"
    title = "A run of blips"
    a_blip = "A blip"
    pedals = (Pedal.BRAKE, Pedal.THROTTLE)
    keys = KEYS
    measures = (*OF_A_RUN, *SINGLE, "spacing_error", "lateness", *BY_PLACE, *OF_THE_SHIFT)
    reveal_measures = ("dip", "spacing_error", "lateness", "settle", SHIFT)
    guess_measure = "dip"
    guess_question = "How far did the brake fall, at the worst of the blips?"
    learning_measure = "dip"
    is_diagnosed = True

    def task(self, level: Level, target: float, rng: np.random.Generator) -> Task:
        tempo, wait = level.own["tempo"], level.foreperiod.draw(rng)
        fewest, most = round(level.own["blips.least"]), round(level.own["blips.most"])
        count = int(rng.integers(fewest, most, endpoint=True))
        beats = COUNTED + count
        moves = [
            blip_moves(beat, (beats - 1 - beat) * tempo + RECORDED)
            for beat in range(COUNTED, beats)
        ]
        return Task(
            target=target,
            start={Pedal.BRAKE: level.around(target), Pedal.THROTTLE: AT_REST},
            wait=wait,
            cues=tuple(beat * tempo for beat in range(beats)),
            signals=(Signal.COUNT,) * COUNTED + (Signal.CUE,) * count,
            moves=tuple(move for pair in moves for move in pair),
            size=level.own[SIZE],
            lasts=(beats - 1) * tempo,
            tail=TAIL,
            early={Pedal.THROTTLE: ON},
        )

    def judge(self, level: Level, task: Task, done: Performance) -> Judged:
        grid, beat = Grid.of(done.trace), _Beats.of(task, done)
        base = base_before_beat(grid, nanoseconds(beat.cues[0]))
        run = find_run(level, grid, done.cues[0], base, len(task.acts))
        if isinstance(run, Verdict):
            return Judged(task, done, run, grid)
        shifts = shift_measures(grid, [pulse for pulse, _ in run.blips])
        measures = {**_measures(run, beat, task), **shifts}
        shortcoming = _shortcoming(level, grid, run, measures, beat)
        verdict = weigh(measures, limits_of(level, grid), shortcoming)
        return Judged(task, done, put_dip_first(verdict, run), grid, run)

    def prompt(self, level: Level, task: Task) -> Prompt:
        tempo, blips = task.cues[1] - task.cues[0], len(task.acts)
        return brake_to(
            task,
            f"Dark, {COUNTED} knocks, then {blips} clicks {tempo:g} s apart: "
            f"blip{to_size(level)} on each",
        )

    def comment(self, level: Level, verdict: Verdict) -> Remark:
        return shift_words.comment(verdict) or run_words.comment(level, verdict)

    def note(self, verdict: Verdict) -> str:
        return shift_words.note(verdict)

    def picture(self, level: Level, judged: Judged) -> Deviation | None:
        figure = self.headline(level, judged.verdict)
        return with_shifts(self._picture(level, judged, figure), judged, figure)

    def _picture(self, level: Level, judged: Judged, figure: Headline | None) -> Deviation | None:
        pictured = run_with_picture(judged)
        if pictured is None:
            return picture_about_cue(level, judged)
        run, picture = pictured
        beat, first = _Beats.of(judged.task, judged.done), run.blips[0][0]
        if is_of_target(judged.verdict):
            asked = base_before_beat(judged.grid, nanoseconds(beat.cues[0]))
            return against_target(level, judged, base_before(first.first, asked), figure)
        last = beat.tempo * (len(beat.cues) - 1)
        picture = replace(
            picture,
            span=(picture.span[0], max(picture.span[1], round(last + SHOWN_AFTER, 1))),
            cues=tuple(cue - first.onset for cue in beat.cues),
            reach=reach(level),
            bounds=_bounds(level, judged.grid, run),
        )
        return decided(level, judged.verdict, run, picture, figure)

    def missed(self, level: Level, verdict: Verdict) -> tuple[str, str, str] | None:
        return run_words.missed(level, verdict)

    def lean(self, level: Level, verdict: Verdict) -> float | None:
        return lean_of(verdict)

    def fault(self, verdict: Verdict) -> Fault | None:
        return cause.of_blip(verdict)


def _measures(run: Run, beat: _Beats, task: Task) -> dict[str, float | None]:
    onsets = [pulse.onset for pulse, _ in run.blips]
    worst = max(run.blips, key=lambda blip: blip[1].dip)
    measures = measures_of(replace(run, blips=(worst,)), 0.0, task.target)
    measures = {name: measures[name] for name in (*OF_A_RUN, *SINGLE)}
    measures["width"] = max(pulse.width for pulse, _ in run.blips)
    measures["spacing_error"] = spacing_error(onsets, beat.tempo)
    if len(onsets) == len(beat.cues):
        late = lateness(onsets, beat.cues)
        measures["lateness"] = farthest(late)
        measures |= {f"lateness_{place}": one for place, one in zip(PLACES, late, strict=False)}
    dips = [done.dip for _, done in run.blips]
    return measures | {f"dip_{place}": one for place, one in zip(PLACES, dips, strict=False)}


def _shortcoming(
    level: Level, grid: Grid, run: Run, measures: Mapping[str, float | None], beat: _Beats
) -> Reason | None:
    return first_that_holds(
        {
            Reason.LET_GO: is_brake_let_go(grid, run),
            Reason.OFF_TARGET: not within(measures["base_error"], level.approach_band),
            Reason.EXTRA_BLIP: len(run.blips) > len(beat.cues),
            Reason.FEW_BLIPS: len(run.blips) < len(beat.cues),
            Reason.OFF_BEAT: not within(measures.get("lateness"), beat.tempo / 2),
            **shape_faults(level, [pulse for pulse, _ in run.blips]),
        }
    )


def _bounds(level: Level, grid: Grid, run: Run) -> tuple[Bound, ...]:
    """Limits in the picture of a run: those on every blip over each window, the others once."""
    zero = run.blips[0][0].onset
    found: list[Bound] = []
    for name in ON_EVERY_BLIP:
        once = bound(level, run, name) if name in level.limits else None
        if once is None:
            continue
        windows = [
            (pulse.onset + done.dip_at if name == "rebound" else opens, closes)
            for (opens, closes), (pulse, done) in zip(_windows(grid, run), run.blips, strict=True)
        ]
        for number, (opens, closes) in enumerate(_joined(windows)):
            during = (opens - zero, closes - zero)
            found.append(replace(once, label="" if number else once.label, during=during))
    at_end = [bound(level, run, name) for name in level.limits if name not in ON_EVERY_BLIP]
    return (*found, *(one for one in at_end if one is not None))


def _windows(grid: Grid, run: Run) -> list[Span]:
    """Measured window of each blip, in s on the axis of the trace; letting the brake go ends it."""
    later = [grid.seconds(pulse.first - BEFORE_TO) for pulse, _ in run.blips[1:]]
    opens = [run.start, *later]
    windows = []
    for number, (pulse, _) in enumerate(run.blips):
        following = [*opens[1:], run.stop][number]
        close = min(pulse.after + AFTER, grid.index(nanoseconds(following)))
        released = np.flatnonzero(grid.brake[pulse.after + 1 : close] < RELEASED)
        if released.size:
            close = pulse.after + 1 + int(released[0])
        windows.append((opens[number], grid.seconds(close)))
    return windows


def _joined(windows: Sequence[Span]) -> list[Span]:
    """Windows in order of time, those that touch or overlap joined into one."""
    joined: list[Span] = []
    for opens, closes in windows:
        if joined and opens <= joined[-1][1]:
            joined[-1] = (joined[-1][0], closes)
        else:
            joined.append((opens, closes))
    return joined
