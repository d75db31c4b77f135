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
from engine.progress.kind_words import AT_TODAYS_LEVEL, kind_words, value_words
from engine.progress.learning_curve import LearningCurve, Trend
from engine.progress.learning_curve_words import CurveWords
from engine.progress.progress import Progress
from engine.stage.actions import Action
from tests.engine.kit.recording_canvas import said
from tests.engine.progress.made_weeks import week
from tests.engine.progress.pictures import CHANGES, LONG, no_progress, progress

LEVELS = load_levels([SHIPPED])
NAMES = [
    "steadiness",
    "coach",
    "blips",
    "dip",
    "sense",
    "learning",
    "levels",
    "days practised",
    "stopping distance",
    "counting",
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


def test_the_pages_follow_each_other_and_the_first_says_whether_the_foot_gets_better() -> None:
    screens = [HistoryPage(YEAR, name) for name in PAGES]

    assert [screen.details()["page"] for screen in screens] == NAMES
    assert [screen.next_page for screen in screens] == [*NAMES[1:], NAMES[0]]
    assert [screen.previous_page for screen in screens] == [NAMES[-1], *NAMES[:-1]]
    assert {"Am I getting better?", "1 of 11"} <= set(said(screens[0]))


def test_the_choices_have_the_same_places_on_every_page() -> None:
    usual = ["Next", "Previous", "Mark a change", "Figures", "Back"]

    labels = {name: detail(HistoryPage(YEAR, name), "choices") for name in PAGES}

    assert labels.pop("learning") == [*usual[:4], "Drills", "Back"]
    assert all(choices == usual for choices in labels.values())


def test_every_page_asks_a_question_and_answers_it_in_short_sentences() -> None:
    shown = [YEAR, CHANGED, progress(LEVELS, 1), progress(LEVELS, 30), no_progress(LEVELS)]

    words = [page.words(one) for page in PAGES.values() for one in shown]

    sentences = [one for said in words for text in said.sentences for one in text.split(". ")]
    assert all(page.question.endswith("?") for page in PAGES.values())
    assert [one for one in sentences if len(one.split()) > 12] == []
    assert [said for said in words if len(set(said.sentences)) < len(said.sentences)] == []


def test_all_figures_stand_in_place_of_the_picture_and_back_again() -> None:
    screen = HistoryPage(YEAR, "dip")
    before = screen.appearance()

    for action in (*[Action.NEXT] * 3, Action.GO):
        screen.on_action(action)

    figures = PAGES["dip"].words(YEAR).figures
    assert set(figures) <= set(said(screen))
    assert detail(screen, "choices")[3] == "Picture"
    assert screen.outcome is None
    assert screen.appearance() != before
    screen.on_action(Action.GO)
    assert not set(figures) & set(said(screen))


@pytest.mark.parametrize(
    ("moves", "turn"),
    [(0, PageTurn.NEXT), (1, PageTurn.PREVIOUS), (2, PageTurn.CHANGE), (4, PageTurn.BACK)],
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
    leads = [HistoryPage(replace(YEAR, chosen=chosen), "learning") for chosen in (0, 5)]

    assert [detail(screen, "says")[0] for screen in leads] == [
        "Hold still: getting better, a third less in 50 days.",
        "Clutch and blip: getting better, a third less in 50 days.",
    ]
    assert [next_kind(replace(YEAR, chosen=n)).chosen for n in range(6)] == [1, 2, 3, 4, 5, 0]


def test_with_a_single_kind_there_is_no_choice_of_another() -> None:
    alone = replace(YEAR, kinds=YEAR.kinds[:1])

    labels = detail(HistoryPage(alone, "learning"), "choices")

    assert labels == ["Next", "Previous", "Mark a change", "Figures", "Back"]


def test_the_weeks_have_their_typical_dips_and_say_that_they_are_no_trend() -> None:
    assert says(YEAR, "blips") == [
        "Typical dip: 27.0 points in the first week, 9.0 this week.",
        "All levels together: no trend.",
        "Typical blip: 72 % throttle at first, then 54 %.",
        "At blips of 60 %: 22.5 at first, then 10.0 points.",
        "10 blips, 5 drawn: 19 to 25 May 2023.",
        "10 blips, 5 drawn: 11 to 17 May.",
        "At most 120 blips a week are drawn.",
        "The first blips of a day are among them.",
        "Blips that ended within 1 s are not drawn.",
        "The largest leave the picture: 40 points down.",
    ]
    assert says(progress(LEVELS, 1), "blips")[:3] == [
        "Typical dip of your first week: 27.0 points.",
        "The newest week will stand beside the first.",
        "Typical blip: 72 % throttle.",
    ]


def test_after_a_pause_the_newest_week_has_its_dates() -> None:
    away = replace(YEAR, weeks=(YEAR.weeks[0], week(date(2024, 1, 3), 6.0)))

    assert says(away, "blips")[0] == (
        "Typical dip: 27.0 points in the first week, 6.0 in the week to 3 Jan."
    )
    assert "Newest week: 28 Dec 2023 to 3 Jan" in said(HistoryPage(away, "blips"))


def test_the_dip_and_the_days_are_put_in_words() -> None:
    assert says(YEAR, "dip") == [
        "Typical dip: 9.8 points in the week of 13 May.",
        "27.6 points in the week of 15 May 2023. All levels together: no trend.",
        "50 blips in the week of 13 May.",
        "30 blips in the week of 15 May 2023.",
        "Typical blip: 73 % throttle at first, then 55 %.",
        "At blips of 60 %: 22.8 at first, then 10.7 points.",
        "Left out as a day's warm-up: the first 5 repetitions, 730 blips.",
    ]
    assert says(YEAR, "days practised") == [
        "365 days since 19 May 2023.",
        "11,785 repetitions. A step is a week, a layer one of its days.",
        "7.0 days a week.",
        "No week of rest.",
        "Most in a week: 287 repetitions on 7 days.",
    ]
    assert says(progress(LEVELS, 1), "days practised") == [
        "1 day since 17 May.",
        "3 repetitions. A step is a week, a layer one of its days.",
        "Most in a week: 3 repetitions on 1 day.",
    ]


def test_the_stopping_distance_is_called_an_estimate() -> None:
    lead, line, *figures = says(YEAR, "stopping distance")

    assert lead == "2.6 m more braking in the week of 13 May."
    assert line == "An estimate. 7.3 m in the week of 15 May 2023. All levels together: no trend."
    assert (
        figures[:2]
        == says(no_progress(LEVELS), "stopping distance")
        == [
            "An estimate from 144 to 72 km/h at 9.8 m/s².",
            "That is 40 to 20 m/s, flat road, no lock-up.",
        ]
    )


def test_levels_are_counted_by_how_well_they_are_retained() -> None:
    assert says(YEAR, "levels") == [
        f"10 of {len(LEVELS)} levels retained, 5 of them well.",
        "Retained: passed again, cold, on a later day.",
        "20 levels passed, the retained ones included.",
        "Well retained: still there after a week and more.",
        "Personal limits: 10 of 10 retained levels.",
        "Lowest: Closer, 0.54 of the limit, best 0.50.",
        "Highest: Light and still, 0.90 of the limit, best 0.50.",
    ]
    assert says(no_progress(LEVELS), "levels")[0] == f"0 of {len(LEVELS)} levels retained."


def test_a_kind_has_its_value_with_more_decimals_where_the_interval_is_narrow() -> None:
    wide = YEAR.kinds[2]
    narrow = replace(wide, learning=replace(wide.learning, now=(5.53, 5.62, 5.71)))
    early = replace(
        wide, learning=LearningCurve(Trend.TOO_EARLY, 3, 1), words=CurveWords("Too early to say.")
    )

    assert kind_words(wide) == (
        "One blip: getting better, a third less in 50 days. Dip 5 points now, likely 5 to 6."
        " About 4 points after 300 more repetitions. In 50 days likely a fifth to half less."
    )
    assert value_words(narrow) == "Dip 5.6 points now, likely 5.5 to 5.7."
    assert kind_words(early) == "One blip: too early to say."


@pytest.mark.parametrize("chosen", range(6))
def test_the_kind_whose_curve_is_drawn_has_all_its_sentences(chosen: int) -> None:
    lead, line, *figures = says(replace(YEAR, chosen=chosen), "learning")

    kind = YEAR.kinds[chosen]
    assert lead == f"{kind.name}: getting better, a third less in 50 days."
    assert line == f"{value_words(kind)} {LONG.beside}"
    assert figures == [*LONG.more, AT_TODAYS_LEVEL]


def test_a_report_has_the_sentences_of_every_kind() -> None:
    in_report = PAGES["learning"].printed(YEAR)

    assert in_report == [*(kind_words(kind) for kind in YEAR.kinds), AT_TODAYS_LEVEL]
    assert PAGES["learning"].printed(no_progress(LEVELS)) == []


def test_before_any_practice_each_page_says_when_its_chart_comes() -> None:
    texts = {name: said(HistoryPage(no_progress(LEVELS), name)) for name in PAGES}

    assert [name for name in PAGES if "Nothing yet" not in texts[name]] == ["steadiness", "levels"]
    assert "Not sure yet: 0 of 36 blips." in texts["steadiness"]
    assert "comes with a single blip after the first 5 repetitions of a day" in texts["dip"]
    assert "comes when a level was played on five days" in texts["learning"]


def test_a_kind_without_a_curve_yet_says_once_when_it_comes() -> None:
    early = replace(YEAR.kinds[2], bins=(), words=CurveWords("Too early to say. NO day yet."))

    screen = HistoryPage(replace(YEAR, kinds=(early,)), "learning")

    assert "One blip: nothing yet" in said(screen)
    assert "comes when a level was played on five days" in said(screen)
    assert "too early" not in " ".join(said(screen))


def test_marked_changes_stand_over_the_charts_with_their_days() -> None:
    over_days = said(HistoryPage(CHANGED, "dip"))

    assert {"foot position, 20 Mar", "pedals, 22 Mar"} <= set(over_days)
    assert "shoes, 1 Mar" not in over_days  # a year before the first day
    noted = 'shoes: thin <soles> & "grip"'
    assert {noted, "foot position", "pedals"} <= set(said(HistoryPage(CHANGED, "learning")))
