"""What a kind of drill says of itself: all that the rest of the program knows of it."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from drills.coach import not_counted
from drills.deviation import Deviation
from drills.level import Key, Level
from drills.measures.blip import OFF
from drills.measures.catalogue import limitable
from drills.score import Reason, Verdict
from drills.task import Band, Performance, Task
from drills.trace import SECOND, Pedal, nanoseconds

AT_REST: Band = (-math.inf, math.nextafter(OFF, 0.0))
"""%, a pedal that is let go: under 5 %, so that a blip that follows can end."""


@dataclass(frozen=True)
class Prompt:
    """The words on the screen before the dark."""

    asked: str
    """What to do with the value, a word or two."""
    value: str
    """What must be seen at a glance."""
    then: str
    """One line: what comes once it is dark."""
    find: str = "Find it, then keep it there"
    """A few words while the pedals are not yet where it begins."""
    keep: str = "Keep it there"
    """A few words while they are."""


def brake_to(task: Task, then: str) -> Prompt:
    """The words where a brake is to be held; `then` says what comes once it is dark."""
    return Prompt("Brake to", f"{task.target:.0f} %", then)


@dataclass(frozen=True)
class Kind:
    """One kind of drill."""

    name: str
    """As level files call it."""
    pedals: tuple[Pedal, ...]
    """Pedals it cannot do without."""
    keys: tuple[Key, ...]
    """What its levels say beside what every level says."""
    measures: tuple[str, ...]
    """Names of the measures a verdict holds, in order; all stand in the catalogue."""
    shown: tuple[str, ...]
    """Names of those worth a place on the reveal, most telling first."""
    task: Callable[[Level, float, np.random.Generator], Task]
    """What a repetition of a level at a target (%) asks, with chance drawn from the generator."""
    judge: Callable[[Level, Task, Performance], Verdict]
    """The verdict on what was done."""
    prompt: Callable[[Level, Task], Prompt]
    """The words before the dark."""
    tell: Callable[[Level, Verdict], str]
    """One sentence on a repetition that counts: what the foot did, and what to change."""
    deviation: Callable[[Level, Task, Performance, Verdict], Deviation | None]
    """The picture of a repetition that counts; None where there is nothing to show."""

    missed: Callable[[Level, Verdict], tuple[str, str, str] | None] = lambda *_: None
    """Where what was asked was not done: what of, what came, and what was asked, in short."""
    called: str = ""
    """What a repetition of it is, in a few words for a person."""
    first: str = "throttle"
    """The pedal that answers the cue, for a person."""
    guessed: str = ""
    """Name of the measure that a player may be asked to guess; empty where there is none."""
    learned: str = ""
    """Name of the measure whose course over repetitions says how the foot learns; empty for none.
    Less of it is better, and it has no sign."""
    asks: str = "How far did the brake fall?"
    """How that is asked."""
    draw: Callable[[Level, Sequence[Level], Level | None, np.random.Generator], Level] = (
        lambda level, *_: level
    )
    """Which level a repetition is really of, by those passed and the one before it."""
    wrong: Callable[[Level], tuple[str, str, str] | None] = lambda _: None
    """What of a level cannot be played: the key, what was expected, and what was found."""
    lean: Callable[[Level, Verdict], float | None] = lambda *_: None
    """The way the brake went, -1 light to 1 heavy; None where the bubble has nothing to say."""

    @property
    def limited(self) -> tuple[str, ...]:
        """Names of the measures that a level may limit."""
        return limitable(self.measures)

    def sentence(self, level: Level, verdict: Verdict) -> str:
        """What to tell the person about one repetition of `level`, whether it counts or not."""
        if verdict.void:
            return not_counted(verdict, self.first)
        if verdict.reason is Reason.WALKED_OUT:
            return "You left before the end, so it counts as not clean."
        return self.tell(level, verdict)


def unjudged(reason: Reason, task: Task, done: Performance | None) -> Verdict:
    """The verdict on a repetition that ended before it could be judged.

    Where a pedal did not wait for the cue, it says how long before that was due (s, negative).
    """
    if not reason.void:
        return Verdict(reason, 0.0)
    if reason is not Reason.ANTICIPATION or done is None or not task.cues:
        return Verdict(reason)
    due = done.began + nanoseconds(task.wait + task.cues[0])
    early = (int(done.trace.time[-1]) - due) / SECOND
    return Verdict(reason, measures={"reaction": early})
