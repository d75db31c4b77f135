"""Summary of the day after a session: its parts, and what was passed, retained or beaten."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import timedelta

from engine.five.check_time import is_back
from engine.five.day import BestScore, Day, NewLimit, Part
from engine.five.day_words import longest_row_words
from engine.five.plan_words import PARTS, plan_words
from engine.five.planner import checks_in, plan, seed_of
from engine.five.player_state import PlayerState
from engine.five.reasons import focus_words, learn_words
from engine.five.session import SessionLog
from engine.five.session_marks import mark_of_result
from engine.kit.steadiness_view import SteadinessView
from engine.practice.personal_words import OF_THE_LIMIT, figure
from engine.practice.results import Purpose, Result, Session, Streaks
from engine.practice.retention import CheckOutcome

MOST_BESTS = 2
"""Most levels whose new best score is mentioned at the end of a session, as a count."""
EASIER = {"easier first": "on an easier level", "practice": "of practice"}
"""What repetitions of levels that are passed already were for, by the word for their part."""


def day_of(
    ran: SessionLog, stood: Streaks, stands: Streaks, steadiness: SteadinessView | None
) -> Day:
    """Summary of a session; `stood` are the streaks before it, `stands` those after it."""
    results, now, scores = ran.session.results, ran.now, _best_scores(ran)
    counting = [result for result in results if result.counts]
    tomorrow = replace(now, day=now.day + timedelta(days=1))
    new_limit = _new_limit(counting, now)
    longest = stands.best_days_streak > stood.best_days_streak > 1
    planned, due = plan(tomorrow, _next_session(ran)), len(tomorrow.due)
    return Day(
        parts=tuple(_parts(ran)),
        seconds=ran.session.spent,
        clean=sum(result.clean for result in counting),
        counted=len(counting),
        retained=tuple(_retained(results, now)),
        passed=tuple(_passed(ran)),
        beaten=(
            *_limit_words(new_limit),
            *_streaks_beaten(stood, stands),
            *map(_score_words, scores),
        ),
        steadiness=steadiness,
        streaks=stands,
        due_tomorrow=checks_in(planned),
        all_due=due,
        tomorrow=plan_words(planned, due, focus_words(tomorrow.focus)),
        still=_still_there(ran),
        is_early=not ran.session.over,
        is_longest=longest,
        past_midnight=now.day > ran.session.began.date(),
        row=_longest_row(stood, stands),
        best=scores[0] if scores else None,
        new_limit=new_limit,
    )


def _new_limit(results: Sequence[Result], now: PlayerState) -> NewLimit | None:
    """New best of a personal limit told in the session, of the hardest retained level with one."""
    for level in reversed(now.levels):
        days = {result.day for result in results if result.level == level.id}
        limit, retention = now.personal.get(level.id), now.retention.get(level.id)
        if limit is None or retention is None or not retention.is_retained:
            continue
        best = next(filter(None, map(limit.new_best_on, days)), None)
        if best is not None:
            return NewLimit(best, level.title)
    return None


def _limit_words(new_limit: NewLimit | None) -> Iterator[str]:
    """Sentence about a new best of a personal limit, with its figure."""
    if new_limit is not None:
        yield f"New best: {figure(new_limit.factor)} {OF_THE_LIMIT} at {new_limit.title}."


def _parts(ran: SessionLog) -> Iterator[Part]:
    """Parts of the session that were played, in order, each with the marks of its repetitions."""
    titles = {level.id: level.title for level in ran.now.levels}
    for why in PARTS:
        played = [result for result in ran.session.results if result.why is why]
        if not played:
            continue
        levels = list(dict.fromkeys(result.level for result in played))
        named = [titles.get(level, level) for level in levels]
        name, aim = _named(why, levels, ran)
        title = named[0] if why in (Purpose.LEARN, Purpose.OWN) and len(named) == 1 else ""
        marks = tuple(map(mark_of_result, played))
        yield Part(name, marks, title, aim, is_staircase=why is Purpose.BAND)


def _named(why: Purpose, levels: Sequence[str], ran: SessionLog) -> tuple[str, str]:
    """Name of the part of a session with this purpose, and what its repetitions were for."""
    name = PARTS[why]
    several = name if len(levels) == 1 else f"{name}s"
    match why:
        case Purpose.DUE:
            return several, "for a check-up" if len(levels) == 1 else "for check-ups"
        case Purpose.OWN:
            return several, "for a personal limit" if len(levels) == 1 else "for personal limits"
        case Purpose.BAND:
            return name, "for steadiness"
        case Purpose.FAULT:
            words = focus_words(ran.focus) or name
            return words, words
        case Purpose.LEARN:
            before = replace(ran.now, done=ran.now.done - ran.passed)
            words = learn_words(levels, before)
            return words, EASIER.get(words, words)
    return name, ""


def _still_there(ran: SessionLog) -> tuple[int, int] | None:
    """After a long rest, how many levels were still retained, of those whose check was decided."""
    days = {result.day for result in ran.session.results}
    if not is_back(replace(ran.now, day=ran.session.began.date())):
        return None
    checked = {result.level for result in ran.session.results if result.why is Purpose.DUE}
    found = [ran.now.retention[level] for level in checked if level in ran.now.retention]
    outcomes = [outcome for one in found for day in days if (outcome := one.outcome_on(day))]
    decided = [outcome for outcome in outcomes if outcome is not CheckOutcome.OPEN]
    return (decided.count(CheckOutcome.RETAINED), len(decided)) if decided else None


def _retained(results: Sequence[Result], now: PlayerState) -> Iterator[str]:
    """Titles of the levels retained in the session's checks, whichever side of midnight."""
    checked = {result.level for result in results if result.why is Purpose.DUE}
    days = {result.day for result in results}
    for level in now.levels:
        retention = now.retention.get(level.id)
        if level.id not in checked or retention is None:
            continue
        if CheckOutcome.RETAINED in map(retention.outcome_on, days):
            yield level.title


def _passed(ran: SessionLog) -> Iterator[str]:
    """Titles of the levels first passed in a session, in the order of the levels."""
    return (level.title for level in ran.now.levels if level.id in ran.passed)


def _longest_row(stood: Streaks, stands: Streaks) -> int:
    """The longest row of clean repetitions, if this session made it longer; else 0."""
    row = stands.best_clean_streak
    return row if row > stood.best_clean_streak > 0 else 0


def _streaks_beaten(stood: Streaks, stands: Streaks) -> Iterator[str]:
    """Sentence about the longest row of clean repetitions, where this session made it longer."""
    if row := _longest_row(stood, stands):
        yield longest_row_words(row)


def _best_scores(ran: SessionLog) -> list[BestScore]:
    """New best scores, only those of the hardest levels that have one."""
    found = []
    for level in reversed(ran.now.levels):
        before = ran.bests.get(level.id, 0.0)
        scores = [result.score or 0.0 for result in ran.session.results if result.level == level.id]
        best = math.floor(max(scores, default=0.0))
        if best > math.floor(before) > 0:
            found.append(BestScore(best, level.id, level.title))
    return found[:MOST_BESTS]


def _score_words(best: BestScore) -> str:
    """Sentence about a new best score."""
    return f"Best score yet: {best.score} at {best.title}."


def _next_session(ran: SessionLog) -> Session:
    """Session of the same length on the day after."""
    return replace(ran.session, seed=seed_of(ran.now.day + timedelta(days=1)), results=())
