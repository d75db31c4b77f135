"""Time for retention checks in a session: which one comes now, and when no more of them begin.

Levels due for longest come first. What may be spent grows with how many are due and, where practice
is nearly daily, with how long one has waited, so that none waits for over a week; on the first day
back after weeks of rest most of the session shows what is still there.
"""

from __future__ import annotations

from collections.abc import Sequence

from drills.level import Level
from engine.five.player_state import PlayerState
from engine.five.time_spent import spent
from engine.practice.results import Purpose, Session
from engine.practice.retention import AT_ONCE

DUE_SHARE = 0.25
"""Share of a session's time in which retention checks may begin, from 0 to 1: half of the last
one is expected to fit."""
MUCH_DUE = 5
"""Levels due, as a count, above which retention checks may take more of the session."""
MORE_SHARE = 0.4
"""Share of a session's time for retention checks if many levels are due, from 0 to 1."""
CATCH_UP_SHARE = 0.5
"""Share of a session's time for retention checks if many levels are due and none is left to learn,
from 0 to 1."""
WAITED = 5
"""Whole days that a level has been due from which its check is pressing: none is to wait for over a
week. After weeks of rest none is pressing, as all would be."""
PRESSING_SHARE = 0.6
"""Share of a session's time for retention checks while one is pressing, from 0 to 1."""
NEARLY_DAILY = 1
"""Most whole days without practice before a session of a player who practises nearly daily."""
BACK_SHARE = 0.7
"""Share of a session's time for retention checks on the first day back after weeks of rest, from 0
to 1: what is left goes to steadiness and to the last few repetitions."""
WEEKS_OF_REST = 14
"""Whole days without practice after which a session first shows what is still there."""
DUE_MOST = 0.5
"""Share of a session's time after which an undecided retention check waits for tomorrow, 0 to 1;
it is more where checks may begin as late as that."""
FINISH = 0.1
"""Share of a session's time in which a check begun last may be decided, from 0 to 1."""
HALF = AT_ONCE.clean / 2
"""Repetitions that make half a retention check, as a count: a further check begins if they fit."""
LONG = 15.0
"""Seconds of a repetition above which a check waits behind quicker ones on the first day back."""


def is_back(player: PlayerState) -> bool:
    """Whether this is the player's first day after weeks of rest."""
    return player.rested >= WEEKS_OF_REST


def check_now(player: PlayerState, session: Session, *, is_done: bool) -> Level | None:
    """The level to check now; None where none is due, or where the time for checks is spent.

    `is_done` says whether nothing is left to learn.
    """
    due = player.due
    if is_back(player):
        due.sort(key=lambda level: (not player.is_under_check(level), player.pace.of(level) > LONG))
    share = _share(player, due, is_done=is_done)
    return next((level for level in due if _has_room(player, session, level, share)), None)


def _share(player: PlayerState, due: Sequence[Level], *, is_done: bool) -> float:
    """Share of the session in which checks may begin, from 0 to 1, where these levels are due."""
    if is_back(player):
        return BACK_SHARE
    longest = max(map(player.waited, due), default=0)
    if player.rested <= NEARLY_DAILY and WAITED <= longest < WEEKS_OF_REST:
        return PRESSING_SHARE
    if len(due) <= MUCH_DUE:
        return DUE_SHARE
    return CATCH_UP_SHARE if is_done else MORE_SHARE


def _has_room(player: PlayerState, session: Session, due: Level, share: float) -> bool:
    """Whether a session has time to check a level now: always for the first one due."""
    total, checked = 60 * session.minutes, spent(session, Purpose.DUE)
    begun = any(result.why is Purpose.DUE and result.level == due.id for result in session.results)
    if begun and player.is_under_check(due):
        return checked < max(DUE_MOST, share + FINISH) * total
    return not checked or checked + HALF * player.pace.of(due) <= share * total
