"""Personal limit: one factor on all limits of a level that three of four repetitions stay within.

The factor of a repetition is the largest of its measures over their limits, `max(x / L)`, as in its
score. The personal limit is the 75 % quantile of the newest 36, at most 9 of one day, as steadiness
is, with the same interval by order statistics.

The best is told of whole blocks, not of every day. A block ends with the 36th repetition, and then
with the first that is both 36 repetitions and 14 days after the end of the block before. The tenth
of one day is none of these 36.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from math import log2

from drills.score import ABSENT
from engine.practice.steadiness import A_DAY, WINDOW
from engine.practice.steadiness_interval import order_interval, upper_quartile

PLACES = 4
"""Decimal places to which the factor of a repetition is rounded: a limit has far fewer."""
APART = 14
"""Least time between the ends of two blocks, in days: blocks of a few days share their luck."""


@dataclass(frozen=True)
class PersonalLimit:
    """A player's newest repetitions of one level, as multiples of its limits."""

    loads: tuple[float, ...] = ()
    """Factor of each of the newest repetitions that count, oldest first, at most 36."""
    best: float | None = None
    """Lowest factor that the personal limits at the ends of two blocks in a row both lay within.

    None before there are two blocks. It is not the lowest personal limit there was: the lowest of
    many is the luckiest, and lower than the foot was; `tests/bench/personal.py` measures both. So
    the personal limit itself may be lower than its best."""
    days: tuple[date, ...] = ()
    """Local day of each of those repetitions."""
    best_day: date | None = None
    """Local day on which the best was reached."""
    since: int = 0
    """Repetitions since the newest whole block of 36 ended, as a count."""
    ended: date | None = None
    """Local day on which the newest whole block ended; None before there is one."""
    block: float | None = None
    """Personal limit at the end of the newest whole block; None before there is one."""
    mark: float | None = None
    """Factor that the best must fall below to be told as a new one; None for none yet."""
    told: date | None = None
    """Local day on which a new best was last told; None for never."""

    @property
    def factor(self) -> float | None:
        """The personal limit, a factor on the level's limits; None before 36 repetitions."""
        return upper_quartile(self.loads) if len(self.loads) >= WINDOW else None

    @property
    def interval(self) -> tuple[float, float] | None:
        """The 22nd and the 33rd of the 36 factors by size; None before there are 36."""
        return order_interval(self.loads) if len(self.loads) >= WINDOW else None

    def new_best_on(self, day: date) -> float | None:
        """The best, if it was told as a new one on a local day; otherwise None."""
        return self.best if self.told == day else None

    def after(self, day: date, load: float) -> PersonalLimit:
        """The personal limit after one more repetition, played on a local day.

        The tenth of one day replaces its first, so it makes a block no longer.
        """
        loads, days = [*self.loads, round(load, PLACES)], [*self.days, day]
        replaces = days.count(day) > A_DAY
        oldest = days.index(day) if replaces else 0
        if replaces or len(days) > WINDOW:
            del loads[oldest], days[oldest]
        since = self.since + (not replaces)
        now = replace(self, loads=tuple(loads), days=tuple(days), since=since)
        is_apart = self.ended is None or abs((day - self.ended).days) >= APART
        return now._at_end_of_block(day) if since >= WINDOW and is_apart else now

    def _at_end_of_block(self, day: date) -> PersonalLimit:
        """This limit as a whole block ends on a day, with a new best if there is one.

        A new best is told where two blocks in a row lie below the low end of the interval of the
        best told before, or of the first block, and the interval of the second does too: so that
        chance alone tells one in a few of 100 years of a level (`tests/bench/personal.py`).
        """
        factor, (low, high) = upper_quartile(self.loads), order_interval(self.loads)
        ended = replace(self, since=0, block=factor, ended=day)
        if self.block is None or self.mark is None:
            return replace(ended, mark=low)
        best = max(factor, self.block)
        if self.best is not None and self.best <= best:
            best = self.best
        else:
            ended = replace(ended, best=best, best_day=day)
        if max(high, self.block) >= self.mark:
            return ended
        return replace(ended, mark=min(low, best), told=day)


def load_of(score: float) -> float:
    """Factor of a repetition on its limits, from its score (0 to 100); at most that of a value
    that could not be measured."""
    return min(-log2(score / 100), ABSENT) if score > 0 else ABSENT
