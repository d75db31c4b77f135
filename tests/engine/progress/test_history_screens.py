"""The history screens: the pages in their order, and their sentences."""

from dataclasses import replace
from datetime import date

import pytest

from engine.ladder.level_files import SHIPPED, load_levels
from engine.progress.history_pages import PAGES
from engine.progress.history_screens import (
    HistoryPage,
    PageTurn,
    next_kind,
)
from engine.progress.learning_curve import LearningCurve, Trend
from engine.progress.progress import Progress
from engine.progress.words import AT_TODAYS_LEVEL, kind_briefly, kind_words, kinds_words
from engine.stage.actions import Action
from tests.engine.kit.recording_canvas import said
from tests.engine.progress.pictures import CHANGES, LONG, no_progress, progress, week

LEVELS = load_levels([SHIPPED])
NAMES = [
    "the foot getting quiet",
    "steadiness",
    "dip",
    "learning",
    "levels",
    "days practised",
    "stopping distance",
    "drill and road",
]
YEAR = progress(LEVELS, 365)
CHANGED = progress(LEVELS, 365, CHANGES)


def detail(screen: HistoryPage, name: str) -> list[str]:
    """A list of words that a screen gives as a detail."""
    words = screen.details()[name]
    assert isinstance(words, list)
    return words


def says(progress: Progress, page: str) -> list[str]:
    """The sentences of a page by its name."""
    return detail(HistoryPage(progress, page), "says")


def test_the_first_choice_of_each_page_leads_to_the_next_page_and_round() -> None:
    screens = [HistoryPage(YEAR, name) for name in PAGES]

    firsts = [detail(screen, "choices")[0] for screen in screens]
    assert [screen.details()["page"] for screen in screens] == NAMES
    assert firsts == [f"Next: {name}" for name in [*NAMES[1:], NAMES[0]]]
    assert [screen.next_page for screen in screens] == [*NAMES[1:], NAMES[0]]
    assert [screen.previous_page for screen in screens] == [NAMES[-1], *NAMES[:-1]]


@pytest.mark.parametrize(
    ("moves", "turn"),
    list(enumerate([PageTurn.NEXT, PageTurn.PREVIOUS, PageTurn.CHANGE, PageTurn.BACK])),
)
def test_each_choice_ends_the_page_with_its_turn(moves: int, turn: PageTurn) -> None:
    screen = HistoryPage(YEAR, "dip")

    for action in [*[Action.NEXT] * moves, Action.GO]:
        screen.on_action(action)

    assert screen.outcome is turn


@pytest.mark.parametrize("action", [Action.BACK, Action.MENU])
def test_going_back_leaves_the_history(action: Action) -> None:
    screen = HistoryPage(YEAR, "steadiness")

    screen.on_action(action)

    assert screen.outcome is PageTurn.BACK


def test_the_learning_curves_are_walked_through_kind_by_kind() -> None:
    screens = [HistoryPage(replace(YEAR, chosen=chosen), "learning") for chosen in (0, 5)]

    assert [detail(screen, "choices")[1] for screen in screens] == [
        "Curve of: One squeeze",
        "Curve of: Hold still",
    ]
    assert [next_kind(replace(YEAR, chosen=n)).chosen for n in range(6)] == [1, 2, 3, 4, 5, 0]
    assert "Hold still: error at today's level, points" in said(screens[0])
    assert "Clutch and blip: dip at today's level, points" in said(screens[1])


def test_with_a_single_kind_there_is_no_choice_of_another() -> None:
    alone = replace(YEAR, kinds=YEAR.kinds[:1])

    labels = detail(HistoryPage(alone, "learning"), "choices")

    assert labels == ["Next: levels", "Previous", "Mark a change", "Back"]


def test_the_weeks_have_their_median_dips_and_how_many_blips_are_drawn() -> None:
    assert says(YEAR, "the foot getting quiet") == [
        "Median dip of the blips drawn: 27.0 points, at blips of 72 %, in the first week;"
        " 9.0 points, at blips of 54 %, in this one. At blips of 60 %: 22.5 and 10.0 points.",
        "Levels differ by day: the learning curve compares like with like.",
        "Drawn are 5 of 10 and 5 of 10 blips: at most 120 a week, the first of each day too, "
        "none that ended within 1 s.",
        "The wildest go beyond the scale: to 40 points down.",
    ]


def test_after_a_pause_the_newest_week_has_its_dates() -> None:
    away = replace(YEAR, weeks=(YEAR.weeks[0], week(date(2024, 1, 3), 6.0)))

    assert says(away, "the foot getting quiet")[0] == (
        "Median dip of the blips drawn: 27.0 points, at blips of 72 %, in the first week;"
        " 6.0 points, at blips of 51 %, in the newest, 28 Dec 2023 to 3 Jan 2024."
        " At blips of 60 %: 22.5 and 7.1 points."
    )
    page = HistoryPage(away, "the foot getting quiet")
    assert "Newest week: 28 Dec 2023 to 3 Jan 2024" in said(page)


def test_steadiness_the_dip_and_the_days_are_put_in_words() -> None:
    assert says(YEAR, "steadiness") == [
        "±8.3 points, your last 6 days, likely between 7.1 and 10.4.",
        "±15.5 on 31 May 2023, ±8.3 now.",
        "Three blips in four stay inside, at a blip of 60 %.",
    ]
    assert says(progress(LEVELS, 30), "steadiness")[1:] == [
        "Three blips in four stay inside, at a blip of 60 %."
    ]
    assert says(YEAR, "dip") == [
        "Median dip of a single blip: 9.8 points, at blips of 55 %, in the week of 13 May 2024;"
        " 27.6 points, at blips of 73 %, in the week of 15 May 2023."
        " At blips of 60 %: 10.7 and 22.8 points.",
        "Levels differ by day: the learning curve compares like with like.",
        "The first 5 repetitions of a day are left out as its warm-up (730 blips).",
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
    assert first in says(no_progress(LEVELS), "stopping distance")


def test_levels_are_counted_by_how_well_they_are_retained() -> None:
    assert says(YEAR, "levels")[0] == "20 of 35 passed, 10 kept, 5 kept well."
    assert says(no_progress(LEVELS), "levels")[0] == "0 of 35 passed."


def test_a_kind_has_its_value_with_more_decimals_where_the_interval_is_narrow() -> None:
    wide = YEAR.kinds[2]
    narrow = replace(wide, learning=replace(wide.learning, now=(5.53, 5.62, 5.71)))
    early = replace(wide, learning=LearningCurve(Trend.TOO_EARLY, 3, 1), words="Too early to say.")

    kinds = (wide, narrow, early)

    assert [kind_words(kind) for kind in kinds] == [
        f"One blip: dip 5 points now (5 to 6). {LONG}",
        f"One blip: dip 5.6 points now (5.5 to 5.7). {LONG}",
        "One blip: Too early to say.",
    ]
    assert [kind_briefly(kind) for kind in kinds] == [
        "One blip: dip 5 points now (5 to 6), getting better",
        "One blip: dip 5.6 points now (5.5 to 5.7), getting better",
        "One blip: too early for a trend",
    ]


@pytest.mark.parametrize(
    ("is_excused", "words"),
    [(False, "One blip: worse of late"), (True, "One blip: worse, excused for now")],
)
def test_a_change_excuses_being_worse_in_few_words_too(is_excused: bool, words: str) -> None:
    worse = LearningCurve(Trend.WORSE, 300, 12)

    assert kind_briefly(replace(YEAR.kinds[2], learning=worse, is_excused=is_excused)) == words


@pytest.mark.parametrize("chosen", range(6))
def test_the_kind_whose_curve_is_drawn_has_all_its_sentences(chosen: int) -> None:
    first, others = says(replace(YEAR, chosen=chosen), "learning")

    assert first.startswith(YEAR.kinds[chosen].name)
    assert LONG in first
    names = [kind.name for number, kind in enumerate(YEAR.kinds) if number != chosen]
    assert [part.partition(":")[0] for part in others.split("; ")] == names
    assert LONG not in others


def test_all_sentences_together_say_at_which_level_the_days_are_shown() -> None:
    assert kinds_words(YEAR)[6:] == [AT_TODAYS_LEVEL]
    assert kinds_words(no_progress(LEVELS)) == []


def test_before_any_practice_each_page_says_when_its_chart_comes() -> None:
    texts = {name: said(HistoryPage(no_progress(LEVELS), name)) for name in PAGES}

    assert [name for name in PAGES if "Nothing yet" not in texts[name]] == ["levels"]
    steadiness = "comes after 36 steadiness blips, six in five minutes: 0 of 36 blips so far"
    assert steadiness in texts["steadiness"]
    assert "comes with a single blip after the first 5 repetitions of a day" in texts["dip"]
    assert "comes when a level was played on five days" in texts["learning"]


def test_marked_changes_stand_over_the_charts_with_their_days() -> None:
    over_days = said(HistoryPage(CHANGED, "dip"))

    assert {"foot position, 20 Mar", "pedals, 22 Mar"} <= set(over_days)
    assert "shoes, 1 Mar" not in over_days  # a year before the first day
    noted = 'shoes: thin <soles> & "grip"'
    assert {noted, "foot position", "pedals"} <= set(said(HistoryPage(CHANGED, "learning")))
