"""Where the brake's scale changed, everything told over days begins anew."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from itertools import islice

import numpy as np
import pytest

from drills.score import Reason, Verdict
from engine.five.flow import _daily_values
from engine.five.player_history import steadiness_blips, steadiness_view, tolerance_now
from engine.ladder.level_files import SHIPPED, load_band, load_levels
from engine.practice.changes import Changed
from engine.practice.course import Course
from engine.practice.results import Purpose
from engine.progress.history_pages import PAGES
from engine.progress.history_screens import HistoryPage
from engine.progress.learning_curve import Trend, learning_curve
from engine.progress.progress import Progress, progress_of
from engine.progress.words import dip_words, weeks_words
from engine.store import History
from engine.store.changes import mark_change, scale_start
from engine.store.courses import courses_of
from engine.store.repetitions import add_repetition
from tests.engine.kit.recording_canvas import said
from tests.made import record
from tests.simulated_repetitions import counted

LEVELS, BAND = load_levels([SHIPPED]), load_band()
BLIP = next(one for one in LEVELS if one.kind.name == "blip")
TODAY = date(2024, 5, 17)
NOON = datetime(2024, 5, 17, 12, tzinfo=UTC)
FIRST = 738_000
"""Ordinal of the first day of a made-up course."""


def add(history: History, days_ago: int, dip: float, **changes: object) -> None:
    """Add a blip with a dip, some days ago."""
    measures = {"dip": dip, "surge": 1.0, "peak": 60.0, "extra_distance": dip / 10}
    usual = {"verdict": Verdict(Reason.CLEAN, 80.0, (), measures), "trace": None}
    add_repetition(history, record(**{**usual, "at": NOON - timedelta(days=days_ago), **changes}))


def steadily(history: History, days_ago: int, count: int, about: float) -> None:
    """Add steadiness blips about a deviation, asked by a staircase, six a day."""
    rng, asked = np.random.default_rng(7), about
    for number in range(count):
        dip = float(rng.lognormal(np.log(about), 0.4))
        at = NOON - timedelta(days=days_ago - number // 6)
        add(history, 0, dip, level=BAND.id, why=Purpose.BAND, asked=asked, at=at)
        asked = min(max(asked * (0.9 if dip <= asked else 0.9**-3), 0.5), 50.0)


def harder(history: History, days_ago: int, what: Changed = Changed.SCALE) -> None:
    """Store that the pedals were set up anew."""
    mark_change(history, NOON - timedelta(days=days_ago), what)


def looked(history: History) -> Progress:
    """Progress as it is read today."""
    return progress_of(history, LEVELS, BAND, TODAY)


@pytest.mark.parametrize(("what", "begins"), [(Changed.SCALE, 8), (Changed.SET_UP, 0)])
def test_a_learning_curve_begins_anew_on_another_scale_alone_and_the_chart_marks_both(
    history: History, what: Changed, begins: int
) -> None:
    for days_ago, dip in ((3, 20.0), (1, 16.0)):
        for _ in range(8):
            add(history, days_ago, dip)
        if days_ago == 3:
            harder(history, 2, what)

    shown = looked(history)

    [kind] = shown.kinds
    assert (kind.curve_begins, kind.learning.changed) == (begins, begins > 0)
    assert [(count, change.what) for count, change in kind.changes] == [(8, what)]
    assert shown.dips.begins == ((1,) if begins else ())
    assert [one.middle for one in shown.dips.bins] == [20.0, 16.0]


def test_dips_on_two_scales_are_not_set_against_each_other(history: History) -> None:
    for days_ago, dip in ((4, 24.0), (3, 20.0)):
        for _ in range(8):
            add(history, days_ago, dip)
    before = dip_words(looked(history))
    harder(history, 2)
    for _ in range(8):
        add(history, 1, 16.0)

    after = dip_words(looked(history))

    assert (before.lead, before.line) == (
        "Typical dip: 20.0 points on 14 May.",
        "24.0 points on 13 May. All levels together: no trend.",
    )
    assert (after.lead, after.figures[0]) == (
        "Typical dip: 16.0 points on 16 May.",
        "New brake scale since 15 May.",
    )
    assert "2" not in after.line


def test_the_weeks_are_of_the_newest_scale_and_say_so(history: History) -> None:
    [blip] = [replace(one, feet=True) for one in islice(counted(BLIP, 0.5, 3), 1)]
    for days_ago in (40, 14, 1):
        if days_ago == 14:
            harder(history, 20)
        for _ in range(2):
            add_repetition(history, replace(blip, at=NOON - timedelta(days=days_ago)))

    shown = looked(history)

    assert [week.first for week in shown.weeks] == [
        TODAY - timedelta(days=14),
        TODAY - timedelta(days=6),
    ]
    assert weeks_words(shown).figures[0] == "New brake scale since 27 Apr."


def test_a_day_with_a_change_has_a_bin_on_each_scale(history: History) -> None:
    for _ in range(8):
        add(history, 0, 20.0)
    harder(history, 0)
    for _ in range(4):
        add(history, 0, 16.0)

    dips = looked(history).dips

    assert [(one.first, one.middle, one.count) for one in dips.bins] == [
        (TODAY, 20.0, 3),
        (TODAY, 16.0, 4),
    ]
    assert dips.begins == (1,)


def test_steadiness_begins_anew_and_its_days_stay_as_they_were(history: History) -> None:
    steadily(history, 30, 90, 12.0)
    before = looked(history)
    harder(history, 10)
    few = steadiness_view(history, BAND, TODAY)
    steadily(history, 9, 60, 6.0)

    after = looked(history)

    assert few is None
    assert before.steadiness is not None
    assert after.steadiness is not None
    assert after.steadiness.value < 0.75 * before.steadiness.value
    old = [day for day in after.daily_steadiness if day.day <= TODAY - timedelta(days=10)]
    assert old == list(before.daily_steadiness)
    assert after.daily_steadiness[-1].value == pytest.approx(after.steadiness.value)
    assert len(steadiness_blips(history, BAND, Purpose.BAND)) == 60


def test_the_chart_of_steadiness_stays_while_there_is_none_on_the_new_scale(
    history: History,
) -> None:
    steadily(history, 30, 90, 12.0)
    harder(history, 10)
    steadily(history, 9, 12, 6.0)

    shown, page = looked(history), PAGES["steadiness"]

    assert shown.steadiness is None
    assert page.missing(shown) == ""
    assert page.words(shown).sentences == [
        "Not sure yet: 12 of 36 blips.",
        "New brake scale since 7 May.",
    ]
    assert "brake scale, 7 May" in said(HistoryPage(shown, "steadiness"))


def test_the_staircase_goes_on_from_where_it_stood(history: History) -> None:
    add(history, 1, 20.0, level=BAND.id, why=Purpose.BAND, asked=8.0)
    harder(history, 0)

    first = tolerance_now(history, BAND)
    add(history, 0, 1.0, level=BAND.id, why=Purpose.BAND, asked=first)

    assert first == pytest.approx(8.0 / 0.8**3, abs=0.1)
    assert tolerance_now(history, BAND) == pytest.approx(first * 0.8, abs=0.1)


def test_the_usual_warm_up_begins_anew(history: History) -> None:
    for days_ago in range(12, 0, -1):
        if days_ago == 4:
            harder(history, 4)
        for _ in range(8):
            add(history, days_ago, 8.0, level=BAND.id, why=Purpose.WARM, asked=8.0)

    days = [day for day, _ in _daily_values(history, BAND)]

    assert days == [TODAY - timedelta(days=days_ago) for days_ago in (4, 3, 2, 1)]


def test_courses_can_be_read_from_the_newest_scale_on(history: History) -> None:
    for number in range(6):
        if number in (2, 4):
            harder(history, 0)
        add(history, 0, 10.0 + number)
    harder(history, 0, Changed.SHOES)

    found = courses_of(history, {"blip": "dip"}, scale_start(history))["blip"]

    assert scale_start(history) == 4
    assert found.value.tolist() == [14.0, 15.0]
    assert found.place.tolist() == [5, 6]


def flat(seed: int, factor: float) -> Course:
    """Dips of a foot that stays the same for 40 days; from day 20 on all are divided by a factor.

    That is what a brake does whose full is that much harder.
    """
    rng, per, days = np.random.default_rng(seed), 8, 40
    day = np.repeat(np.arange(days, dtype=np.int64), per)
    of_day = np.repeat(rng.lognormal(0.0, 0.1, days), per)
    dips = rng.lognormal(2.2, 0.4, days * per) * of_day
    number = np.arange(1, days * per + 1, dtype=np.int64)
    place = np.tile(np.arange(6, 6 + per, dtype=np.int64), days)
    value = np.where(day < 20, dips, dips / factor)
    return Course(number, day + FIRST, place, value, np.zeros_like(number))


@pytest.mark.parametrize("factor", [1.25, 1.5])
def test_a_harder_full_looks_like_learning_only_where_the_curve_does_not_begin_anew(
    factor: float,
) -> None:
    courses = [flat(seed, factor) for seed in range(12)]

    through = [learning_curve(course, 0.1).trend for course in courses]
    anew = [learning_curve(course, 0.1, 160, changed=True).trend for course in courses]

    assert through.count(Trend.LEARNING) >= 6
    assert anew.count(Trend.LEARNING) <= 2
