"""From measured values and their limits to a score, and the verdict on a repetition."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from enum import StrEnum

ABSENT = 4.0
"""How many limits a value of none counts as."""


class Reason(StrEnum):
    """How a repetition ended: the first group counts, the second is void."""

    CLEAN = "clean"
    OVER_LIMIT = "over limit"
    NO_BLIP = "no blip"
    EXTRA_BLIP = "extra blip"
    NOT_SCORED = "not scored"

    ANTICIPATION = "anticipation"
    NO_TARGET = "no target"
    GAP = "gap"
    UNPLUGGED = "unplugged"
    FOCUS_LOST = "focus lost"
    LEFT = "left"

    @property
    def void(self) -> bool:
        """Whether a repetition that ended so counts for nothing."""
        return self in _VOID


_VOID = frozenset(
    {
        Reason.ANTICIPATION,
        Reason.NO_TARGET,
        Reason.GAP,
        Reason.UNPLUGGED,
        Reason.FOCUS_LOST,
        Reason.LEFT,
    }
)


@dataclass(frozen=True)
class Limit:
    """The largest value of a measure that is still clean."""

    at: float
    """Unit of the measure, above 0."""
    weight: float
    """1, share of this measure in the score; the weights of a drill sum to 1."""

    def kept(self, value: float | None) -> bool:
        """Whether a value of the measure keeps the limit; one with a sign by its size."""
        return value is not None and abs(value) <= self.at


@dataclass(frozen=True)
class Verdict:
    """What a repetition was worth, and why."""

    reason: Reason
    """How it ended."""
    score: float | None = None
    """0 to 100; None where the repetition is void."""
    over: tuple[str, ...] = ()
    """Names of the measures over their limit, in the order of the level."""
    measures: Mapping[str, float | None] = field(default_factory=dict)
    """Measures by name, in the units of their sections; empty where void."""

    @property
    def clean(self) -> bool:
        """Whether everything asked was done with every measure within its limit."""
        return self.reason is Reason.CLEAN

    @property
    def void(self) -> bool:
        """Whether the repetition counts for nothing."""
        return self.reason.void


def score(values: Sequence[float | None], limits: Sequence[Limit]) -> float:
    """`100 * 2 ** -sum(w x / L)`: 100 for a perfect repetition, 50 where all sit on their limit.

    `values` are the sizes of the measures (0 or more, None for none), in the order of `limits`.
    """
    load = 0.0
    for value, limit in zip(values, limits, strict=True):
        load += limit.weight * (ABSENT if value is None else value / limit.at)
    return float(100 * 2.0**-load)


def weigh(
    measures: Mapping[str, float | None],
    limits: Mapping[str, Limit],
    shortcoming: Reason | None = None,
) -> Verdict:
    """The verdict on a repetition that counts.

    A signed measure weighs by its size. `shortcoming` names what was asked and not done; without
    one, the reason says whether every limit was kept.
    """
    sizes = {name: _size(measures.get(name)) for name in limits}
    over = tuple(name for name, limit in limits.items() if not limit.kept(measures.get(name)))
    reason = shortcoming or (Reason.OVER_LIMIT if over else Reason.CLEAN)
    return Verdict(reason, score(list(sizes.values()), list(limits.values())), over, measures)


def _size(value: float | None) -> float | None:
    return None if value is None else abs(value)
