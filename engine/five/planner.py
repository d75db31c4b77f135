"""Planner: the rule for which repetition of the five minutes comes next, and why.

Retention checks come first, cold; then the steadiness staircase; then the levels being learned, in
turn and interleaved with passed ones; last a few with nothing shown. The game asks the rule after
each repetition that was played, `plan` after each one it expects.
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
"""Share of a session's time in which retention checks may begin, from 0 to 1: half of the last
one is expected to fit."""
MUCH_DUE = 5
"""Levels due, as a count, above which retention checks may take more of the session."""
MORE_SHARE = 0.4
"""Share of a session's time for retention checks if many levels are due, from 0 to 1."""
DUE_MOST = 0.5
"""Share of a session's time after which an undecided retention check waits for tomorrow, 0 to 1."""
BAND_SHARE = 0.2
"""Share of a session's time for the steadiness staircase, from 0 to 1."""
BAND_BLIPS = 6
"""Blips of the steadiness staircase in one session, as a count."""
DARK = 3
"""Repetitions without aid or feedback that end a session, as a count."""
EARLY = 10.0
"""Seconds that must be left in a session, after its last few repetitions, to add another one."""
LATE = 12.0
"""Seconds by which a session may run over to fit its last repetitions, without aid or feedback."""
SLACK = 2.0
"""Seconds by which earlier repetitions may eat into the time reserved for the last few."""
LONG = 15.0
"""Seconds: a longer repetition is never one of the last few of a session, played without aid."""
MIXED_EVERY = 4
"""Of the repetitions that learn a level, every 4th reviews one already passed instead."""
MANY = 15
"""Repetitions of one level in a day, as a count, from which every 2nd one is a review instead."""
MIXED_FROM = 6
"""Number of passed levels, the hardest ones, that a review is drawn from."""
DRAWS = 2**32
"""Number of random draws available from one seed."""
HALF = AT_ONCE.clean / 2
"""Repetitions that make half a retention check, as a count: a further check begins if they fit."""


@dataclass(frozen=True)
class Planned:
    """One planned repetition: a level and the reason to play it."""

    level: Level
    """Level of the planned repetition."""
    why: Purpose
    """Reason for which the repetition is planned."""

    @property
    def as_played(self) -> Level:
        """The level with less aid or feedback, as its purpose asks: checks give no feedback."""
        if self.why is Purpose.DARK:
            return replace(self.level, aid=Aid.NONE, feedback=Feedback.NONE, guess=False)
        if self.why in (Purpose.DUE, Purpose.WARM):
            return replace(self.level, feedback=Feedback.NONE, guess=False)
        return self.level


def following(player: PlayerState, session: Session) -> Planned | None:
    """The next repetition of a session; None if the session is over.

    Raises ValueError where no level is open.
    """
    played = [result for result in session.results if not result.void]
    dark = sum(result.why is Purpose.DARK for result in played)
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
    """Repetitions expected in the rest of a session, if all are clean and at the player's pace."""
    repetitions: list[Planned] = []
    while (planned := following(player, session)) is not None:
        repetitions.append(planned)
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
    return repetitions


def checks_in(planned: Sequence[Planned]) -> int:
    """Number of levels that these planned repetitions check for retention."""
    return len({rep.level.id for rep in planned if rep.why is Purpose.DUE})


def seed_of(day: date) -> int:
    """Seed of a day's random draws: the same all day, so that the forecast is what is played."""
    return day.toordinal()


def _lit(player: PlayerState, session: Session, played: Sequence[Result], worked: Level) -> Planned:
    """The next repetition before the last few: retention check, steadiness, learning or review."""
    total = 60 * session.minutes
    due = next((level for level in player.due if _has_room(player, session, level)), None)
    if due is not None:
        return Planned(due, Purpose.DUE)
    blips = sum(result.why is Purpose.BAND for result in played)
    if (
        player.band is not None
        and player.can_blip
        and blips < BAND_BLIPS
        and _spent(session, Purpose.BAND) < BAND_SHARE * total
    ):
        return Planned(player.band, Purpose.BAND)
    learning = sum(result.why in (Purpose.LEARN, Purpose.MIX) for result in played)
    every = 2 if _today(player, worked) >= MANY else MIXED_EVERY
    if learning % every == every - 1:
        mixed = _mixed_in(player, session, len(session.results))
        if mixed is not None:
            return Planned(mixed, Purpose.MIX)
    return Planned(worked, Purpose.LEARN)


def _in_the_dark(player: PlayerState, session: Session, worked: Level, number: int) -> Level:
    """Level for one of the last few repetitions, after `number` of them; only short ones.

    They are a passed level, the learned one, a passed one. If none is short enough: the quickest.
    """
    passed = _mixed_in(player, session, -1 - number, LONG)
    if passed is not None and number != 1:
        return passed
    if _may_take(player, worked) <= LONG:
        return worked
    return passed or min([worked, *player.playable], key=player.pace.of)


def works_on(player: PlayerState) -> Level:
    """Level the player practises now in order to learn. Raises ValueError if no level is open."""
    level = learned(player.levels, player.done, player.pedals, player.recent)
    return worked_on(level, player.levels, player.recent)


def next_to_learn(player: PlayerState) -> Level | None:
    """The level the player practises next in order to learn; None if all that are open are done."""
    level = works_on(player)
    return None if level.id in player.done else level


def _mixed_in(
    player: PlayerState, session: Session, number: int, longest: float = inf
) -> Level | None:
    """A passed level to review, drawn at random from the hardest ones not due for a check.

    Draw `number` of the session's seed. It is not the level played last, and takes `longest`
    seconds at most. None where there is no such level.
    """
    last = session.results[-1].level if session.results else ""
    pool = [
        level
        for level in player.playable
        if level.id != last and _may_take(player, level) <= longest and not player.is_due(level)
    ][-MIXED_FROM:]
    if not pool:
        return None
    rng = np.random.default_rng((session.seed, number % DRAWS))
    return pool[int(rng.integers(len(pool)))]


def _dark_time(player: PlayerState, session: Session, worked: Level) -> float:
    """Seconds that the last few repetitions, without aid or feedback, are expected to take."""
    last = (_in_the_dark(player, session, worked, number) for number in range(DARK))
    return sum(map(player.pace.of, last))


def _has_room(player: PlayerState, session: Session, due: Level) -> bool:
    """Whether a session has time to check a level now: always for the first one due."""
    total, spent = 60 * session.minutes, _spent(session, Purpose.DUE)
    begun = any(result.why is Purpose.DUE and result.level == due.id for result in session.results)
    if begun and player.is_under_check(due):
        return spent < DUE_MOST * total
    share = MORE_SHARE if len(player.due) > MUCH_DUE else DUE_SHARE
    return not spent or spent + HALF * player.pace.of(due) <= share * total


def _may_take(player: PlayerState, level: Level) -> float:
    """Most seconds a repetition of this level may take; a mixed level may draw the longest one."""
    if level.kind.measures:
        return player.pace.of(level)
    return max((player.pace.of(drawn) for drawn in player.playable), default=0.0)


def _today(player: PlayerState, level: Level) -> int:
    """Number of repetitions of this level played today in order to learn it."""
    return sum(
        result.day == player.day and result.level == level.id and result.why is Purpose.LEARN
        for result in player.recent
        if not result.void
    )


def _spent(session: Session, why: Purpose) -> float:
    """Seconds of a session spent on repetitions with this purpose."""
    return sum(min(result.took or 0.0, AWAY) for result in session.results if result.why is why)
