"""Made-up progress after any number of days, and the history screens that show it."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from itertools import pairwise
from typing import Any

import numpy as np

from drills.fault import Fault
from drills.level import Level
from drills.measures.catalogue import CATALOGUE
from engine.five.coach_view import CoachView
from engine.kit.base import Screen
from engine.kit.steadiness_view import SteadinessView
from engine.ladder.ladder import ladder_stages
from engine.practice.before_after import BeforeAfter
from engine.practice.changes import Change, Changed
from engine.practice.course import Course
from engine.practice.day_effects import Slope
from engine.practice.personal_limit import PersonalLimit
from engine.practice.remeasuring import Remeasuring
from engine.practice.steadiness import DaySteadiness, Steadiness, SteadinessStep
from engine.practice.weighted_slope import OverDays
from engine.progress.ahead import Ahead, Curve
from engine.progress.bins import bin_length, calendar_bins, left_out
from engine.progress.change_flow import NOTE_MOST
from engine.progress.change_screens import MarkChange, TakeBack, WhatChanged
from engine.progress.changes_brought import Brought
from engine.progress.changes_words import change_lines
from engine.progress.curve_points import EffectBin
from engine.progress.history_pages import PAGES
from engine.progress.history_screens import HistoryPage
from engine.progress.learning_curve import LearningCurve, Trend
from engine.progress.learning_curve_words import CurveWords
from engine.progress.progress import BinnedMeasure, KindProgress, Progress
from engine.road.course import DriveDay, RoadCourse
from engine.road.summary import Middle
from engine.stage.actions import Action
from tests.engine.five.coach_pictures import FEW, NO_TRACES, NOTHING, view
from tests.engine.five.pictures import retentions
from tests.engine.progress.costs_shown import counted, counting_screens
from tests.engine.progress.made_weeks import size_of, week
from tests.engine.progress.squeezes_shown import pressed, sense_screens

TODAY = date(2024, 5, 17)
A_DAY = 12  # single blips, the first of them the 4th repetition of the day
DIP, DISTANCE = 9.0, 2.4  # points and m at last, three times as much at first
KINDS = (
    ("Hold still", "total_error"),
    ("One squeeze", "settle"),
    ("One blip", "dip"),
    ("A run of blips", "dip"),
    ("Easing off", "ramp_error"),
    ("Clutch and blip", "dip"),
)
FALLING = Slope(-0.0081, 0.0021, 50, 0.001, 1.0)
LONG = CurveWords(
    "Getting better, a third less in 50 days.",
    "About 4 points after 300 more repetitions.",
    ("In 50 days likely a fifth to half less.",),
)


def course(days: int, end: float, every: int = 1) -> Course:
    """A measure that falls to a third over the days up to today, one day in `every`."""
    since = TODAY.toordinal() - days + 1
    day = np.repeat(np.arange(since, TODAY.toordinal() + 1, every), A_DAY)
    place = np.tile(np.arange(4, 4 + A_DAY), day.size // A_DAY)
    decay = np.exp(-3.0 * (day - since) / max(days, 2))
    swing = 1 + 0.3 * np.sin(2.4 * np.arange(day.size))
    value = end * (1 + 2 * decay) * swing
    return Course(np.arange(1, day.size + 1), day, place, value, np.zeros_like(day))


def binned(days: int, end: float) -> BinnedMeasure:
    """The calendar bins of such a measure."""
    falling = course(days, end)
    return BinnedMeasure(
        bin_length(falling, TODAY), calendar_bins(falling, TODAY), left_out(falling)
    )


def of_bins(measure: BinnedMeasure, made: Callable[[float], float]) -> BinnedMeasure:
    """Another measure of the same bins, made from their quartiles."""
    bins = [
        replace(one, low=made(one.low), middle=made(one.middle), high=made(one.high))
        for one in measure.bins
    ]
    return replace(measure, bins=tuple(bins))


def kind(name: str, measure: str, count: int, changes: Sequence[Change]) -> KindProgress:
    """A kind of drill on its learning curve; with changes, the curve begins half way."""
    begins = count // 2 if changes else 0
    curve = Curve(4.0, 9.0, 0.01)
    edges = np.linspace(0, count, 25).astype(int).tolist()
    bins = tuple(
        EffectBin(first + 1, last, 3, middle - 2, middle, middle + 3)
        for first, last in pairwise(edges)
        for middle in [4 + 9 * float(np.exp(-0.01 * first))]
    )
    learning = LearningCurve(
        Trend.LEARNING,
        count,
        40,
        OverDays(FALLING, FALLING),
        (4.6, 5.4, 6.1),
        curve,
        Ahead(300, (3.4, 4.2, 5.2)),
        changed=begins > 0,
    )
    marks = tuple((count * (1 + place) // 3, one) for place, one in enumerate(changes))
    return KindProgress(name, CATALOGUE[measure], learning, LONG, bins, begins, marks)


def day_of(day: date, value: float) -> DaySteadiness:
    """Steadiness at the end of a day, with an interval about it."""
    return DaySteadiness(day, value, 0.85 * value, 1.25 * value)


def step(daily: Sequence[DaySteadiness]) -> SteadinessStep:
    """Step from the first of some days' steadiness to the last one."""
    first, last = daily[0], daily[-1]
    return SteadinessStep(
        Steadiness(first.value, 12.0, 19.0, 6, first.day),
        Steadiness(last.value, 7.1, 10.4, 6, last.day),
    )


CHANGES = (
    Change(datetime(2023, 3, 1, 20, tzinfo=UTC), Changed.SHOES, 10, 'thin <soles> & "grip"'),
    Change(datetime(2024, 3, 20, 20, tzinfo=UTC), Changed.POSITION, 20),
    Change(datetime(2024, 3, 22, 20, tzinfo=UTC), Changed.PEDALS, 30),
)
NOTED = replace(CHANGES[0], what=Changed.OTHER, note="W" * NOTE_MOST)
BETTER = BeforeAfter(9.0, -0.25, 0.2, -0.01)
UNSURE = BeforeAfter(9.0, -0.25, 0.4, -0.01)
BROUGHT = (
    Brought(NOTED, 15, False, BETTER, BETTER, (60.0, 61.0)),
    Brought(CHANGES[0], 15, False, BETTER, UNSURE, (62.0, 45.0)),
    Brought(CHANGES[1], 12, True, UNSURE, UNSURE, (60.0, 61.0)),
    Brought(CHANGES[2], 2, True, is_early=True),
)
"""What changes brought, in all words for it."""


def progress(levels: Sequence[Level], days: int, changes: Sequence[Change] = ()) -> Progress:
    """Progress after practice on every one of the last days."""
    first = TODAY - timedelta(days=days - 1)
    this = (week(TODAY, DIP),) if days > 13 else ()
    daily = [day_of(first + timedelta(days=n), 8 + 90 / n) for n in range(12, days, 30)]
    passed, dips = levels[: min(days, 20)], binned(days, DIP)
    return Progress(
        today=TODAY,
        weeks=(week(first + timedelta(days=6), 3 * DIP), *this),
        steadiness=SteadinessView(daily[-1].value, 7.1, 10.4, 6) if daily else None,
        daily_steadiness=tuple(daily),
        steadiness_step=step(daily) if days > 60 else None,
        steadiness_blips=6 * days,
        dips=dips,
        distances=binned(days, DISTANCE),
        peaks=of_bins(dips, size_of),
        scaled_dips=of_bins(dips, lambda dip: dip * 60 / size_of(dip)),
        kinds=tuple(kind(*each, 40 + days, changes) for each in KINDS),
        stages=ladder_stages(
            levels,
            frozenset(level.id for level in passed),
            retention=retentions(levels, len(passed) // 2),
        ),
        days=tuple((first + timedelta(days=n), 3 + 7 * n % 60) for n in range(days)),
        changes=tuple(changes),
        brought=BROUGHT if changes else (),
        personal={
            level.id: PersonalLimit((0.9 - 0.04 * n,) * 36, 0.5) for n, level in enumerate(passed)
        },
        road=road(days),
        **pressed(TODAY, days),
        counting=counted(TODAY, days),
        coach=coached(days),
    )


def coached(days: int) -> CoachView:
    """The coach's page after some days: too early, then nothing, then a fault that stands out."""
    if days < 2:
        return FEW
    return NOTHING if days < 60 else view(Fault.EARLY_ROLL)


def road(days: int) -> RoadCourse:
    """Drives on every ninth of the last days, and the drills beside them from the second on."""
    drives = tuple(
        DriveDay(
            TODAY - timedelta(days=ago),
            Middle(60, 9 + ago % 50 / 12, 6 + ago % 50 / 15, 13 + ago % 50 / 9),
            {"trail": 7 + ago % 50 / 15, "blip": 6 + ago % 50 / 20} if ago < days - 9 else {},
        )
        for ago in range(min(days, 900) - 1, -1, -9)
    )
    return RoadCourse(drives, older=2 if days > 900 else 0, other_rigs=1 if days > 900 else 0)


def on_new_scale(levels: Sequence[Level]) -> Progress:
    """Progress of 60 days, of which the last 20 are on another scale of the brake."""
    at = datetime(2024, 4, 28, 20, tzinfo=UTC)
    changes = (
        Change(at - timedelta(days=22), Changed.SET_UP, 200),
        Change(at, Changed.SCALE, 400),
    )
    shown = progress(levels, 60, changes)
    begins = sum(1 for one in shown.dips.bins if one.first < at.date())
    daily = tuple(day_of(TODAY - timedelta(days=n), 6 + n / 10) for n in range(40, -1, -4))
    now = SteadinessView(6.0, 5.0, 7.4, 6)
    dips = replace(shown.dips, begins=(begins,))
    return replace(shown, dips=dips, daily_steadiness=daily, steadiness=now)


def resting(levels: Sequence[Level], days: int) -> Progress:
    """Progress with days and weeks of rest."""
    shown = progress(levels, days)
    played = [
        (day, 20 + (31 * number) % 50)
        for number, (day, _) in enumerate(shown.days)
        if ((number * number) % 7 in (0, 1, 2) and number // 7 % 9 not in (4, 5)) or number == 0
    ]
    return replace(shown, days=tuple(played))


def in_figures(shown: Progress, page: str) -> HistoryPage:
    """A page of the history with all figures in place of its picture."""
    screen = HistoryPage(shown, page)
    for action in (*[Action.NEXT] * 3, Action.GO):
        screen.on_action(action)
    return screen


def no_progress(levels: Sequence[Level]) -> Progress:
    """Progress before any practice."""
    return Progress(TODAY, stages=ladder_stages(levels, frozenset()))


def history_screens(levels: Sequence[Level]) -> Mapping[str, Screen[Any]]:
    """All history screens by a name: every page, and those that mark a change."""
    new, decade = no_progress(levels), progress(levels, 3650, CHANGES)
    many = tuple(
        replace(stage, name=f"{'a stage of my own ' * turn}{stage.name}")
        for turn in range(3)
        for stage in decade.stages
    )
    return {
        **{f"history {page}": HistoryPage(decade, page) for page in PAGES},
        "history remeasured": HistoryPage(
            replace(new, remeasuring=Remeasuring(123456, 219600)), "learning"
        ),
        **sense_screens(decade),
        **counting_screens(decade),
        "history of nothing": HistoryPage(new, "steadiness"),
        "history of no traces": HistoryPage(replace(decade, coach=NO_TRACES), "coach"),
        "history of a day": HistoryPage(progress(levels, 1), "blips"),
        **{f"history {page}, a month": HistoryPage(progress(levels, 30), page) for page in PAGES},
        **{f"history {page}, in figures": in_figures(decade, page) for page in PAGES},
        "history days practised, a year": HistoryPage(resting(levels, 300), "days practised"),
        "history days practised, four years": HistoryPage(resting(levels, 1300), "days practised"),
        "history of many stages": HistoryPage(replace(decade, stages=many), "levels"),
        **{
            f"history {page}, new scale": HistoryPage(on_new_scale(levels), page)
            for page in (
                "blips",
                "steadiness",
                "dip",
                "learning",
                "drill and road",
            )
        },
        "what changed": WhatChanged(),
        "what changed, earlier": WhatChanged(change_lines(decade), "1 Mar"),
        "mark change": MarkChange(Changed.POSITION),
        "mark change with note": MarkChange(Changed.OTHER, "W" * NOTE_MOST),
        "take back": TakeBack(NOTED, "1 Mar"),
    }
