"""The mix: each repetition is one of the levels passed, kind and target new every time.

What comes is named just before the brake is found, so a mixed level has no drill of its own:
it draws one, and that one asks, judges and tells.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import NoReturn

import numpy as np

from drills.kinds.base import Kind
from drills.level import Key, Level
from drills.refusal import Refusal
from drills.trace import Pedal

NAME = "mixed"


class NothingToDrawError(Refusal):
    """A mixed level was to be played and there is no level to draw from."""


def _draw(
    level: Level, passed: Sequence[Level], before: Level | None, rng: np.random.Generator
) -> Level:
    """One of the hardest levels passed of a kind other than the last one's, if there is one.

    `passed` come the easiest first. What is drawn is asked at the targets of the mixed level, its
    help and the pedals staying its own. Raises NothingToDrawError.
    """
    hardest = round(level.own["hardest"])
    of_kind: dict[str, list[Level]] = {}
    for one in passed:
        if one.kind.name != NAME:
            of_kind.setdefault(one.kind.name, []).append(one)
    if not of_kind:
        raise NothingToDrawError(f"{level.title}: expected a level passed to draw from, found none")
    others = [name for name in of_kind if before is None or name != before.kind.name]
    names = others or list(of_kind)
    among = of_kind[names[int(rng.integers(len(names)))]][-hardest:]
    drawn = among[int(rng.integers(len(among)))]
    return replace(drawn, targets=level.targets, aid=level.aid)


def _undrawn(level: Level, *_: object) -> NoReturn:
    raise NothingToDrawError(f"{level.title}: expected a level drawn from it first, found none")


MIXED = Kind(
    name=NAME,
    pedals=(Pedal.BRAKE, Pedal.THROTTLE),
    keys=(
        Key(
            *("hardest", 1, 10, 2),
            whole=True,
            about="levels of each kind that are drawn from, the hardest of those passed",
        ),
    ),
    measures=(),
    shown=(),
    task=_undrawn,
    judge=_undrawn,
    prompt=_undrawn,
    tell=_undrawn,
    deviation=_undrawn,
    called="Anything",
    draw=_draw,
)
