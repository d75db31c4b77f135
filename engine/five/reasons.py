"""Reason for which a repetition of a session is played, in at most six words."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from drills.fault import Fault
from drills.fault_names import fault_name
from drills.level import Feedback, Level
from engine.five.plan_words import LONG_REST, PARTS
from engine.five.planner import Planned
from engine.five.player_state import PlayerState
from engine.practice.focus import Focus
from engine.practice.passes import is_open
from engine.practice.personal_limit import PersonalLimit
from engine.practice.personal_words import figure
from engine.practice.results import Purpose
from engine.practice.retention import Retention
from engine.practice.steadiness import WINDOW

MOST_WORDS = 6
"""Most words of a reason, as a count."""
WEEKS_FROM = 21
"""Days from which a time since the last check is told in weeks."""


def reason_of(planned: Planned, player: PlayerState, asked: float | None = None) -> str:
    """Reason for a planned repetition, such as "new: Two downshifts" or "check-up: 8 days later".

    `player` is the state of the player before it, and `asked` the tolerance of a steadiness blip in
    points. It tells nothing of the results that the session has not shown.
    """
    level = planned.level
    match planned.why:
        case Purpose.LEARN:
            return titled(learn_words([level.id], player), level.title)
        case Purpose.DUE:
            return check_reason(player.retention.get(level.id), player.day, player.rested)
        case Purpose.BAND if asked is not None:
            return f"{PARTS[Purpose.BAND]} within {asked:.0f} points"
        case Purpose.FAULT if player.focus is not None:
            return fault_reason(player.focus.fault)
        case Purpose.OWN:
            return _own_limit(level, player)
        case Purpose.MIX | Purpose.WARM:
            return titled(PARTS[planned.why], level.title)
    return PARTS.get(planned.why, planned.why.value)


def titled(words: str, title: str) -> str:
    """A reason with the title of its level; a title too long for six words is cut short."""
    room = MOST_WORDS - len(words.split())
    named = title.split()
    if len(named) > room:
        named = [*named[: room - 1], f"{named[room - 1]}..."]
    return f"{words}: {' '.join(named)}" if named else words


def check_reason(retention: Retention | None, day: date, rested: int = 0) -> str:
    """Reason for a retention check: how long ago the level was passed, retained or missed.

    `rested` is the number of whole days without practice before `day`.
    """
    asks, when = check_parts(retention, day, rested)
    if not when:
        return asks
    return f"{asks} {when}" if asks.endswith("?") else f"{asks}: {when}"


def check_parts(retention: Retention | None, day: date, rested: int = 0) -> tuple[str, str]:
    """What a retention check is, such as "check-up again", and its time, such as "8 days later".

    The time is empty where it is not known.
    """
    since = None if retention is None else retention.since
    days = 0 if since is None else (day - since).days
    missed = retention is not None and retention.missed
    asks = f"{PARTS[Purpose.DUE]} again" if missed else PARTS[Purpose.DUE]
    if rested >= LONG_REST:
        asks = "still there?"
    if days < 1:
        return asks, ""
    if not missed:
        return asks, f"{_time_words(days)} later"
    return asks, "missed yesterday" if days == 1 else f"missed {_time_words(days)} ago"


def fault_reason(fault: Fault) -> str:
    """Reason for a repetition that answers a fault, such as "for the early roll"."""
    name = fault_name(fault)
    return f"for {name}" if name.endswith("ing") else f"for the {name}"


def focus_words(focus: Focus | None) -> str:
    """Reason for repetitions that answer the fault worked on; empty where there is none."""
    return "" if focus is None else fault_reason(focus.fault)


def learn_words(levels: Sequence[str], player: PlayerState) -> str:
    """What practice of these levels in order to learn is, in a word or two.

    It is new where one of them is not passed yet; else they are easier ones first or, where nothing
    is left to learn, practice.
    """
    if not player.done.issuperset(levels):
        return PARTS[Purpose.LEARN]
    left = [other for other in player.levels if other.id not in player.done]
    if any(is_open(other, player.done, player.pedals) for other in left):
        return "easier first"
    return "practice"


def _own_limit(level: Level, player: PlayerState) -> str:
    """Reason for practice of a level towards a lower personal limit, with the limit and its best.

    Before there is one it is how many repetitions it waits for. It is not told where it would show
    results that the level withholds.
    """
    limit = player.personal.get(level.id, PersonalLimit())
    if limit.factor is None:
        return f"your limit: {len(limit.loads)} of {WINDOW} repetitions"
    if level.feedback is not Feedback.EVERY:
        return "for your personal limit"
    best = limit.factor if limit.best is None else min(limit.best, limit.factor)
    words, lowest = figure(limit.factor), figure(best)
    return f"your limit: {words}" + (f", best {lowest}" if lowest != words else "")


def _time_words(days: int) -> str:
    """A number of days in words; in whole weeks if it is large."""
    if days >= WEEKS_FROM:
        return f"{days // 7} weeks"
    return "1 day" if days == 1 else f"{days} days"
