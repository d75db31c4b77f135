"""Kept or not: a passed level is shown again on later days, cold, and then ever more rarely.

Passing is performance, keeping is learning: what is still there on another day counts (Shea 2000,
abstract: sessions a day apart beat sessions twenty minutes apart).
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, timedelta
from enum import StrEnum

from drills.level import PassRule

INTERVALS = (1, 3, 7, 21)
"""days, from passing a level to showing it again, and from one time it is kept to the next."""
AT_ONCE = PassRule(4, 5)
"""What keeps a level within its first repetitions of a day."""
IN_THE_END = PassRule(8, 10)
"""What else keeps it."""
WELL = 3
"""count, intervals it has outlasted where it is kept well: the last of them a week."""
LONGEST = timedelta(days=INTERVALS[-1] + 1)
"""days, the furthest a level is due from today, one of them for who travels west over the date
line: a later date comes from a clock that was wrong."""


class CheckOutcome(StrEnum):
    """What the first repetitions of a day show of a level that is due."""

    OPEN = "open"
    """More of them will tell."""
    KEPT = "kept"
    NOT_TODAY = "not shown today"


def check_outcome(first: tuple[bool, ...]) -> CheckOutcome:
    """What they show, as soon as no further one can change it."""
    early = first[: AT_ONCE.of]
    if sum(early) >= AT_ONCE.clean or sum(first) >= IN_THE_END.clean:
        return CheckOutcome.KEPT
    # So many misses are too many for the first five as well: else those had kept it.
    if len(first) - sum(first) > IN_THE_END.of - IN_THE_END.clean:
        return CheckOutcome.NOT_TODAY
    return CheckOutcome.OPEN


@dataclass(frozen=True)
class Retention:
    """How well a level is kept; a miss takes nothing away."""

    due: date | None = None
    """Local day from which it is to be shown; None while it is not passed."""
    outlasted: int = 0
    """count, intervals after which it was kept."""
    missed: bool = False
    """Whether it was not shown the last time: then its interval comes once more."""
    day: date | None = None
    """Local day on which it was last begun to be shown."""
    first: tuple[bool, ...] = ()
    """Whether each of its first repetitions on that day was clean, up to what decided."""

    @classmethod
    def passed(cls, day: date) -> Retention:
        """Of a level that is passed on a day."""
        return cls(due=day + timedelta(days=INTERVALS[0]))

    @property
    def is_kept(self) -> bool:
        """Whether it was kept on a later day at least once."""
        return self.outlasted > 0

    @property
    def is_kept_well(self) -> bool:
        """Whether it outlasted a week."""
        return self.outlasted >= WELL

    def is_due(self, day: date) -> bool:
        """Whether it is to be shown on a day."""
        return self.due is not None and (self.due <= day or self.due - day > LONGEST)

    def shown_on(self, day: date) -> CheckOutcome | None:
        """What was shown on a day; None where it was not asked, or not yet."""
        return check_outcome(self.first) if self.day == day and self.first else None

    def after(self, day: date, clean: bool) -> Retention:
        """One counted repetition later; those of a day on which it is not due change nothing."""
        if not self.is_due(day):
            return self
        first = (*self.first, clean) if self.day == day else (clean,)
        match check_outcome(first):
            case CheckOutcome.OPEN:
                return replace(self, day=day, first=first)
            case CheckOutcome.NOT_TODAY:
                tomorrow = day + timedelta(days=1)
                return Retention(tomorrow, self.outlasted, True, day, first)
            case CheckOutcome.KEPT:
                again = self.missed and self.is_kept
                outlasted = self.outlasted if again else self.outlasted + 1
                wait = INTERVALS[min(outlasted, len(INTERVALS) - 1)]
                return Retention(day + timedelta(days=wait), outlasted, False, day, first)
