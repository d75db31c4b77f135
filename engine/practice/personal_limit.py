"""Personal limit: one factor on all limits of a level that three of four repetitions stay within.

The factor of a repetition is the largest of its measures over their limits, `max(x / L)`, as in its
score. The personal limit is the 75 % quantile of the newest 36, as steadiness is.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import log2

from drills.score import ABSENT
from engine.practice.steadiness import WINDOW
from engine.practice.steadiness_interval import upper_quartile


@dataclass(frozen=True)
class PersonalLimit:
    """A player's newest repetitions of one level, as multiples of its limits."""

    loads: tuple[float, ...] = ()
    """Factor of each of the newest repetitions that count, oldest first, at most 36."""
    best: float | None = None
    """Lowest personal limit that there ever was; None where there was none."""

    @property
    def factor(self) -> float | None:
        """The personal limit, a factor on the level's limits; None before 36 repetitions."""
        return upper_quartile(self.loads) if len(self.loads) >= WINDOW else None


def load_of(score: float) -> float:
    """Factor of a repetition on its limits, from its score (0 to 100); at most that of a value
    that could not be measured."""
    return min(-log2(score / 100), ABSENT) if score > 0 else ABSENT
