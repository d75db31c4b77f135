"""Progress: the values that every page of the history is drawn from, read from the history."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from itertools import pairwise

import numpy as np

from drills.kinds import KINDS
from drills.level import Level
from drills.measures.catalogue import CATALOGUE, Measure
from engine.five.coach_view import CoachView, coach_now
from engine.five.player_history import steadiness_view
from engine.kit.steadiness_view import SteadinessView
from engine.ladder.ladder import LadderStage, ladder_stages
from engine.practice.blip_size import BLIP
from engine.practice.changes import Change, Changed
from engine.practice.counting_cost import NO_COST, CostOverTime, cost_over_time
from engine.practice.course import Course
from engine.practice.day_effects import least
from engine.practice.personal_limit import PersonalLimit
from engine.practice.remeasuring import Remeasuring
from engine.practice.sense import Sense, Squeeze, sense_of
from engine.practice.size_made import SizeMade, size_made
from engine.practice.steadiness import DaySteadiness, SteadinessStep
from engine.progress.bins import (
    BinLength,
    CalendarBin,
    bin_length,
    calendar_bins,
    left_out,
)
from engine.progress.changes_brought import Brought, brought
from engine.progress.curve_points import EffectBin, chart_bins
from engine.progress.learning_curve import LearningCurve, learning_curve
from engine.progress.learning_curve_words import CurveWords, curve_words
from engine.progress.pause import when_words
from engine.progress.steadiness_days import steadiness_days
from engine.progress.weeks import SINGLE, Week, weeks_of
from engine.road.course import NO_DRIVES, RoadCourse, road_course
from engine.store import History, ledger
from engine.store.asked import newest_peaks, newest_squeezes
from engine.store.cells import LARGEST
from engine.store.changes import all_changes
from engine.store.counting import counting_repetitions
from engine.store.courses import courses_of, values_of
from engine.store.days import practice_days
from engine.store.personal import personal_limits
from engine.store.remeasure import remeasuring
from engine.store.retention import all_retention


@dataclass(frozen=True)
class BinnedMeasure:
    """One measure of single blips over time, in calendar bins."""

    length: BinLength
    """Length of each calendar bin."""
    bins: tuple[CalendarBin, ...] = ()
    """Calendar bins with practice, oldest first; none spans a change of the brake's scale."""
    left_out: int = 0
    """Number of measured repetitions left out as the warm-up of their day."""
    begins: tuple[int, ...] = ()
    """Indices of the bins that are the first ones of another scale of the brake."""

    @property
    def comparable(self) -> tuple[CalendarBin, ...]:
        """Calendar bins of the newest scale of the brake that has any, oldest first."""
        return self.bins[self.begins[-1] if self.begins else 0 :]


@dataclass(frozen=True)
class KindProgress:
    """Progress of the player in one kind of drill."""

    name: str
    """Title of the kind of drill."""
    measure: Measure
    """Measure of the drill that shows learning: it becomes smaller."""
    learning: LearningCurve
    """Learning curve of the kind of drill, and its trend."""
    words: CurveWords
    """Sentences about the learning curve of the kind of drill."""
    bins: tuple[EffectBin, ...]
    """Bins of the kind's days at today's level, oldest first; none spans a new beginning."""
    curve_begins: int
    """Number of the kind's repetitions before its learning curve begins."""
    changes: tuple[tuple[int, Change], ...] = ()
    """Changes, each with the number of the kind's repetitions that came before it."""
    when: str = "now"
    """Words for when its present value is of: now, or up to which day after a pause."""


@dataclass(frozen=True)
class Progress:
    """Everything that the pages of the history and the report are drawn from."""

    today: date
    """Local day on which the progress was read."""
    weeks: tuple[Week, ...] = ()
    """First and current week of single blips; fewer if there is not enough practice."""
    steadiness: SteadinessView | None = None
    """Present steadiness with its interval; None if there are too few blips."""
    daily_steadiness: tuple[DaySteadiness, ...] = ()
    """Steadiness at the end of each day, or of every n-th day if they are many, oldest first."""
    steadiness_step: SteadinessStep | None = None
    """Step from the first steadiness to the present one; None if it cannot be told."""
    steadiness_blips: int = 0
    """Blips on the brake's newest scale that count for steadiness, as a count."""
    dips: BinnedMeasure = BinnedMeasure(BinLength.DAY)
    """Dip of single blips over time, in points."""
    distances: BinnedMeasure = BinnedMeasure(BinLength.DAY)
    """Extra stopping distance of single blips over time, in m."""
    peaks: BinnedMeasure = BinnedMeasure(BinLength.DAY)
    """Size of single blips over time, the highest throttle of each in %."""
    scaled_dips: BinnedMeasure = BinnedMeasure(BinLength.DAY)
    """Dip of single blips over time as it would be at blips of one size, in points."""
    kinds: tuple[KindProgress, ...] = ()
    """Progress in every kind of drill that was practised, in the order of the kinds."""
    stages: tuple[LadderStage, ...] = ()
    """Stages of the ladder, with the player's state on each of their levels."""
    days: tuple[tuple[date, int], ...] = ()
    """Days practised, each with its number of repetitions that counted, oldest first."""
    changes: tuple[Change, ...] = ()
    """Changes of foot or rig, oldest first."""
    brought: tuple[Brought, ...] = ()
    """What each of the newest changes brought that the player marked, oldest first."""
    road: RoadCourse = NO_DRIVES
    """Drives beside the drills, oldest first."""
    personal: Mapping[str, PersonalLimit] = field(default_factory=dict)
    """Personal limits by the ids of their levels."""
    squeezes: tuple[Squeeze, ...] = ()
    """Newest squeezes that can be compared, oldest first."""
    sense: Sense | None = None
    """Sense of pressure of the player; None if there are too few squeezes."""
    size: SizeMade | None = None
    """Size of the newest blips of which one size was asked; None if there are too few."""
    counting: CostOverTime = NO_COST
    """What counting knocks costs a blip, now and month by month."""
    coach: CoachView | None = None
    """What the coach says of the newest blips; None where that was not read."""
    chosen: int = 0
    """Index into `kinds` of the one whose learning curve is drawn."""
    remeasuring: Remeasuring | None = None
    """How far the history is remeasured, until when there is nothing of what it measured; None if
    all of it is."""


def progress_of(history: History, levels: Sequence[Level], band: Level, today: date) -> Progress:
    """Progress of the player, read from the history on a local day. Raises StoreError."""
    told = Progress(
        today=today,
        stages=ladder_stages(
            levels, ledger.passed(history), ledger.placed(history), retention=all_retention(history)
        ),
        days=tuple(practice_days(history)),
        changes=tuple(all_changes(history)),
        remeasuring=remeasuring(history),
        personal=personal_limits(history),
    )
    return told if told.remeasuring is not None else _with_measures(told, history, levels, band)


def _with_measures(
    progress: Progress, history: History, levels: Sequence[Level], band: Level
) -> Progress:
    """The same progress with everything that rests on measures. Raises StoreError."""
    today = progress.today
    courses = courses_of(
        history,
        {kind.name: kind.learning_measure for kind in KINDS.values() if kind.learning_measure},
    )
    dips = courses[SINGLE]
    cost = replace(dips, value=values_of(history, SINGLE, "extra_distance"))
    scales = [change.after for change in progress.changes if change.what is Changed.SCALE]
    peaks = values_of(history, SINGLE, "peak")
    sizes = replace(dips, value=np.where(np.isfinite(dips.value), peaks, np.nan))
    scaled_dips = replace(dips, value=dips.value * BLIP / peaks)
    steadiness = steadiness_days(history, band, scales)
    squeezes = newest_squeezes(history)
    return replace(
        progress,
        weeks=weeks_of(history, dips, today, scales[-1] if scales else 0),
        steadiness=steadiness_view(history, band, today),
        daily_steadiness=steadiness.days,
        steadiness_step=steadiness.step,
        steadiness_blips=steadiness.blips,
        dips=_binned(dips, today, scales),
        distances=_binned(cost, today, scales),
        peaks=_binned(sizes, today, scales),
        scaled_dips=_binned(scaled_dips, today, scales),
        kinds=tuple(_kinds(courses, progress.changes, levels, today)),
        brought=brought(progress.changes, courses[SINGLE], peaks, today),
        road=road_course(history, progress.changes),
        squeezes=tuple(squeezes),
        sense=sense_of(squeezes),
        size=size_made(newest_peaks(history, band.id), BLIP),
        counting=cost_over_time(counting_repetitions(history)),
        coach=coach_now(history, levels),
    )


def _binned(course: Course, today: date, scales: Sequence[int]) -> BinnedMeasure:
    length, bins, begins = bin_length(course, today), list[CalendarBin](), list[int]()
    for after, last in pairwise([0, *scales, LARGEST]):
        if found := calendar_bins(course.between(after, last), today, length):
            begins += [len(bins)] if bins else []
            bins += found
    return BinnedMeasure(length, tuple(bins), left_out(course), tuple(begins))


def _kinds(
    courses: Mapping[str, Course], changes: Sequence[Change], levels: Sequence[Level], today: date
) -> Iterator[KindProgress]:
    """Progress in every kind of drill practised, its curve fitted from the last change on."""
    anew = [change for change in changes if change.what.begins_anew]
    change = anew[-1] if anew else None
    for kind in KINDS.values():
        course = courses.get(kind.name)
        if course is None or not len(course):
            continue
        counts = [int(np.sum(course.number <= each.after)) for each in changes]
        begins = [int(np.sum(course.number <= each.after)) for each in anew]
        limits = [
            level.limits.get(kind.learning_measure)
            for level in levels
            if level.kind.name == kind.name
        ]
        good = min((limit for limit in limits if limit is not None), default=0.0)
        measure = CATALOGUE[kind.learning_measure]
        raised = least(measure.unit)
        since = change.after if change else 0
        learning = learning_curve(course, raised, since, changed=change is not None)
        yield KindProgress(
            kind.title,
            measure,
            learning,
            curve_words(learning, measure, today, change, good),
            chart_bins(course, [each.after for each in anew], raised),
            curve_begins=begins[-1] if begins else 0,
            changes=tuple(pair for pair in zip(counts, changes, strict=True) if pair[0]),
            when=when_words(date.fromordinal(int(course.day.max())), today),
        )
