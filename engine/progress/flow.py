"""Looking back: what a history says of progress, read once, and the screens that show it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date

import numpy as np

from drills.deviation import median_of
from drills.kinds import KINDS
from drills.level import Level
from drills.measures.catalogue import CATALOGUE
from engine.drill.attempt import Setting
from engine.drill.stored_picture import picture_of
from engine.five.player_history import BLIPS, steadiness_blips, steadiness_view
from engine.kit.flow import show
from engine.ladder.ladder import ladder_stages
from engine.practice.changes import Change, Changed
from engine.practice.course import Course
from engine.practice.results import Purpose
from engine.practice.steadiness import DaySteadiness, steadiness
from engine.progress.bins import (
    DateRange,
    calendar_bins,
    equal_count_bins,
    left_out,
    two_weeks,
    unit_of,
)
from engine.progress.history_screens import HistoryPage, MarkChange, PageTurn, WhatChanged
from engine.progress.learning_curve import learning_curve
from engine.progress.learning_curve_words import curve_words
from engine.progress.progress import BinnedMeasure, KindProgress, Progress, Week
from engine.progress.saved import all_changes, mark_change, practice_days
from engine.progress.words import DRAWN
from engine.stage.scene import Flow
from engine.store import History, ledger
from engine.store.courses import courses_of, traced_numbers, values_of
from engine.store.repetitions import measures_of
from engine.store.retention import all_retention

SINGLE = "blip"
"""Name of the kind whose blips are laid on each other."""
EVER = 1_000_000
"""count, more steadiness blips than anyone makes."""
BAND_DAYS = 120
"""count of days that the band is shown at the end of, at most: more marks touch."""


def progress_of(history: History, levels: Sequence[Level], band: Level, today: date) -> Progress:
    """Everything that progress is told from, on a local day. Raises StoreError."""
    courses = courses_of(
        history,
        {kind.name: kind.learning_measure for kind in KINDS.values() if kind.learning_measure},
    )
    cost = replace(courses[SINGLE], value=values_of(history, SINGLE, "extra_distance"))
    changes = tuple(all_changes(history))
    return Progress(
        today=today,
        weeks=tuple(_weeks(history, courses[SINGLE], today)),
        band=steadiness_view(history, band, today),
        bands=tuple(_bands(history, band)),
        dips=_spread(courses[SINGLE], today),
        distances=_spread(cost, today),
        learned=tuple(_learned(courses, changes, levels)),
        stages=ladder_stages(
            levels, ledger.passed(history), ledger.placed(history), retention=all_retention(history)
        ),
        days=tuple(practice_days(history)),
        changes=changes,
    )


def _weeks(history: History, single: Course, today: date) -> Iterator[Week]:
    """The first week of single blips that can be drawn and this one; no later one by itself."""
    traced = np.isin(single.number, traced_numbers(history, SINGLE, date.min, date.max))
    days = np.unique(single.day[traced & np.isfinite(single.value)]).tolist()
    for span in two_weeks([date.fromordinal(day) for day in days], today):
        first, last = span.first.toordinal(), span.last.toordinal()
        of_week = traced & (single.day >= first) & (single.day <= last)
        shown = DateRange(span.first, min(span.last, today))
        week = _week(history, shown, single.number[of_week].tolist())
        if week is None:
            return
        yield week


def _week(history: History, span: DateRange, numbers: Sequence[int]) -> Week | None:
    """The blips of these numbers, as far as they can be drawn."""
    drawn, dips = [], []
    for number in evenly(numbers, DRAWN):
        measures = measures_of(history, number)
        picture, dip = picture_of(history, number, measures), measures.get("dip")
        if picture is not None and dip is not None:
            drawn.append(picture)
            dips.append(dip)
    if not drawn:
        return None
    median = float(np.median(dips))
    return Week(span.first, span.last, tuple(drawn), median_of(drawn), len(numbers), median)


def evenly(numbers: Sequence[int], most: int) -> list[int]:
    """At most so many of them, evenly chosen, the first and the last among them."""
    if len(numbers) <= most:
        return list(numbers)
    return [numbers[place] for place in np.linspace(0, len(numbers) - 1, most).round().astype(int)]


def _bands(history: History, band: Level) -> Iterator[DaySteadiness]:
    """The band at the end of each day that has one, or of some of them where they are many."""
    blips = steadiness_blips(history, band, Purpose.BAND, count=EVER)
    ends = {blip.day: count for count, blip in enumerate(blips, start=1)}
    every = max(-(-len(ends) // BAND_DAYS), 1)
    for day in reversed(sorted(ends)[::-every]):
        end = ends[day]
        found = steadiness(blips[max(end - BLIPS, 0) : end])
        if found is not None:
            yield DaySteadiness(day, found.value)


def _spread(course: Course, today: date) -> BinnedMeasure:
    return BinnedMeasure(unit_of(course, today), calendar_bins(course, today), left_out(course))


def _learned(
    courses: Mapping[str, Course], changes: Sequence[Change], levels: Sequence[Level]
) -> Iterator[KindProgress]:
    """How each kind goes that was practised at all, since the last change."""
    change = changes[-1] if changes else None
    for kind in KINDS.values():
        course = courses.get(kind.name)
        if course is None or not len(course):
            continue
        after = [int(np.sum(course.number <= one.after)) for one in changes]
        limits = [
            one.limits.get(kind.learning_measure) for one in levels if one.kind.name == kind.name
        ]
        good = min((limit for limit in limits if limit is not None), default=0.0)
        grown = learning_curve(course, change.after if change else 0, changed=change is not None)
        measure = CATALOGUE[kind.learning_measure]
        yield KindProgress(
            kind.title,
            measure,
            grown,
            curve_words(grown, measure, change, good),
            tuple(equal_count_bins(course, after)),
            after[-1] if after else 0,
            tuple((count, one) for count, one in zip(after, changes, strict=True) if count),
        )


def look_back(setting: Setting, history: History, band: Level) -> Flow[None]:
    """Walk through the pictures of progress, until the player goes back."""
    today, number, chosen = setting.now().date(), 0, 0
    shown = progress_of(history, setting.levels, band, today)
    while True:
        page = HistoryPage(shown, number, chosen)
        match (yield from show(page, setting.rig, setting.stage)):
            case PageTurn.NEXT:
                number = (number + 1) % page.count
            case PageTurn.PREVIOUS:
                number = (number - 1) % page.count
            case PageTurn.KIND:
                chosen = (chosen + 1) % len(shown.learned)
            case PageTurn.CHANGE:
                if (yield from _mark_change(setting, history)):
                    shown = progress_of(history, setting.levels, band, today)
            case _:
                return


def _mark_change(setting: Setting, history: History) -> Flow[bool]:
    """Ask what was changed and whether to mark it; whether it was."""
    rig, stage = setting.rig, setting.stage
    while True:
        what = yield from show(WhatChanged(), rig, stage)
        if not isinstance(what, Changed):
            return False
        if (yield from show(MarkChange(what), rig, stage)):
            mark_change(history, setting.now(), what)
            return True
