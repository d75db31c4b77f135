"""Pace of a player: the seconds one repetition takes, with what is shown before and after it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from drills.level import Level
from engine.practice.results import Result

USUAL = 9.0
"""Seconds a new player takes, besides the duration a level sets (tests/bench/pace.py)."""
LATEST = 12
"""Newest repetitions of a level, or of a kind, that the pace is the mean of, as a count."""
LONGEST = 60.0
"""Seconds beyond which the player did something else, so that a repetition is left out."""


@dataclass(frozen=True)
class PlayerPace:
    """Seconds a counted repetition takes, with those spent on void ones beside it."""

    levels: Mapping[str, float] = field(default_factory=dict)
    """Seconds, by the id of the level."""
    kinds: Mapping[str, float] = field(default_factory=dict)
    """Seconds, by the name of the kind, for a new level that sets no duration."""

    def of(self, level: Level) -> float:
        """Seconds one repetition of a level is expected to take."""
        if level.id in self.levels:
            return self.levels[level.id]
        if "duration" in level.own:
            return USUAL + level.own["duration"]
        return self.kinds.get(level.kind.name, USUAL)


def pace_of(recent: Sequence[Result]) -> PlayerPace:
    """The pace of past repetitions, given oldest first."""
    timed = [result for result in recent if result.took is not None and 0 < result.took <= LONGEST]
    return PlayerPace(
        _means((result.level, result) for result in timed),
        _means((result.kind, result) for result in timed),
    )


def _means(timed: Iterable[tuple[str, Result]]) -> dict[str, float]:
    """Mean seconds a counted repetition takes, by the name each result is paired with."""
    by_name: dict[str, list[Result]] = defaultdict(list)
    for name, result in timed:
        by_name[name].append(result)
    return {name: mean for name, results in by_name.items() if (mean := _mean(results[-LATEST:]))}


def _mean(results: Sequence[Result]) -> float | None:
    """Seconds of all results for each that counted; None where none did."""
    counted = sum(not result.void for result in results)
    return sum(result.took or 0.0 for result in results) / counted if counted else None
