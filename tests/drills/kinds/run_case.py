"""One run of blips as a person might do it, by values: what the table of runs is made of."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from drills.kinds import KINDS
from drills.level import Level
from drills.score import Reason
from tests.drills.kinds.made import TIME, Made, lines, made, square
from tests.drills.shapes import Values
from tests.made import BLIP

USUAL = {"dip": 15.0, "surge": 15.0, "spacing_error": 0.15, "offset": 5.0}
RUN = replace(
    BLIP,
    id="a-run",
    kind=KINDS["run"],
    limits=USUAL,
    own={**BLIP.own, "tempo": 0.8, "blips.least": 3.0, "blips.most": 3.0},
)
HELD = lines((0, 60.0))
ON_TIME = (0.2, 0.2, 0.2)
FIRST, SECOND, THIRD = (1.8, 2.6, 3.4)
"""s from the first beat, onsets of blips that come 0.2 s after their cues."""


def run_of(
    late: Sequence[float],
    brake: Values = HELD,
    lengths: Sequence[float] = (0.2, 0.2, 0.2, 0.2),
    peak: float = 70.0,
    asked: Level = RUN,
    given: int | None = None,
) -> Made:
    """A run whose blips come so many s after their cues, two beats being counted first."""
    tempo = asked.own["tempo"]
    throttle = np.zeros(TIME.size)
    for place, (one, length) in enumerate(zip(late, lengths, strict=False)):
        throttle = np.maximum(throttle, square((2 + place) * tempo + one, length, peak))
    return made(asked, brake, throttle, given=given)


@dataclass(frozen=True)
class Case:
    """One run of three at 60 %, with its sentence, its verdict and its bubble."""

    name: str
    said: str
    brake: Values = field(default_factory=lambda: HELD)
    late: tuple[float, ...] = ON_TIME
    lean: float | None = 0.0
    reason: Reason = Reason.OVER_LIMIT
    limits: dict[str, float] = field(default_factory=lambda: dict(USUAL))
    blip: dict[str, float] = field(default_factory=dict)
    lengths: tuple[float, ...] = (0.2, 0.2, 0.2, 0.2)
    peak: float = 70.0

    @property
    def made(self) -> Made:
        """The repetition."""
        own = {**RUN.own, **self.blip}
        asked = replace(RUN, limits=self.limits, own=own)
        return run_of(self.late, self.brake, self.lengths, self.peak, asked)


def two(**own: float) -> dict[str, float]:
    """What a level of two blips says."""
    return {"blips.least": 2.0, "blips.most": 2.0, **own}
