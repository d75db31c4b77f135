"""Pace of a player: the seconds each repetition takes, with the screens before and after it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from drills.level import Level
from engine.practice.results import Result

USUAL = 9.0
"""Seconds a new player takes per repetition, besides the duration the level sets
(tests/bench/pace.py)."""
LATEST = 12
"""Newest repetitions of a level or kind of drill that the pace is the mean of, as a count."""
LONGEST = 60.0
"""Longest repetition used for the pace, in seconds: in a longer one the player was away."""


@dataclass(frozen=True)
class PlayerPace:
    """Expected seconds per counted repetition, with those spent on void ones added to it."""

    levels: Mapping[str, float] = field(default_factory=dict)
    """Seconds per repetition of a level, by the id of the level."""
    kinds: Mapping[str, float] = field(default_factory=dict)
    """Seconds per repetition by kind of drill, for a new level that sets no duration."""

    def of(self, level: Level) -> float:
        """Seconds one repetition of this level is expected to take."""
        if level.id in self.levels:
            return self.levels[level.id]
        if "duration" in level.own:
            return USUAL + level.own["duration"]
        return self.kinds.get(level.kind.name, USUAL)


def pace_of(recent: Sequence[Result]) -> PlayerPace:
    """Pace of a player, computed from past repetitions, oldest first."""
    timed = [result for result in recent if result.took is not None and 0 < result.took <= LONGEST]
    return PlayerPace(
        _means((result.level, result) for result in timed),
        _means((result.kind, result) for result in timed),
    )


def _means(timed: Iterable[tuple[str, Result]]) -> dict[str, float]:
    """Mean seconds per counted repetition for each name; `timed` are pairs of name and result."""
    by_name: dict[str, list[Result]] = defaultdict(list)
    for name, result in timed:
        by_name[name].append(result)
    return {name: mean for name, results in by_name.items() if (mean := _mean(results[-LATEST:]))}


def _mean(results: Sequence[Result]) -> float | None:
    """Seconds of all results together per result that counted; None if none did."""
    counted = sum(not result.void for result in results)
    return sum(result.took or 0.0 for result in results) / counted if counted else None
