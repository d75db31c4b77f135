"""One way down as a person might come, by values: what the table of ways down is made of."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Any

import numpy as np

from drills.kinds import KINDS
from drills.level import Level
from drills.score import Reason
from tests.drills.kinds.made import TIME, Made, lines, made, square
from tests.drills.shapes import Values
from tests.made import BLIP

EASE = 2.5  # s
STARTS = 0.3  # s, the foot answers the tone
USUAL = {"dip": 10.0, "surge": 10.0, "ramp_worst": 12.0, "reversals": 2.0}
TRAIL = replace(
    BLIP,
    id="a-way-down",
    kind=KINDS["trail"],
    limits=USUAL,
    own={**BLIP.own, "ease": EASE, "blips": 0.0},
)
DOWN = lines((STARTS, 60.0), (STARTS + EASE, 0.0))


def asks(blips: int, **changes: Any) -> Level:
    """A way down with blips on it."""
    return replace(TRAIL, own={**TRAIL.own, "blips": float(blips)}, **changes)


def way_of(
    brake: Values,
    at: Sequence[float] = (),
    asked: Level = TRAIL,
    lengths: Sequence[float] = (0.2, 0.2, 0.2),
    peak: float = 70.0,
) -> Made:
    """A way down with blips so many s after its cue."""
    throttle = np.zeros(TIME.size)
    for one, length in zip(at, lengths, strict=False):
        throttle = np.maximum(throttle, square(one, length, peak))
    return made(asked, brake, throttle)


@dataclass(frozen=True)
class Case:
    """One way down from 60 %, with its sentence, its verdict and its bubble."""

    name: str
    said: str
    brake: Values = field(default_factory=lambda: DOWN)
    blips: int = 0
    at: tuple[float, ...] = ()
    lean: float | None = 0.0
    reason: Reason = Reason.OVER_LIMIT
    limits: dict[str, float] = field(default_factory=lambda: dict(USUAL))
    blip: dict[str, float] = field(default_factory=dict)
    lengths: tuple[float, ...] = (0.2, 0.2, 0.2)
    peak: float = 70.0

    @property
    def made(self) -> Made:
        """The repetition."""
        asked = asks(self.blips, limits=self.limits)
        asked = replace(asked, own={**asked.own, **self.blip})
        return way_of(self.brake, self.at, asked, self.lengths, self.peak)
