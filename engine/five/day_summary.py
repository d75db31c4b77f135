"""The picture of a day: what was played and why, what was kept, passed and beaten."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import timedelta

from drills.level import Level
from engine.five.day_end import Day, Part
from engine.five.planner import plan, shown_again
from engine.five.player_state import Known
from engine.five.session import Ran, seed_of
from engine.kit.repetition_marks import Mark
from engine.kit.steadiness_chart import BandShown
from engine.practice.results import Result, Standing, Why
from engine.practice.retention import Keeping, Shown

NAMES = {
    Why.DUE: "Asked again",
    Why.BAND: "Steadiness",
    Why.LEARN: "Learning",
    Why.MIX: "Mixed in",
    Why.DARK: "Last, with nothing shown",
    Why.WARM: "Warm-up",
}
"""What the parts of a day are called, in the order they come."""
MOST_BESTS = 2
"""count of levels whose best scores are told."""


def day_of(ran: Ran, stood: Standing, stands: Standing, steadiness: BandShown | None) -> Day:
    """The day after what ran; `stood` is how the player stood before it, `stands` after it."""
    results, now = ran.sitting.results, ran.now
    counting = [one for one in results if one.counts]
    return Day(
        parts=tuple(_parts(results, now.levels)),
        seconds=ran.sitting.spent,
        clean=sum(one.clean for one in counting),
        counted=len(counting),
        kept=tuple(_kept(results, now)),
        passed=tuple(_passed(results, now)),
        beaten=(*_rows_beaten(stood, stands), *_scores_beaten(ran)),
        steadiness=steadiness,
        standing=stands,
        due_tomorrow=_due_tomorrow(ran),
        is_early=not ran.sitting.over,
    )


def _parts(results: Sequence[Result], levels: Sequence[Level]) -> Iterator[Part]:
    titles = {level.id: level.title for level in levels}
    for why, name in NAMES.items():
        some = [one for one in results if one.why is why]
        learned = {titles.get(one.level, one.level) for one in some}
        if why is Why.LEARN and len(learned) == 1:
            name = f"{name}: {learned.pop()}"
        if some:
            yield Part(name, tuple(map(_mark, some)))


def _mark(result: Result) -> Mark:
    if not result.counts:
        return Mark.VOID
    return Mark.CLEAN if result.clean else Mark.MISSED


def _kept(results: Sequence[Result], now: Known) -> Iterator[str]:
    """Those that were asked, on a day of it: one that goes past midnight has two."""
    asked = {one.level for one in results if one.why is Why.DUE}
    days = {one.day for one in results}
    for level in now.levels:
        keeping = now.keeping.get(level.id)
        if level.id in asked and keeping and Shown.KEPT in map(keeping.shown_on, days):
            yield level.title


def _passed(results: Sequence[Result], now: Known) -> Iterator[str]:
    """Those of the levels played whose first interval began on a day they were played on."""
    played = {(one.level, one.day) for one in results if one.counts}
    days = {one.day for one in results}
    for level in now.levels:
        keeping = now.keeping.get(level.id)
        begun = [day for day in days if keeping == Keeping.passed(day)]
        if any((level.id, day) in played for day in begun):
            yield level.title


def _rows_beaten(stood: Standing, stands: Standing) -> Iterator[str]:
    if stands.best_clean_row > stood.best_clean_row > 0:
        yield f"{stands.best_clean_row} clean in a row: more than ever before."
    if stands.best_days_row > stood.best_days_row > 1:
        yield f"{stands.best_days_row} days in a row: more than ever before."


def _scores_beaten(ran: Ran) -> list[str]:
    """The best scores that were beaten, of the hardest levels there are any of."""
    found = []
    for level in reversed(ran.now.levels):
        before = ran.bests.get(level.id, 0.0)
        scores = [one.score or 0.0 for one in ran.sitting.results if one.level == level.id]
        best = math.floor(max(scores, default=0.0))
        if best > math.floor(before) > 0:
            found.append(f"Best score yet at {level.title}: {best}.")
    return found[:MOST_BESTS]


def _due_tomorrow(ran: Ran) -> int:
    """Those of tomorrow's plan: of many that are due only the first have their turn."""
    tomorrow = ran.now.day + timedelta(days=1)
    sitting = replace(ran.sitting, seed=seed_of(tomorrow), results=())
    return shown_again(plan(replace(ran.now, day=tomorrow), sitting))
