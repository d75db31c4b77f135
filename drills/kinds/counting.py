"""The drill kind "counting": blip as in the kind "blip", and count the high knocks meanwhile.

A habit goes by itself when it survives a second task that takes the attention away. Repetitions
come in pairs, one with knocks to count and one without, and what counting costs is the difference
between them. Methods of the second task, each from memory: Abernethy 1988, dual-task methodology
and motor skills research (report both tasks, and the first one alone); Schmidt & Lee, Motor Control
and Learning, on attention and automaticity; Beilock et al. 2002, who had skilled golfers and
footballers listen for tones among others.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from drills.coach import Prompt, brake_to
from drills.foreperiod import Foreperiod
from drills.kinds.asked_size import BLIP_KEYS, to_size
from drills.kinds.blip import BlipDrill
from drills.kinds.blipping import TAIL
from drills.level import Level
from drills.level_key import Key
from drills.score import Verdict
from drills.task import Knock, Task
from drills.trace import Values

FIRST = 0.3
"""Time from the start of the dark in which no knock comes, in s."""
CLEAR = 0.4
"""Time before the cue in which no knock comes, in s, so that none is taken for the cue."""
APART = 0.1
"""Least time from the cue to the next knock, in s: both are heard apart."""
FEWEST = 2
"""Fewest high knocks before the cue, where as many knocks fit: there is always something to
count."""
COUNT = "Count the high knocks."
NOTHING = "Nothing to count."
OFF_BY = 1
"""Farthest that an answer may be from the number of high knocks: the last one may come as the
repetition ends."""


class CountingDrill(BlipDrill):
    """The kind of drill that asks for one blip while the player counts high knocks."""

    name = "counting"
    title = "Blip while counting"
    keys = (
        *BLIP_KEYS,
        Key(
            *("least", 0.35, 0.9, 0.5),
            table="knocks",
            most="most",
            about="s, shortest time from one knock to the next",
        ),
        Key(
            *("most", 0.55, 0.9, 0.9),
            table="knocks",
            about="s, longest time from one knock to the next",
        ),
        Key("high", 0.2, 0.8, 0.4, table="knocks", about="share of the knocks that are high"),
    )
    measures = (*BlipDrill.measures, "knocks", "counted")
    guess_measure = ""
    foreperiod = Foreperiod(shift=3.0, mean=1.0, cut=3.0)
    needs_sound = True
    in_pairs = True

    def task(self, level: Level, target: float, rng: np.random.Generator) -> Task:
        task = super().task(level, target, rng)
        if not level.second_task:
            return task
        ends = task.wait + sum(move.within for move in task.moves) + TAIL
        times = _times(level, task.wait, ends, rng)
        is_high = _which_are_high(level, times < task.wait, rng)
        pairs = zip(times.tolist(), is_high.tolist(), strict=True)
        return replace(task, knocks=tuple(Knock(at, high) for at, high in pairs))

    def prompt(self, level: Level, task: Task) -> Prompt:
        first = COUNT if task.knocks else NOTHING
        return brake_to(task, f"{first} Dark, then the cue: one blip{to_size(level)}")

    def note(self, verdict: Verdict) -> str:
        """How many high knocks there were, and how many were counted; empty where none were."""
        high, said = verdict.measures.get("knocks"), verdict.measures.get("counted")
        if high is None or said is None:
            return ""
        word = "knock" if high == 1 else "knocks"
        return f"{high:.0f} high {word}, counted {said:.0f}."


def _times(level: Level, cue: float, ends: float, rng: np.random.Generator) -> Values:
    """When each knock comes, in s from the start of the dark, shape (n,); the last at most `ends`.

    They are drawn from the cue (s) outwards, so that every gap is one that the level allows.
    """
    least, most = level.own["knocks.least"], level.own["knocks.most"]
    across = rng.uniform(max(least, CLEAR + APART), most)
    before = rng.uniform(CLEAR, across - APART)
    times = [cue - before]
    while (earlier := times[0] - rng.uniform(least, most)) >= FIRST:
        times.insert(0, earlier)
    times.append(cue - before + across)
    while (later := times[-1] + rng.uniform(least, most)) <= ends:
        times.append(later)
    return np.array([at for at in times if at >= FIRST], dtype=np.float64)


def _which_are_high(
    level: Level, is_before: NDArray[np.bool_], rng: np.random.Generator
) -> NDArray[np.bool_]:
    """Whether each knock is high, shape (n,); at least FEWEST of those before the cue."""
    is_high: NDArray[np.bool_] = rng.random(is_before.size) < level.own["knocks.high"]
    lacking = max(FEWEST - int(np.count_nonzero(is_high & is_before)), 0)
    low = rng.permutation(np.flatnonzero(is_before & ~is_high))
    is_high[low[:lacking]] = True
    return is_high


def is_counted(knocks: int, counted: int) -> bool:
    """Whether an answer is near enough to the number of high knocks for the repetition to count."""
    return abs(counted - knocks) <= OFF_BY
