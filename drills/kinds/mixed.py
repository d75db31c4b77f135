"""The drill kind "mixed": each repetition is drawn from the passed levels, in kind and target.

A mixed level has no drill of its own. What is drawn is named on the screen before the brake is
found, and is then asked, judged and described as a repetition of its own level.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import NoReturn

import numpy as np

from drills.level import Kind, Level
from drills.level_key import Key
from drills.refusal import Refusal
from drills.score import Judged, Verdict
from drills.task import Performance, Task
from drills.trace import Pedal


class NothingToDrawError(Refusal):
    """A mixed level cannot be played: there is no level to draw from, or none was drawn."""


class MixedDrill(Kind):
    """The kind whose levels draw another level for each repetition; it only implements `draw`."""

    name = "mixed"
    title = "Anything"
    pedals = (Pedal.BRAKE, Pedal.THROTTLE)
    keys = (
        Key(
            *("hardest", 1, 10, 2),
            whole=True,
            about="hardest levels of each kind passed that are drawn from",
        ),
    )

    def draw(
        self, level: Level, passed: Sequence[Level], before: Level | None, rng: np.random.Generator
    ) -> Level:
        """Level for the next repetition: one of the hardest passed, if possible of another kind.

        The targets and the aid are those of the mixed level. Raises NothingToDrawError.
        """
        hardest = round(level.own["hardest"])
        of_kind: dict[str, list[Level]] = {}
        for candidate in passed:
            if candidate.kind.name != self.name:
                of_kind.setdefault(candidate.kind.name, []).append(candidate)
        if not of_kind:
            raise NothingToDrawError(
                f"{level.title}: expected a level passed to draw from, found none"
            )
        others = [name for name in of_kind if before is None or name != before.kind.name]
        names = others or list(of_kind)
        among = of_kind[names[int(rng.integers(len(names)))]][-hardest:]
        drawn = among[int(rng.integers(len(among)))]
        return replace(drawn, targets=level.targets, aid=level.aid)

    def task(self, level: Level, target: float, rng: np.random.Generator) -> NoReturn:
        raise _undrawn(level)

    def judge(self, level: Level, task: Task, done: Performance) -> NoReturn:
        raise _undrawn(level)

    def prompt(self, level: Level, task: Task) -> NoReturn:
        raise _undrawn(level)

    def comment(self, level: Level, verdict: Verdict) -> NoReturn:
        raise _undrawn(level)

    def picture(self, level: Level, judged: Judged) -> NoReturn:
        raise _undrawn(level)


def _undrawn(level: Level) -> NothingToDrawError:
    return NothingToDrawError(f"{level.title}: expected a level drawn from it first, found none")
