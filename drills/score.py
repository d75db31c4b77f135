"""Verdict on a repetition: its outcome, its score, and what it is made from."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from enum import StrEnum

import numpy as np

from drills.measures.jumps import Jump
from drills.task import Performance, Task
from drills.trace import SECOND, Grid, Pedal, Trace, nanoseconds

TIMINGS = frozenset(
    {
        *("reaction", "width", "rise", "fall", "lateness", "spacing_error"),
        *("clutch_down", "clutch_up", "shift_at", "brake_on", "off_at"),
    }
)
"""Names of the measures that time a foot and say nothing of how heavy the brake was."""
TOLD = 0.9
"""Share of its limit over which a timing that is clean is told before the brake."""
ABSENT = 4.0
"""Load counted for a measure without a value, in multiples of its limit."""


class Reason(StrEnum):
    """Outcome of a repetition: those of the first group count, those of the second are void."""

    CLEAN = "clean"
    OVER_LIMIT = "over limit"
    NO_BLIP = "no blip"
    EXTRA_BLIP = "extra blip"
    LATE = "late blip"
    LIGHT = "light blip"
    HEAVY = "heavy blip"
    LONG = "long blip"
    SHORT = "short blip"
    OFF_TARGET = "off target"
    LET_GO = "brake let go"
    WALKED_OUT = "left after the cue"
    FEW_BLIPS = "too few blips"
    OFF_BEAT = "off the beat"
    CUT_SHORT = "released with the blip"
    NOT_PRESSED = "not pressed"
    NOT_EASED = "not eased off"
    NO_CLUTCH = "no clutch"
    BLIP_FIRST = "blip before the clutch"
    CLUTCH_FIRST = "clutch before the blip was over"
    CLUTCH_STAYED = "clutch stayed down"
    SHIFT_FIRST = "shift before the blip"
    SHIFT_LAST = "shift after the clutch"
    NOT_SCORED = "not scored"

    ANTICIPATION = "anticipation"
    NO_TARGET = "no target"
    GAP = "gap"
    UNPLUGGED = "unplugged"
    FOCUS_LOST = "focus lost"
    LEFT = "left"
    SELDOM = "pedals report too seldom"
    AT_END = "brake at its end"
    NOT_MOVED = "brake did not move"
    STALLED = "pedals stalled"
    JUMPED = "pedal jumped"
    OFF_SIZE = "blip off its size"
    MISCOUNTED = "miscounted"
    UNHEARD = "knocks not heard"

    @property
    def void(self) -> bool:
        """Whether a repetition with this outcome counts for nothing."""
        return self in _VOID


WEIGHED = frozenset({Reason.CLEAN, Reason.OVER_LIMIT})
"""Outcomes of repetitions in which all that was asked was done, so that the measures decide."""
OF_THE_PEDALS = frozenset(
    {Reason.SELDOM, Reason.AT_END, Reason.NOT_MOVED, Reason.STALLED, Reason.JUMPED}
)
"""Outcomes of repetitions that are void for what the pedals did, whatever the foot did."""
_VOID = OF_THE_PEDALS | {
    Reason.ANTICIPATION,
    Reason.NO_TARGET,
    Reason.GAP,
    Reason.UNPLUGGED,
    Reason.FOCUS_LOST,
    Reason.LEFT,
    Reason.OFF_SIZE,
    Reason.MISCOUNTED,
    Reason.UNHEARD,
}


@dataclass(frozen=True)
class Verdict:
    """Outcome and score of a repetition, and the measures behind them."""

    reason: Reason
    """Outcome of the repetition."""
    score: float | None = None
    """Score of the repetition, 0 to 100; None where it is void."""
    over: tuple[str, ...] = ()
    """Names of the measures over their limit, in the order of the level's limits."""
    measures: Mapping[str, float | None] = field(default_factory=dict)
    """Measures by name, in the catalogue's units; of a void one only what made it void."""
    worst: str = ""
    """Name of the measure that decided, which the reveal is about; empty for none.

    It is the one furthest over its limit, without a value only where none with a value is over. Of
    a clean repetition it is the one nearest its limit, a timing only where it is over TOLD of it
    or the brake has no limit.
    """
    pedal: Pedal | None = None
    """Pedal that made the repetition void by what it did; None for none, or for all of them."""

    def amount(self, name: str) -> float:
        """Value of a measure by its name; 0 where it has none."""
        return self.measures.get(name) or 0.0

    @property
    def points(self) -> str:
        """Score as text: rounded down, so that 50 is clean; a dash where the repetition is void."""
        return "-" if self.score is None else f"{math.floor(self.score)}"

    @property
    def clean(self) -> bool:
        """Whether all that was asked was done, with every measure within its limit."""
        return self.reason is Reason.CLEAN

    @property
    def void(self) -> bool:
        """Whether the repetition counts for nothing."""
        return self.reason.void


@dataclass(frozen=True, eq=False)
class Judged:
    """A repetition that was judged once: its sentence, figures and picture are made from this."""

    task: Task
    """What the repetition asked of the feet."""
    done: Performance
    """What was done in the repetition."""
    verdict: Verdict
    """Outcome and score of the repetition."""
    grid: Grid
    """Pedals of the repetition on the 1 ms grid."""
    measured: object = None
    """What the kind measured and draws in its picture; None where it measured nothing."""
    jumps: tuple[Jump, ...] = ()
    """Jumps of the pedals that were taken out before the foot was judged."""


def anticipation(reaction: float) -> Verdict:
    """Verdict on an answer `reaction` s after the cue, too soon to be an answer to it."""
    return Verdict(Reason.ANTICIPATION, measures={"reaction": reaction})


def unjudged(reason: Reason, task: Task, done: Performance) -> Judged:
    """Verdict on a repetition that ended, for `reason`, before it could be judged.

    The verdict on a pedal that did not wait for the cue holds how long before the cue it came, as
    a negative `reaction` in s.
    """
    verdict = Verdict(reason, None if reason.void else 0.0)
    if reason is Reason.ANTICIPATION and task.cues:
        due = done.began + nanoseconds(task.wait + task.cues[0])
        verdict = anticipation((_moved_early(task, done.trace) - due) / SECOND)
    return Judged(task, done, verdict, Grid.of(done.trace))


def _moved_early(task: Task, trace: Trace) -> int:
    """When the pedal moved that did not wait for the cue, in ns: it is down at the trace's end."""
    columns = {Pedal.BRAKE: trace.brake, Pedal.THROTTLE: trace.throttle, Pedal.CLUTCH: trace.clutch}
    down = np.zeros(trace.time.size, dtype=bool)
    for pedal, at in task.early.items():
        column = columns[pedal]
        if column is not None:
            down |= column >= at
    up = np.flatnonzero(~down)
    return int(trace.time[min(int(up[-1]) + 1, down.size - 1) if up.size else 0])


def within(value: float | None, limit: float) -> bool:
    """Whether the size of a measure's value is at most its limit; a value of None never is."""
    return value is not None and abs(value) <= limit


def load(value: float | None, limit: float) -> float:
    """Size of a measure's value, in multiples of its limit."""
    return ABSENT if value is None else abs(value) / limit


def score(loads: Iterable[float]) -> float:
    """Score of values x and limits L, `100 * 2 ** -max(x / L)`: 100 is perfect, 50 on a limit."""
    return float(100 * 2.0 ** -max(loads, default=0.0))


def weigh(
    measures: Mapping[str, float | None],
    limits: Mapping[str, float],
    shortcoming: Reason | None = None,
) -> Verdict:
    """Verdict on a repetition that counts, by its measures and their limits.

    `shortcoming` names what was asked and not done: the score is 0 then, however still the brake
    was. Without one the reason says whether every measure is within its limit.
    """
    loads = {name: load(measures.get(name), limit) for name, limit in limits.items()}
    over = tuple(name for name, limit in limits.items() if not within(measures.get(name), limit))
    worst = _worst(loads, over, measures) if measures else ""
    if shortcoming is not None:
        return Verdict(shortcoming, 0.0, over if measures else (), measures, worst)
    reason = Reason.OVER_LIMIT if over else Reason.CLEAN
    return Verdict(reason, score(loads.values()), over, measures, worst)


def _worst(
    loads: Mapping[str, float], over: Sequence[str], measures: Mapping[str, float | None]
) -> str:
    nearest = max(loads, key=lambda name: loads[name], default="")
    if over:
        measured = [name for name in over if measures.get(name) is not None]
        return max(measured or over, key=lambda name: loads[name])
    if nearest in TIMINGS and loads[nearest] > TOLD:
        return nearest
    brake = [name for name in loads if name not in TIMINGS]
    return max(brake or loads, key=lambda name: loads[name], default="")
