"""Planner: the rule for which repetition of the five minutes comes next, and why.

Retention checks come first, cold; then the steadiness staircase; then the levels being learned, in
turn and interleaved with passed ones and with those that answer the fault worked on; last a few
with nothing shown. Where nothing is left to learn, levels in hand come towards a lower personal
limit. The game asks the rule after
each repetition that was played, `plan` after each one it expects.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from itertools import islice
from math import inf

import numpy as np

from drills.level import Aid, Feedback, Level
from engine.five.check_time import check_now
from engine.five.fault_practice import for_the_fault
from engine.five.level_choice import learned, worked_on
from engine.five.player_state import PlayerState
from engine.five.rotation import own_turn, worn
from engine.five.time_spent import spent
from engine.practice.results import Purpose, Result, Session

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
REVIEWS = (Purpose.MIX, Purpose.DARK)
"""Purposes that review a level in a session, with and without what is shown of it."""
DRAWS = 2**32
"""Number of random draws available from one seed."""


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
    worked = _left_to_learn(player)
    if not dark:
        room = session.left - _dark_time(player, session, worked)
        lit = _lit(player, session, played, worked)
        if _may_take(player, lit.level) <= room + SLACK:
            return lit
        number, is_done = len(session.results), worked is None
        short = _mixed_in(player, session, number, room + SLACK, is_done=is_done)
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


def _lit(
    player: PlayerState, session: Session, played: Sequence[Result], worked: Level | None
) -> Planned:
    """The next repetition before the last few: retention check, steadiness or practice."""
    total = 60 * session.minutes
    due = check_now(player, session, is_done=worked is None)
    if due is not None:
        return Planned(due, Purpose.DUE)
    blips = sum(result.why is Purpose.BAND for result in played)
    if (
        player.band is not None
        and player.can_blip
        and blips < BAND_BLIPS
        and spent(session, Purpose.BAND) < BAND_SHARE * total
    ):
        return Planned(player.band, Purpose.BAND)
    return _practice(player, session, played, worked)


def _practice(
    player: PlayerState, session: Session, played: Sequence[Result], worked: Level | None
) -> Planned:
    """The next repetition of the learning time: against a fault, a review, or a level in turn.

    That is the level `worked` on, or one in hand where that has had its share of the month or
    nothing is left to learn. Where all of them are due, a check goes on.
    """
    answer = for_the_fault(player, session)
    if answer is not None:
        return Planned(answer, Purpose.FAULT)
    learning = sum(result.why in (Purpose.LEARN, Purpose.OWN, Purpose.MIX) for result in played)
    every = 2 if worked is not None and _today(player, worked) >= MANY else MIXED_EVERY
    if learning % every == every - 1:
        mixed = _mixed_in(player, session, len(session.results), is_done=worked is None)
        if mixed is not None:
            return Planned(mixed, Purpose.MIX)
    if worked is not None and worked.id not in worn(player):
        return Planned(worked, Purpose.LEARN)
    own = own_turn(player, session)
    if own is not None:
        return Planned(own, Purpose.OWN if player.is_retained(own) else Purpose.MIX)
    if worked is not None:
        return Planned(worked, Purpose.LEARN)
    if player.due:
        return Planned(player.due[0], Purpose.DUE)
    return Planned(works_on(player), Purpose.MIX)


def _in_the_dark(player: PlayerState, session: Session, worked: Level | None, number: int) -> Level:
    """Level for one of the last few repetitions, after `number` of them; only short ones.

    They are a passed level, the learned one, a passed one. If none is short enough: the quickest.
    """
    passed = _mixed_in(player, session, -1 - number, LONG, is_done=worked is None)
    if passed is not None and (number != 1 or worked is None):
        return passed
    if worked is not None and _may_take(player, worked) <= LONG:
        return worked
    return passed or min([worked or works_on(player), *player.playable], key=player.pace.of)


def works_on(player: PlayerState) -> Level:
    """Level the player practises now in order to learn. Raises ValueError if no level is open."""
    return worked_on(_goal(player), player.levels, player.recent)


def next_to_learn(player: PlayerState) -> Level | None:
    """The level the player practises next in order to learn; None if all that are open are done."""
    level = works_on(player)
    return None if level.id in player.done else level


def _goal(player: PlayerState) -> Level:
    """Level the player is to pass next, or the last open one. Raises ValueError if none is open."""
    return learned(player.levels, player.done, player.pedals, player.recent)


def _left_to_learn(player: PlayerState) -> Level | None:
    """Level to practise in order to learn; None where all that are open are passed.

    Raises ValueError if none is open.
    """
    goal = _goal(player)
    if goal.id in player.done:
        return None
    return worked_on(goal, player.levels, player.recent)


def _mixed_in(
    player: PlayerState, session: Session, number: int, longest: float = inf, *, is_done: bool
) -> Level | None:
    """A passed level to review, drawn at random from the hardest ones not due for a check.

    Draw `number` of the session's seed. It is not the level played last, and takes `longest`
    seconds at most; where nothing is left to learn it is one that this session has not reviewed
    yet, as far as there are any. None where there is no such level.
    """
    last = {result.level for result in session.results[-1:]}
    reviewed = {result.level for result in session.results if result.why in REVIEWS}
    for left_out in (last | reviewed, last) if is_done else (last,):
        fitting = (
            level
            for level in reversed(player.playable)
            if level.id not in left_out
            and not player.is_due(level)
            and _may_take(player, level) <= longest
        )
        hardest = list(islice(fitting, MIXED_FROM))[::-1]
        if hardest:
            rng = np.random.default_rng((session.seed, number % DRAWS))
            return hardest[int(rng.integers(len(hardest)))]
    return None


def _dark_time(player: PlayerState, session: Session, worked: Level | None) -> float:
    """Seconds that the last few repetitions, without aid or feedback, are expected to take."""
    last = (_in_the_dark(player, session, worked, number) for number in range(DARK))
    return sum(map(player.pace.of, last))


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
