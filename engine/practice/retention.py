"""Spacing of retention checks: a passed level is asked cold on later days, ever more rarely.

Passing is performance; being able to do it again on another day is learning (Soderstrom & Bjork
2015, from memory). Sessions a day apart beat sessions twenty minutes apart (Shea, Lai, Black & Park
2000, abstract). The intervals are a choice: no source gives them for movements.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, timedelta
from enum import StrEnum

from drills.level import PassRule

INTERVALS = (1, 3, 7, 21)
"""Days from passing a level to its first retention check, then from each check to the next."""
AT_ONCE = PassRule(4, 5)
"""Rule by which the first five repetitions of a check can already make its level retained."""
IN_THE_END = PassRule(8, 10)
"""Rule by which ten repetitions of a check make its level retained, if the first five did not."""
WELL = 3
"""Review intervals outlasted, as a count, that make a level well retained: the last is a week."""
LONGEST = timedelta(days=INTERVALS[-1] + 1)
"""Furthest in the future that a check can be due; a later date comes from a wrong clock.

One of its days is for a player who travels west over the date line."""


class CheckOutcome(StrEnum):
    """Outcome of a retention check: what a level's first repetitions of the day say."""

    OPEN = "open"
    """Undecided: the check needs more repetitions."""
    RETAINED = "retained"
    NOT_TODAY = "not retained today"


def check_outcome(first: tuple[bool, ...]) -> CheckOutcome:
    """Outcome of a retention check, decided once no further repetition can change it.

    `first` says whether each of the day's first repetitions was clean.
    """
    early = first[: AT_ONCE.of]
    if sum(early) >= AT_ONCE.clean or sum(first) >= IN_THE_END.clean:
        return CheckOutcome.RETAINED
    # This many misses rule out the first five too, or they had already made it retained.
    if len(first) - sum(first) > IN_THE_END.of - IN_THE_END.clean:
        return CheckOutcome.NOT_TODAY
    return CheckOutcome.OPEN


@dataclass(frozen=True)
class Retention:
    """Retention of one level: intervals outlasted so far, and when the next check is due."""

    due: date | None = None
    """Local day from which the level's next check is due; None while it is not passed."""
    outlasted: int = 0
    """Review intervals outlasted, as a count: the level was retained after them. A miss takes
    none away."""
    missed: bool = False
    """Whether the last check was missed, so that the interval before it is repeated."""
    day: date | None = None
    """Local day on which a check was last begun; None if there was no check yet."""
    first: tuple[bool, ...] = ()
    """Whether each repetition of that last check was clean, up to the one that decided it."""

    @classmethod
    def passed(cls, day: date) -> Retention:
        """Retention of a level that is first passed on this day."""
        return cls(due=day + timedelta(days=INTERVALS[0]))

    @property
    def is_retained(self) -> bool:
        """Whether the level was retained in a check on at least one later day."""
        return self.outlasted > 0

    @property
    def is_well_retained(self) -> bool:
        """Whether the level was retained after a week without a check."""
        return self.outlasted >= WELL

    @property
    def since(self) -> date | None:
        """Day on which the level was passed, or its last decided check was retained or missed.

        A check that is still undecided does not move it. None while the level is not passed.
        """
        if self.due is None:
            return None
        wait = 1 if self.missed else INTERVALS[min(self.outlasted, len(INTERVALS) - 1)]
        return self.due - timedelta(days=wait)

    def is_due(self, day: date) -> bool:
        """Whether a retention check of the level is due on this day."""
        return self.due is not None and (self.due <= day or self.due - day > LONGEST)

    def outcome_on(self, day: date) -> CheckOutcome | None:
        """Outcome of the check on this day; None if none was begun on it."""
        return check_outcome(self.first) if self.day == day and self.first else None

    def after(self, day: date, clean: bool) -> Retention:
        """Retention after one more counted repetition; only changes if a check is due that day."""
        if not self.is_due(day):
            return self
        first = (*self.first, clean) if self.day == day else (clean,)
        match check_outcome(first):
            case CheckOutcome.OPEN:
                return replace(self, day=day, first=first)
            case CheckOutcome.NOT_TODAY:
                tomorrow = day + timedelta(days=1)
                return Retention(tomorrow, self.outlasted, True, day, first)
            case CheckOutcome.RETAINED:
                is_repeat = self.missed and self.is_retained
                outlasted = self.outlasted if is_repeat else self.outlasted + 1
                wait = INTERVALS[min(outlasted, len(INTERVALS) - 1)]
                return Retention(day + timedelta(days=wait), outlasted, False, day, first)
