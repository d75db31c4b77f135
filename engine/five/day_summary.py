"""The picture of a day: what was played and why, what was kept, passed and beaten."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import timedelta

from drills.level import Level
from engine.five.day_end import Day, Part
from engine.five.planner import checks_in, plan, seed_of
from engine.five.player_state import PlayerState
from engine.five.session import SessionLog
from engine.kit.repetition_marks import Mark
from engine.kit.steadiness_chart import SteadinessView
from engine.practice.results import Purpose, Result, Streaks
from engine.practice.retention import CheckOutcome, Retention

NAMES = {
    Purpose.DUE: "Asked again",
    Purpose.BAND: "Steadiness",
    Purpose.LEARN: "Learning",
    Purpose.MIX: "Mixed in",
    Purpose.DARK: "Last, with nothing shown",
    Purpose.WARM: "Warm-up",
}
"""What the parts of a day are called, in the order they come."""
MOST_BESTS = 2
"""count of levels whose best scores are told."""


def day_of(
    ran: SessionLog, stood: Streaks, stands: Streaks, steadiness: SteadinessView | None
) -> Day:
    """The day after what ran; `stood` is how the player stood before it, `stands` after it."""
    results, now = ran.session.results, ran.now
    counting = [one for one in results if one.counts]
    return Day(
        parts=tuple(_parts(results, now.levels)),
        seconds=ran.session.spent,
        clean=sum(one.clean for one in counting),
        counted=len(counting),
        kept=tuple(_kept(results, now)),
        passed=tuple(_passed(results, now)),
        beaten=(*_rows_beaten(stood, stands), *_scores_beaten(ran)),
        steadiness=steadiness,
        streaks=stands,
        due_tomorrow=_due_tomorrow(ran),
        is_early=not ran.session.over,
    )


def _parts(results: Sequence[Result], levels: Sequence[Level]) -> Iterator[Part]:
    titles = {level.id: level.title for level in levels}
    for why, name in NAMES.items():
        some = [one for one in results if one.why is why]
        learned = {titles.get(one.level, one.level) for one in some}
        if why is Purpose.LEARN and len(learned) == 1:
            name = f"{name}: {learned.pop()}"
        if some:
            yield Part(name, tuple(map(_mark, some)))


def _mark(result: Result) -> Mark:
    if not result.counts:
        return Mark.VOID
    return Mark.CLEAN if result.clean else Mark.MISSED


def _kept(results: Sequence[Result], now: PlayerState) -> Iterator[str]:
    """Those that were asked, on a day of it: one that goes past midnight has two."""
    asked = {one.level for one in results if one.why is Purpose.DUE}
    days = {one.day for one in results}
    for level in now.levels:
        retention = now.retention.get(level.id)
        if (
            level.id in asked
            and retention
            and CheckOutcome.RETAINED in map(retention.outcome_on, days)
        ):
            yield level.title


def _passed(results: Sequence[Result], now: PlayerState) -> Iterator[str]:
    """Those of the levels played whose first interval began on a day they were played on."""
    played = {(one.level, one.day) for one in results if one.counts}
    days = {one.day for one in results}
    for level in now.levels:
        retention = now.retention.get(level.id)
        begun = [day for day in days if retention == Retention.passed(day)]
        if any((level.id, day) in played for day in begun):
            yield level.title


def _rows_beaten(stood: Streaks, stands: Streaks) -> Iterator[str]:
    if stands.best_clean_streak > stood.best_clean_streak > 0:
        yield f"{stands.best_clean_streak} clean in a row: more than ever before."
    if stands.best_days_streak > stood.best_days_streak > 1:
        yield f"{stands.best_days_streak} days in a row: more than ever before."


def _scores_beaten(ran: SessionLog) -> list[str]:
    """The best scores that were beaten, of the hardest levels there are any of."""
    found = []
    for level in reversed(ran.now.levels):
        before = ran.bests.get(level.id, 0.0)
        scores = [one.score or 0.0 for one in ran.session.results if one.level == level.id]
        best = math.floor(max(scores, default=0.0))
        if best > math.floor(before) > 0:
            found.append(f"Best score yet at {level.title}: {best}.")
    return found[:MOST_BESTS]


def _due_tomorrow(ran: SessionLog) -> int:
    """Those of tomorrow's plan: of many that are due only the first have their turn."""
    tomorrow = ran.now.day + timedelta(days=1)
    session = replace(ran.session, seed=seed_of(tomorrow), results=())
    return checks_in(plan(replace(ran.now, day=tomorrow), session))
