"""Trial by days: one position a day beside practice, on the steadiness blips played anyway.

Each block is a day with five minutes, and the whole session is played in the day's position. Which
of the two comes first is drawn for each pair of days, as for pairs of blocks. A day is full with
DAY_BLIPS steadiness blips that count. With fewer, the next day with five minutes is played in the
same position, and the blips of both days are the block's. A day that has a blip of a block keeps
that block: in a second session, after a kill, and after midnight, as blips are dated when they end.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from drills.score import Reason
from engine.practice.blip_size import scaled
from engine.trial.difference import TOO_LITTLE
from engine.trial.randomisation import block_now, counted_in, order
from engine.trial.trial import Arm, Trial


@dataclass(frozen=True)
class DayBlip:
    """One steadiness blip of a trial by days."""

    block: int
    """Index of its day in the trial, from 0."""
    reason: Reason
    """Reason of its verdict, which says how the blip ended."""
    deviation: float | None
    """Larger of dip and surge, in points; None if it was not measured."""
    peak: float | None
    """Highest throttle of the blip, in %; None if it was not measured."""

    @property
    def void(self) -> bool:
        """Whether the blip does not count."""
        return self.reason.void

    @property
    def is_done(self) -> bool:
        """Whether the blip was done as asked, and measured."""
        return bool(self.deviation is not None and self.peak and self.reason not in TOO_LITTLE)

    @property
    def scaled(self) -> float | None:
        """The deviation at a blip of 60 %, in points; None if it was not measured."""
        if self.deviation is None or not self.peak:
            return None
        return scaled(self.deviation, self.peak)


@dataclass(frozen=True)
class Today:
    """Day of a trial by days that is played today."""

    block: int
    """Index of the day in the trial, from 0."""
    arm: Arm
    """Set-up that the day is played with."""
    days: int
    """Number of days in the whole trial."""
    begun: bool
    """Whether a steadiness blip of this day was played already."""
    earlier: int | None = None
    """Number of its blips that count from earlier days, which were too few to fill it; None if it
    was not played before, or is begun today."""

    @property
    def words(self) -> str:
        """Text such as "day 5 of 16"."""
        return f"day {self.block + 1} of {self.days}"


def today_of(trial: Trial, day: date) -> Today | None:
    """Day of a trial that a local day is: the one begun on it, else the first that is not full.

    None if all are full and none was begun on it.
    """
    begun = [rep.block for rep in trial.repetitions if rep.day == day]
    block = begun[-1] if begun else block_now(trial)
    if block is None:
        return None
    arms = order(trial.seed, trial.pairs)
    is_again = not begun and any(rep.block == block for rep in trial.repetitions)
    earlier = counted_in(trial, block) if is_again else None
    return Today(block, arms[block], len(arms), bool(begun), earlier)
