"""Five minutes: what comes next and why, until the time is over.

First what is due to be shown again, cold; then the steadiness band; then the levels that are
being learned, in turn and mixed with passed ones; at last a few with nothing shown. The plan is
that rule, asked again and again: the game asks it after each repetition that was played, `plan`
after each that it expects.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import inf

import numpy as np

from drills.level import Aid, Feedback, Level
from engine.five.level_choice import learned, worked_on
from engine.five.player_state import Known
from engine.practice.results import AWAY, Result, Sitting, Why
from engine.practice.retention import AT_ONCE

DUE_SHARE = 0.25
"""1, share of the time in which levels are shown again, the last of them half over by then."""
MUCH_DUE = 5
"""count, levels due beyond which they may take more of it."""
MORE_SHARE = 0.4
"""1, share of the time that they may take then."""
DUE_MOST = 0.5
"""1, share of the time after which one that is not decided waits for tomorrow."""
BAND_SHARE = 0.2
"""1, share of the time that the steadiness band may take."""
BAND_BLIPS = 6
"""count, blips of a sitting that track the steadiness band."""
DARK = 3
"""count, repetitions at the end with nothing shown."""
EARLY = 10.0
"""s, left over after those, that are time for one more."""
LATE = 12.0
"""s, by which the time may run over for those."""
SLACK = 2.0
"""s, by which it may before them."""
LONG = 15.0
"""s, a repetition that is too long for the end."""
MIXED_EVERY = 4
"""count, of so many repetitions one is of a passed level."""
MANY = 15
"""count, repetitions of one level on a day after which every second is of a passed one."""
MIXED_FROM = 6
"""count, hardest passed levels that are mixed in."""
LOTS = 2**32
"""count, lots of one seed."""
HALF = AT_ONCE.clean / 2
"""count, repetitions of a level shown again when it is half over."""


@dataclass(frozen=True)
class Planned:
    """One repetition of a plan."""

    level: Level
    """What it is of."""
    why: Why
    """Why it comes."""

    @property
    def shown(self) -> Level:
        """The level as it is shown for this reason: what is asked cold waits for its word."""
        if self.why is Why.DARK:
            return replace(self.level, aid=Aid.NONE, feedback=Feedback.NONE, guess=False)
        if self.why in (Why.DUE, Why.WARM):
            return replace(self.level, feedback=Feedback.NONE, guess=False)
        return self.level


def following(known: Known, sitting: Sitting) -> Planned | None:
    """What comes next in a sitting; None where it is over.

    Raises ValueError where no level is open.
    """
    played = [one for one in sitting.results if not one.void]
    dark = sum(one.why is Why.DARK for one in played)
    worked = works_on(known)
    if not dark:
        room = sitting.left - _dark_time(known, sitting, worked)
        lit = _lit(known, sitting, played, worked)
        if _may_take(known, lit.level) <= room + SLACK:
            return lit
        short = _mixed_in(known, sitting, len(sitting.results), room + SLACK)
        if short is not None:
            return Planned(short, Why.MIX)
    if sitting.left <= (EARLY if dark >= DARK else 0):
        return None
    last = Planned(_in_the_dark(known, sitting, worked, dark), Why.DARK)
    return last if known.pace.of(last.level) <= sitting.left + LATE else None


def plan(known: Known, sitting: Sitting) -> list[Planned]:
    """What a sitting is expected to hold from now on: all of it clean, at the player's pace."""
    found: list[Planned] = []
    while (planned := following(known, sitting)) is not None:
        found.append(planned)
        level = planned.level
        result = Result(
            level=level.id,
            day=known.day,
            score=100.0,
            clean=True,
            void=False,
            rule=level.rule,
            kind=level.kind.name,
            why=planned.why,
            took=known.pace.of(level),
        )
        known = known.after(result)
        sitting = replace(sitting, results=(*sitting.results, result))
    return found


def shown_again(planned: Sequence[Planned]) -> int:
    """count of levels that a plan shows again."""
    return len({one.level.id for one in planned if one.why is Why.DUE})


def _lit(known: Known, sitting: Sitting, played: Sequence[Result], worked: Level) -> Planned:
    """What comes while there is time for more than the last few."""
    total = 60 * sitting.minutes
    due = next((one for one in known.due if _has_room(known, sitting, one)), None)
    if due is not None:
        return Planned(due, Why.DUE)
    blips = sum(one.why is Why.BAND for one in played)
    if (
        known.band is not None
        and known.can_blip
        and blips < BAND_BLIPS
        and _spent(sitting, Why.BAND) < BAND_SHARE * total
    ):
        return Planned(known.band, Why.BAND)
    learning = sum(one.why in (Why.LEARN, Why.MIX) for one in played)
    every = 2 if _today(known, worked) >= MANY else MIXED_EVERY
    if learning % every == every - 1:
        mixed = _mixed_in(known, sitting, len(sitting.results))
        if mixed is not None:
            return Planned(mixed, Why.MIX)
    return Planned(worked, Why.LEARN)


def _in_the_dark(known: Known, sitting: Sitting, worked: Level, number: int) -> Level:
    """Of the last few: what is being learned between two that are passed; none is long."""
    passed = _mixed_in(known, sitting, -1 - number, LONG)
    if passed is not None and number != 1:
        return passed
    if _may_take(known, worked) <= LONG:
        return worked
    return passed or min([worked, *known.playable], key=known.pace.of)


def works_on(known: Known) -> Level:
    """The level to work on now. Raises ValueError where none is open."""
    level = learned(known.levels, known.done, known.pedals, known.recent)
    return worked_on(level, known.levels, known.recent)


def _mixed_in(known: Known, sitting: Sitting, number: int, longest: float = inf) -> Level | None:
    """One of the hardest passed levels that are not due, by lot number; not what came last."""
    last = sitting.results[-1].level if sitting.results else ""
    pool = [
        one
        for one in known.playable
        if one.id != last and _may_take(known, one) <= longest and not known.is_due(one)
    ][-MIXED_FROM:]
    if not pool:
        return None
    rng = np.random.default_rng((sitting.seed, number % LOTS))
    return pool[int(rng.integers(len(pool)))]


def _dark_time(known: Known, sitting: Sitting, worked: Level) -> float:
    """s, what the last few will take."""
    last = (_in_the_dark(known, sitting, worked, number) for number in range(DARK))
    return sum(map(known.pace.of, last))


def _has_room(known: Known, sitting: Sitting, due: Level) -> bool:
    """Whether a level is shown again now: the first always is, another where half of it fits."""
    total, spent = 60 * sitting.minutes, _spent(sitting, Why.DUE)
    begun = any(one.why is Why.DUE and one.level == due.id for one in sitting.results)
    if begun and known.is_being_shown(due):
        return spent < DUE_MOST * total
    share = MORE_SHARE if len(known.due) > MUCH_DUE else DUE_SHARE
    return not spent or spent + HALF * known.pace.of(due) <= share * total


def _may_take(known: Known, level: Level) -> float:
    """s, what one of a level may take: what a mixed one draws may be long."""
    if level.kind.measures:
        return known.pace.of(level)
    return max((known.pace.of(one) for one in known.playable), default=0.0)


def _today(known: Known, level: Level) -> int:
    """count of repetitions of a level that were played on the day to learn it."""
    return sum(
        one.day == known.day and one.level == level.id and one.why is Why.LEARN
        for one in known.recent
        if not one.void
    )


def _spent(sitting: Sitting, why: Why) -> float:
    """s, spent on repetitions for one reason."""
    return sum(min(one.took or 0.0, AWAY) for one in sitting.results if one.why is why)
