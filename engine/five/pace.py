"""How long a repetition takes the player, with what is shown before and after it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from drills.level import Level
from engine.practice.results import Result

USUAL = 9.0
"""s, of a player who is not known yet, but for what the level measures (tests/bench/pace.py)."""
LATEST = 12
"""count, newest repetitions of a level, or of a kind, that tell the pace."""
LONGEST = 60.0
"""s, beyond which something else was done."""


@dataclass(frozen=True)
class PlayerPace:
    """s a repetition takes that counts, those that did not count beside it included."""

    levels: Mapping[str, float] = field(default_factory=dict)
    """s, by the id of the level."""
    kinds: Mapping[str, float] = field(default_factory=dict)
    """s, by the name of the kind, for a level that was not played yet and says no duration."""

    def of(self, level: Level) -> float:
        """s, what one of a level takes."""
        if level.id in self.levels:
            return self.levels[level.id]
        if "duration" in level.own:
            return USUAL + level.own["duration"]
        return self.kinds.get(level.kind.name, USUAL)


def pace_of(recent: Sequence[Result]) -> PlayerPace:
    """The pace that past repetitions tell, oldest first."""
    timed = [one for one in recent if one.took is not None and 0 < one.took <= LONGEST]
    return PlayerPace(
        _means((one.level, one) for one in timed), _means((one.kind, one) for one in timed)
    )


def _means(timed: Iterable[tuple[str, Result]]) -> dict[str, float]:
    together: dict[str, list[Result]] = defaultdict(list)
    for name, one in timed:
        together[name].append(one)
    return {name: mean for name, some in together.items() if (mean := _mean(some[-LATEST:]))}


def _mean(some: Sequence[Result]) -> float | None:
    counted = sum(not one.void for one in some)
    return sum(one.took or 0.0 for one in some) / counted if counted else None
