"""The history screen: its pages in their order, what they say, and marking a change."""

from dataclasses import replace
from datetime import date

import pytest

from engine.ladder.level_files import SHIPPED, load_levels
from engine.practice.changes import Changed
from engine.progress.history_screens import HistoryPage, MarkChange, PageTurn, WhatChanged
from engine.progress.learning_curve import LearningCurve, Trend
from engine.progress.progress import Progress
from engine.progress.words import learned_briefly, learned_words
from engine.stage.actions import Action
from tests.engine.kit.recording_canvas import said
from tests.engine.progress.pictures import CHANGES, LONG, nothing, progress, week

LEVELS = load_levels([SHIPPED])
NAMES = [
    "the foot getting quiet",
    "steadiness",
    "dip",
    "learning",
    "levels",
    "days practised",
    "stopping distance",
]
YEAR = progress(LEVELS, 365)
CHANGED = progress(LEVELS, 365, CHANGES)


def says(shown: Progress, name: str) -> list[str]:
    """The sentences of a page by its name."""
    found = HistoryPage(shown, NAMES.index(name)).details()["says"]
    assert isinstance(found, list)
    return found


def test_the_first_choice_of_each_page_leads_through_all_of_them_and_round() -> None:
    screens = [HistoryPage(YEAR, number) for number in range(len(NAMES))]

    firsts = [screen.details()["choices"][0] for screen in screens]  # type: ignore[index]
    assert [screen.details()["page"] for screen in screens] == NAMES
    assert firsts == [f"Next: {name}" for name in [*NAMES[1:], NAMES[0]]]


@pytest.mark.parametrize(
    ("moves", "turn"),
    list(enumerate([PageTurn.NEXT, PageTurn.PREVIOUS, PageTurn.CHANGE, PageTurn.BACK])),
)
def test_each_choice_leads_where_it_says(moves: int, turn: PageTurn) -> None:
    screen = HistoryPage(YEAR, 0)

    for action in [*[Action.NEXT] * moves, Action.GO]:
        screen.on_action(action)

    assert screen.outcome is turn


@pytest.mark.parametrize("action", [Action.BACK, Action.MENU])
def test_going_back_leaves_the_history(action: Action) -> None:
    screen = HistoryPage(YEAR, 3)

    screen.on_action(action)

    assert screen.outcome is PageTurn.BACK


def test_the_learning_curves_are_walked_through_kind_by_kind() -> None:
    learning = NAMES.index("learning")
    screens = [HistoryPage(YEAR, learning, chosen) for chosen in (0, 5)]

    choices = [screen.details()["choices"] for screen in screens]
    assert [one[1] for one in choices] == [  # type: ignore[index]
        "Curve of: One squeeze",
        "Curve of: Hold still",
    ]
    assert "Hold still: error, points" in said(screens[0])
    assert "Clutch and blip: dip, points" in said(screens[1])


def test_a_single_kind_leaves_no_other_to_choose() -> None:
    alone = replace(YEAR, learned=YEAR.learned[:1])

    labels = HistoryPage(alone, NAMES.index("learning")).details()["choices"]

    assert labels == ["Next: levels", "Previous", "Mark a change", "Back"]


def test_the_weeks_are_told_by_their_median_dips_and_by_what_is_drawn() -> None:
    assert says(YEAR, NAMES[0]) == [
        "Median dip of the blips drawn: 27 points in the first week, 9 points in this one.",
        "Drawn are 5 of 10 and 5 of 10 blips: at most 120 a week, the first of each day too, "
        "none that ended within 1 s.",
        "The wildest go beyond the scale: to 40 points down.",
    ]


def test_one_who_was_away_sees_the_newest_week_by_its_dates() -> None:
    away = replace(YEAR, weeks=(YEAR.weeks[0], week(date(2024, 1, 3), 6.0)))

    assert says(away, NAMES[0])[0] == (
        "Median dip of the blips drawn: 27 points in the first week,"
        " 6 points in the newest, 28 Dec 2023 to 3 Jan 2024."
    )
    assert "Newest week: 28 Dec 2023 to 3 Jan 2024" in said(HistoryPage(away, 0))


def test_the_band_the_dip_and_the_days_say_what_they_show() -> None:
    assert says(YEAR, "steadiness") == [
        "±8.0 points now, likely between 7.1 and 10.4: three blips in four stay inside."
    ]
    assert says(YEAR, "dip") == [
        "Median dip of a single blip: 28 points in the week of 15 May 2023,"
        " 10 points in the week of 13 May 2024.",
        "The first 5 repetitions of a day are left out, as the foot is not warm yet (730 blips).",
    ]
    assert says(YEAR, "days practised") == [
        "365 days practised since 19 May 2023, 11785 repetitions."
    ]
    assert says(progress(LEVELS, 1), "days practised") == [
        "1 day practised since 17 May 2024, 3 repetitions."
    ]


def test_the_stopping_distance_is_called_an_estimate_first() -> None:
    first, *_ = says(YEAR, "stopping distance")

    assert first == (
        "An estimate: from 144 to 72 km/h (40 to 20 m/s) at 9.8 m/s², flat road, no lock-up."
    )
    assert first in says(nothing(LEVELS), "stopping distance")


def test_levels_are_counted_by_how_well_they_are_kept() -> None:
    assert says(YEAR, "levels")[0] == "20 of 35 passed, 10 kept, 5 kept well."
    assert says(nothing(LEVELS), "levels")[0] == "0 of 35 passed."


def test_a_kind_has_its_number_with_the_interval_finer_where_that_is_narrow() -> None:
    wide = YEAR.learned[2]
    narrow = replace(wide, growth=replace(wide.growth, now=(5.53, 5.62, 5.71)))
    early = replace(wide, growth=LearningCurve(Trend.TOO_EARLY, 3, 1), words="Too early to say.")

    some = (wide, narrow, early)

    assert [learned_words(one) for one in some] == [
        f"One blip: dip 5 points (5 to 6). {LONG}",
        f"One blip: dip 5.6 points (5.5 to 5.7). {LONG}",
        "One blip: Too early to say.",
    ]
    assert [learned_briefly(one) for one in some] == [
        "One blip: dip 5 points (5 to 6), getting better",
        "One blip: dip 5.6 points (5.5 to 5.7), getting better",
        "One blip: cannot be told yet",
    ]


@pytest.mark.parametrize("chosen", range(6))
def test_all_that_can_be_said_is_said_of_the_kind_whose_curve_is_drawn(chosen: int) -> None:
    page = HistoryPage(YEAR, NAMES.index("learning"), chosen)

    sentences = page.details()["says"]

    assert isinstance(sentences, list)
    assert [LONG in one for one in sentences] == [number == chosen for number in range(6)]


def test_before_any_practice_each_picture_says_what_it_comes_with() -> None:
    pages = [HistoryPage(nothing(LEVELS), number) for number in range(len(NAMES))]

    told = [said(page) for page in pages]

    assert ["Nothing yet" in one for one in told] == [name != "levels" for name in NAMES]
    assert "comes after some 54 steadiness blips, six or so in five minutes" in told[1]
    assert "comes with a single blip after the first 5 repetitions of a day" in told[2]
    assert "comes after the first 5 repetitions of a day" in told[3]


def test_what_was_changed_stands_over_the_pictures_with_its_day() -> None:
    over_days = said(HistoryPage(CHANGED, NAMES.index("dip")))

    assert {"foot position, 20 Mar", "pedals, 22 Mar"} <= set(over_days)
    assert "shoes, 1 Mar" not in over_days  # a year before the first day
    assert {"shoes", "foot position", "pedals"} <= set(
        said(HistoryPage(CHANGED, NAMES.index("learning")))
    )


@pytest.mark.parametrize(
    ("moves", "outcome"),
    list(enumerate([Changed.POSITION, Changed.PEDALS, Changed.SHOES, PageTurn.BACK])),
)
def test_a_change_is_one_of_three_or_none(moves: int, outcome: Changed | PageTurn) -> None:
    screen = WhatChanged()

    for action in [*[Action.NEXT] * moves, Action.GO]:
        screen.on_action(action)

    assert screen.outcome is outcome


def test_marking_a_change_says_what_to_expect_and_can_be_left() -> None:
    screen = MarkChange(Changed.SHOES)

    words = said(screen)
    screen.on_action(Action.BACK)

    assert "A change of shoes" in words
    assert "A new curve begins. Worse at first is expected: the foot learns anew." in words
    assert screen.outcome is False
