"""Five minutes: what comes next and why, until the time is over.

First what is due to be shown again, cold; then the steadiness band; then the levels that are
being learned, in turn and mixed with passed ones; at last a few with nothing shown. The plan is
that rule, asked again and again: the game asks it after each repetition that was played, `plan`
after each that it expects.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from math import inf

import numpy as np

from drills.level import Aid, Feedback, Level
from engine.five.level_choice import learned, worked_on
from engine.five.player_state import PlayerState
from engine.practice.results import AWAY, Purpose, Result, Session
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
    why: Purpose
    """Why it comes."""

    @property
    def shown(self) -> Level:
        """The level as it is shown for this reason: what is asked cold waits for its word."""
        if self.why is Purpose.DARK:
            return replace(self.level, aid=Aid.NONE, feedback=Feedback.NONE, guess=False)
        if self.why in (Purpose.DUE, Purpose.WARM):
            return replace(self.level, feedback=Feedback.NONE, guess=False)
        return self.level


def following(player: PlayerState, session: Session) -> Planned | None:
    """What comes next in a sitting; None where it is over.

    Raises ValueError where no level is open.
    """
    played = [one for one in session.results if not one.void]
    dark = sum(one.why is Purpose.DARK for one in played)
    worked = works_on(player)
    if not dark:
        room = session.left - _dark_time(player, session, worked)
        lit = _lit(player, session, played, worked)
        if _may_take(player, lit.level) <= room + SLACK:
            return lit
        short = _mixed_in(player, session, len(session.results), room + SLACK)
        if short is not None:
            return Planned(short, Purpose.MIX)
    if session.left <= (EARLY if dark >= DARK else 0):
        return None
    last = Planned(_in_the_dark(player, session, worked, dark), Purpose.DARK)
    return last if player.pace.of(last.level) <= session.left + LATE else None


def plan(player: PlayerState, session: Session) -> list[Planned]:
    """What a sitting is expected to hold from now on: all of it clean, at the player's pace."""
    found: list[Planned] = []
    while (planned := following(player, session)) is not None:
        found.append(planned)
        level = planned.level
        result = Result(
            level=level.id,
            day=player.day,
            score=100.0,
            clean=True,
            void=False,
            rule=level.rule,
            kind=level.kind.name,
            why=planned.why,
            took=player.pace.of(level),
        )
        player = player.after(result)
        session = replace(session, results=(*session.results, result))
    return found


def checks_in(planned: Sequence[Planned]) -> int:
    """count of levels that a plan shows again."""
    return len({one.level.id for one in planned if one.why is Purpose.DUE})


def seed_of(day: date) -> int:
    """Seed of the chance of a day: what is planned is what will be played."""
    return day.toordinal()


def _lit(player: PlayerState, session: Session, played: Sequence[Result], worked: Level) -> Planned:
    """What comes while there is time for more than the last few."""
    total = 60 * session.minutes
    due = next((one for one in player.due if _has_room(player, session, one)), None)
    if due is not None:
        return Planned(due, Purpose.DUE)
    blips = sum(one.why is Purpose.BAND for one in played)
    if (
        player.band is not None
        and player.can_blip
        and blips < BAND_BLIPS
        and _spent(session, Purpose.BAND) < BAND_SHARE * total
    ):
        return Planned(player.band, Purpose.BAND)
    learning = sum(one.why in (Purpose.LEARN, Purpose.MIX) for one in played)
    every = 2 if _today(player, worked) >= MANY else MIXED_EVERY
    if learning % every == every - 1:
        mixed = _mixed_in(player, session, len(session.results))
        if mixed is not None:
            return Planned(mixed, Purpose.MIX)
    return Planned(worked, Purpose.LEARN)


def _in_the_dark(player: PlayerState, session: Session, worked: Level, number: int) -> Level:
    """Of the last few: what is being learned between two that are passed; none is long."""
    passed = _mixed_in(player, session, -1 - number, LONG)
    if passed is not None and number != 1:
        return passed
    if _may_take(player, worked) <= LONG:
        return worked
    return passed or min([worked, *player.playable], key=player.pace.of)


def works_on(player: PlayerState) -> Level:
    """The level to work on now. Raises ValueError where none is open."""
    level = learned(player.levels, player.done, player.pedals, player.recent)
    return worked_on(level, player.levels, player.recent)


def _mixed_in(
    player: PlayerState, session: Session, number: int, longest: float = inf
) -> Level | None:
    """One of the hardest passed levels that are not due, by lot number; not what came last."""
    last = session.results[-1].level if session.results else ""
    pool = [
        one
        for one in player.playable
        if one.id != last and _may_take(player, one) <= longest and not player.is_due(one)
    ][-MIXED_FROM:]
    if not pool:
        return None
    rng = np.random.default_rng((session.seed, number % LOTS))
    return pool[int(rng.integers(len(pool)))]


def _dark_time(player: PlayerState, session: Session, worked: Level) -> float:
    """s, what the last few will take."""
    last = (_in_the_dark(player, session, worked, number) for number in range(DARK))
    return sum(map(player.pace.of, last))


def _has_room(player: PlayerState, session: Session, due: Level) -> bool:
    """Whether a level is shown again now: the first always is, another where half of it fits."""
    total, spent = 60 * session.minutes, _spent(session, Purpose.DUE)
    begun = any(one.why is Purpose.DUE and one.level == due.id for one in session.results)
    if begun and player.is_being_shown(due):
        return spent < DUE_MOST * total
    share = MORE_SHARE if len(player.due) > MUCH_DUE else DUE_SHARE
    return not spent or spent + HALF * player.pace.of(due) <= share * total


def _may_take(player: PlayerState, level: Level) -> float:
    """s, what one of a level may take: what a mixed one draws may be long."""
    if level.kind.measures:
        return player.pace.of(level)
    return max((player.pace.of(one) for one in player.playable), default=0.0)


def _today(player: PlayerState, level: Level) -> int:
    """count of repetitions of a level that were played on the day to learn it."""
    return sum(
        one.day == player.day and one.level == level.id and one.why is Purpose.LEARN
        for one in player.recent
        if not one.void
    )


def _spent(session: Session, why: Purpose) -> float:
    """s, spent on repetitions for one reason."""
    return sum(min(one.took or 0.0, AWAY) for one in session.results if one.why is why)
