"""Summary of the day after a session: its parts, and what was passed, retained or beaten."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import timedelta

from drills.level import Level
from engine.five.day import BestScore, Day, NewLimit, Part
from engine.five.day_words import longest_row_words
from engine.five.plan_words import PARTS
from engine.five.planner import checks_in, plan, seed_of
from engine.five.player_state import PlayerState
from engine.five.session import SessionLog
from engine.five.session_marks import mark_of_result
from engine.kit.steadiness_view import SteadinessView
from engine.practice.personal_words import OF_THE_LIMIT, figure
from engine.practice.results import Purpose, Result, Session, Streaks
from engine.practice.retention import CheckOutcome

MOST_BESTS = 2
"""Most levels whose new best score is mentioned at the end of a session, as a count."""


def day_of(
    ran: SessionLog, stood: Streaks, stands: Streaks, steadiness: SteadinessView | None
) -> Day:
    """Summary of a session; `stood` are the streaks before it, `stands` those after it."""
    results, now, scores = ran.session.results, ran.now, _best_scores(ran)
    counting = [result for result in results if result.counts]
    tomorrow = replace(now, day=now.day + timedelta(days=1))
    new_limit = _new_limit(counting, now)
    longest = stands.best_days_streak > stood.best_days_streak > 1
    return Day(
        parts=tuple(_parts(results, now.levels)),
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
        due_tomorrow=checks_in(plan(tomorrow, _next_session(ran))),
        all_due=len(tomorrow.due),
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


def _parts(results: Sequence[Result], levels: Sequence[Level]) -> Iterator[Part]:
    """Parts of the session that were played, in order, each with the marks of its repetitions."""
    titles = {level.id: level.title for level in levels}
    for why, name in PARTS.items():
        played = [result for result in results if result.why is why]
        learned = {titles.get(result.level, result.level) for result in played}
        title = learned.pop() if why is Purpose.LEARN and len(learned) == 1 else ""
        if played:
            marks = tuple(map(mark_of_result, played))
            yield Part(name, marks, title, is_staircase=why is Purpose.BAND)


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
