"""Progress read from a history, and the walk through the history screens."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from functools import cache
from itertools import islice, pairwise
from statistics import median

import numpy as np
import pytest

from drills.score import Reason, Verdict
from engine.ladder.level_files import SHIPPED, load_band, load_levels
from engine.practice.changes import Changed
from engine.practice.results import Purpose
from engine.progress.bins import BinLength
from engine.progress.history_screens import HistoryPage
from engine.progress.progress import Progress, progress_of
from engine.progress.weeks import MOST_DRAWN, evenly
from engine.stage.scene import Attended
from engine.store import History, Record
from engine.store.changes import all_changes, mark_change
from engine.store.repetitions import add_repetition
from tests.engine.game.rigged import READ, Rigged
from tests.engine.kit.recording_canvas import said
from tests.engine.pedals.joysticks import Pad
from tests.engine.walking import back, choose
from tests.made import record
from tests.simulated_repetitions import counted

LEVELS, BAND = load_levels([SHIPPED]), load_band()
BLIP = next(one for one in LEVELS if one.kind.name == "blip")
TODAY = date(2024, 5, 17)
NOON = datetime(2024, 5, 17, 12, tzinfo=UTC)


@cache
def played() -> tuple[Record, ...]:
    """Blips by the simulated foot, with their traces, recorded as if by feet."""
    return tuple(replace(one, feet=True) for one in islice(counted(BLIP, 0.5, 3), 4))


def keep_blips(history: History, days_ago: int, count: int) -> None:
    """Add blips with traces to a day."""
    for number in range(count):
        at = NOON - timedelta(days=days_ago) + timedelta(seconds=8 * number)
        add_repetition(history, replace(played()[number % len(played())], at=at))


def plain(history: History, days_ago: int, dip: float, **changes: object) -> None:
    """Add a blip without a trace; `changes` are fields of its record."""
    measures = {"dip": dip, "surge": 1.0, "peak": 60.0, "extra_distance": dip / 10}
    usual = {"verdict": Verdict(Reason.CLEAN, 80.0, (), measures), "trace": None}
    add_repetition(history, record(**{**usual, "at": NOON - timedelta(days=days_ago), **changes}))


def looked(history: History) -> Progress:
    """Progress as it is read today."""
    return progress_of(history, LEVELS, BAND, TODAY)


def test_a_new_history_has_nothing_to_show_but_the_levels(history: History) -> None:
    shown = looked(history)

    assert (shown.weeks, shown.steadiness, shown.daily_steadiness) == ((), None, ())
    assert (shown.dips.bins, shown.distances.bins, shown.kinds, shown.days) == ((), (), (), ())
    assert sum(len(stage.rungs) for stage in shown.stages) == len(LEVELS)


def test_each_blip_of_the_two_weeks_is_cut_out_of_its_trace_at_its_onset(history: History) -> None:
    keep_blips(history, 20, 3)
    keep_blips(history, 10, 1)
    keep_blips(history, 2, 4)

    first, this = looked(history).weeks

    assert (first.first, first.last, first.traced) == (date(2024, 4, 27), date(2024, 5, 3), 3)
    assert (this.first, this.last, this.traced) == (date(2024, 5, 11), TODAY, 4)
    assert (len(first.blips), len(this.blips)) == (3, 4)
    dips = [one.verdict.measures["dip"] for one in played()]
    assert this.dip == pytest.approx(median(one for one in dips if one is not None))
    peaks = [one.verdict.measures["peak"] or 0.0 for one in played()]
    assert this.peak == pytest.approx(median(peaks))
    like = [(dip or 0.0) * 60 / peak for dip, peak in zip(dips, peaks, strict=True)]
    assert this.scaled_dip == pytest.approx(median(like))
    for picture, dip in zip(this.blips, dips, strict=True):
        begun = picture.deviation[picture.time < 1.0]
        assert -float(begun.min()) == pytest.approx(dip, abs=0.01)  # the least of it is the dip
        assert abs(float(picture.deviation[picture.time < -0.1].mean())) < 0.5  # from its base


def test_a_week_that_is_not_over_ends_today_and_untraced_blips_begin_none(history: History) -> None:
    plain(history, 9, 12.0)
    keep_blips(history, 1, 2)

    [week] = looked(history).weeks

    assert (week.first, week.last, week.traced) == (date(2024, 5, 16), TODAY, 2)


@pytest.mark.parametrize("count", [0, 1, 120, 121, 160, 5000])
def test_the_blips_drawn_of_a_long_week_are_chosen_evenly(count: int) -> None:
    numbers = list(range(100, 100 + count))

    chosen = evenly(numbers, MOST_DRAWN)

    assert len(chosen) == min(count, MOST_DRAWN)
    assert chosen[:1] == numbers[:1]
    assert chosen[-1:] == numbers[-1:]
    gaps = {other - one for one, other in pairwise(chosen)}
    assert max(gaps, default=1) - min(gaps, default=1) <= 1


def test_dips_and_distances_leave_out_the_first_five_of_a_day(history: History) -> None:
    for days_ago, value in ((1, 30.0), (0, 10.0)):
        for number in range(8):
            plain(history, days_ago, value + number)

    shown = looked(history)

    assert [one.middle for one in shown.dips.bins] == [36.0, 16.0]
    assert [one.middle for one in shown.distances.bins] == pytest.approx([3.6, 1.6])
    assert [(one.count, one.first) for one in shown.dips.bins] == [
        (3, TODAY - timedelta(days=1)),
        (3, TODAY),
    ]
    assert (shown.dips.length, shown.dips.left_out) == (BinLength.DAY, 10)
    assert shown.days == ((TODAY - timedelta(days=1), 8), (TODAY, 8))


def test_the_steadiness_of_each_day_is_the_one_home_showed_on_it(history: History) -> None:
    rng = np.random.default_rng(7)
    asked = 20.0
    for days_ago in range(11, -1, -1):
        for _ in range(6):
            dip = float(rng.lognormal(2.2, 0.45))
            at = NOON - timedelta(days=days_ago)
            plain(history, days_ago, dip, level=BAND.id, why=Purpose.BAND, asked=asked, at=at)
            asked = min(max(asked * (0.9 if dip <= asked else 0.9**-3), 0.5), 50.0)

    shown = looked(history)

    now = shown.steadiness
    assert now is not None
    assert shown.daily_steadiness[-1].value == pytest.approx(now.value)
    by_day = {(TODAY - one.day).days: one.value for one in shown.daily_steadiness}
    assert {ago: by_day[ago] for ago, _ in now.days} == pytest.approx(dict(now.days))


def test_a_marked_change_begins_a_new_curve_and_no_bin_spans_it(history: History) -> None:
    # Five repetitions of a day are left out, and the first three days of each curve.
    for days_ago in range(13, -1, -1):
        if days_ago == 6:
            mark_change(history, NOON, Changed.SHOES)
        for _ in range(6):
            plain(history, days_ago, 20.0 - days_ago)

    [kind] = looked(history).kinds

    assert (kind.name, kind.curve_begins) == ("One blip", 42)
    assert [(count, one.what) for count, one in kind.changes] == [(42, Changed.SHOES)]
    assert kind.learning.changed
    assert [(bin_.first, bin_.last) for bin_ in kind.bins] == [
        (6 * day + 1, 6 * day + 6) for day in (3, 4, 5, 6, 10, 11, 12, 13)
    ]


FORWARD = ("history", "Next")


@pytest.fixture
def home(game: Rigged, pad: Pad) -> Rigged:
    """A game at home, with pedals that were set up."""
    game.walk(READ, *game.set_up(pad), ("home", "Leave"))
    return game


def test_home_leads_to_the_history_and_back(home: Rigged) -> None:
    home.walk(
        ("home", "History"),
        FORWARD,
        ("history", "Previous"),
        ("history", "Previous"),
        FORWARD,
        ("history", "Back"),
        ("home", "Leave"),
    )


def test_a_change_is_marked_once_it_is_confirmed(home: Rigged) -> None:
    home.walk(
        ("home", "History"),
        ("history", "Mark a change"),
        ("what changed", "Pedals"),
        ("mark change", "Mark it"),
        ("history", back),
        ("home", "Leave"),
    )

    assert [(one.what, one.after) for one in all_changes(home.history)] == [(Changed.PEDALS, 0)]


def test_going_back_before_it_is_confirmed_marks_nothing(home: Rigged) -> None:
    home.walk(
        ("home", "History"),
        ("history", "Mark a change"),
        ("what changed", "Shoes"),
        ("mark change", "Back"),
        ("what changed", back),
        ("history", back),
        ("home", "Leave"),
    )

    assert all_changes(home.history) == []


def test_the_curves_of_all_kinds_are_walked_through_on_their_page(home: Rigged) -> None:
    for kind, measure in (("hold", "total_error"), ("blip", "dip")):
        for _ in range(12):
            verdict = Verdict(Reason.CLEAN, 80.0, (), {measure: 4.0})
            plain(home.history, 0, 4.0, kind=kind, verdict=verdict)
    shown: list[str] = []

    def curve(screen: Attended) -> None:
        assert isinstance(screen, HistoryPage)
        shown.extend(text for text in said(screen) if "nothing yet" in text)
        choose(screen, "Drills")

    home.walk(
        ("home", "History"),
        FORWARD,
        FORWARD,
        FORWARD,
        FORWARD,
        ("history", curve),
        ("history", curve),
        ("history", back),
        ("home", "Leave"),
    )

    assert shown == ["Hold still: nothing yet", "One blip: nothing yet"]


def test_without_pedals_no_history_is_offered(bare: Rigged) -> None:
    labels: list[object] = []

    def leave(screen: Attended) -> None:
        labels.extend(screen.details()["choices"])  # type: ignore[arg-type]
        back(screen)

    bare.walk(READ, ("no pedals", "Try with the mouse"), ("home", leave))

    assert "History" not in labels
    assert "More" in labels
