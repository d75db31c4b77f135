"""Lengths of a trial on offer: what each can find with the player's own spread, and its time."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from engine.practice.blip_size import scaled
from engine.trial.outcome import FEWEST_DIPS, USUAL_SPREAD, detectable_difference, spread_of
from engine.trial.trial import BLOCK, FEWEST_PAIRS, MOST_PAIRS

LENGTHS = (FEWEST_PAIRS, 8, 12, MOST_PAIRS)
"""Lengths of a trial that the player can choose from, in pairs of blocks."""


class ChangeTime(StrEnum):
    """How long it takes the player to change from one set-up to the other."""

    SECONDS = "a few seconds"
    MINUTE = "a minute"
    SHOES = "three minutes"

    @property
    def seconds(self) -> float:
        """Time that one change takes, in s."""
        return {ChangeTime.SECONDS: 10.0, ChangeTime.MINUTE: 60.0, ChangeTime.SHOES: 180.0}[self]


@dataclass(frozen=True)
class OwnSpread:
    """Spread of a player's dips, and which blips it is known from."""

    points: float
    """Spread of the dips, in points."""
    level: str = ""
    """Title of the level that the blips are of; empty where the spread is a guess."""
    count: int = 0
    """Number of blips that it is estimated from."""
    is_of_trial: bool = True
    """Whether the trial is on that level, and not on another one like it."""

    @property
    def words(self) -> str:
        """Sentence on what the differences that a length finds are known from."""
        if not self.level:
            return "That is a guess: you have too few blips yet."
        if self.is_of_trial:
            return f'That follows from your newest {self.count} blips on "{self.level}".'
        return f'That is a guess from your blips on "{self.level}".'


@dataclass(frozen=True)
class Length:
    """Length of a trial, with the smallest difference it can find and the time it takes."""

    pairs: int
    """Number of pairs of blocks."""
    repetitions: int
    """Number of repetitions in the trial that count."""
    finds: float
    """True difference of dip that 8 of 10 trials of this length find, in points."""
    minutes: float
    """Time that the trial takes with its change-overs, in minutes."""

    @property
    def points(self) -> float:
        """The difference that it finds, rounded up to tenths of a point."""
        return math.ceil(round(10 * self.finds, 6)) / 10

    @property
    def words(self) -> str:
        """Note beside this length: the difference it finds and the time it takes."""
        return (
            f"finds {self.points:g} points or more; {self.repetitions} repetitions, "
            f"about {max(round(self.minutes), 1)} minutes"
        )


def own_spread(blips: Sequence[tuple[float, float]]) -> float | None:
    """Spread of a player's dips, in points; None if there are too few to tell.

    `blips` are pairs of a dip in points and the peak of its blip in %. It is the larger of the
    spreads of the dips as they are and scaled to blips of one size: a trial tells a difference only
    where both are sure of it.
    """
    known = [(dip, peak) for dip, peak in blips if peak > 0]
    if len(known) < FEWEST_DIPS:
        return None
    plain = [dip for dip, _ in known]
    return max(spread_of(plain), spread_of([scaled(dip, peak) for dip, peak in known]))


def guessed() -> OwnSpread:
    """Spread assumed for a player with too few blips on any level."""
    return OwnSpread(USUAL_SPREAD)


def changes(pairs: int) -> float:
    """Number of changes of set-up to expect between the blocks of a trial.

    One within each pair, and one between two pairs in half of the cases, as the order of each pair
    is drawn by lot.
    """
    return pairs + (pairs - 1) / 2


def lengths(spread: float, pace: float, change: ChangeTime) -> list[Length]:
    """Lengths on offer, the shortest first.

    `spread` is that of the player's dips in points, `pace` the seconds that a repetition takes. A
    length is left out if a shorter one finds as small a difference, as written.
    """
    found: list[Length] = []
    for pairs in LENGTHS:
        count = 2 * pairs * BLOCK
        seconds = count * pace + changes(pairs) * change.seconds
        length = Length(pairs, count, detectable_difference(pairs, spread), seconds / 60)
        if not found or length.points < found[-1].points:
            found.append(length)
    return found
