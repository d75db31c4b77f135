"""Home and More: their choices, notes, streaks and the wait for the first steadiness."""

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from engine.five.streak_rows import PASSED_STAYS, lost_words, rest_words
from engine.game.entry import LOOK_AGAIN
from engine.game.home import Home
from engine.kit.base import Menu
from engine.practice.remeasuring import Remeasuring
from engine.practice.results import LostStreak, Streaks
from engine.stage.actions import Action
from tests.engine.five.pictures import ANEW, FIRST_DAY, FIVE, LATER, LONG_LOST, home, more
from tests.engine.kit.recording_canvas import recorded, said
from tests.engine.ladder.pictures import label_of
from tests.engine.ladder.stages import made_levels

LEVELS = made_levels()
STREAK_LABELS = ("Days in a row", "Clean in a row", "Clean today")


def do(screen: Menu[Any], *actions: Action) -> object:
    """Outcome of a screen after some actions."""
    for action in actions:
        screen.on_action(action)
    return screen.outcome


def home_with(streaks: Streaks) -> Home:
    """Home after three levels and twenty days."""
    return home(LEVELS, 3, streaks, 20)


def test_five_minutes_come_first_with_their_forecast() -> None:
    screen = home(LEVELS, 1, FIRST_DAY, 0, placing=True)

    assert screen.details()["choices"] == [
        "Five minutes",
        "Warm-up",
        "Practise: Stillness 2",
        "Find my place",
        "Choose a level",
        "History",
        "More",
        "Leave",
    ]
    assert screen.details()["five"] == FIVE
    assert {FIVE, "two to three minutes, before driving"} <= set(said(screen))


@pytest.mark.parametrize(
    ("moves", "label"),
    [
        (0, "Five minutes"),
        (1, "Warm-up"),
        (3, "Choose a level"),
        (4, "History"),
        (5, "More"),
        (6, "Leave"),
    ],
)
def test_each_choice_leads_where_it_says(moves: int, label: str) -> None:
    screen = home(LEVELS, 1, LATER, 3)

    assert label_of(do(screen, *[Action.NEXT] * moves, Action.GO)) == label


def test_a_try_out_offers_no_five_minutes_no_warm_up_and_no_steadiness() -> None:
    screen = home(LEVELS, 1, FIRST_DAY, 0, five="")

    assert screen.details()["choices"] == [
        "Practise: Stillness 2",
        "Choose a level",
        "More",
        "Leave",
    ]
    assert not any("Steadiness" in line for line in said(screen))


def test_before_the_first_blips_a_line_says_when_steadiness_is_shown() -> None:
    first, later = home(LEVELS, 0, FIRST_DAY, 0), home(LEVELS, 3, LATER, 20)

    wait = "Steadiness: 0 of 36 blips so far"
    assert wait in said(first)
    assert wait not in said(later)


def test_a_first_start_shows_no_streaks() -> None:
    assert set(STREAK_LABELS).isdisjoint(said(home(LEVELS, 0, FIRST_DAY, 0)))


def test_choices_side_by_side_can_each_be_clicked() -> None:
    labels = ("Choose a level", "More", "Leave")
    screen = home(LEVELS, 1, LATER, 3)
    inks = {text.text: text.ink for text in recorded(screen).texts}

    outcomes = []
    for label in labels:
        screen.on_pointer(inks[label].center, pressed=True)
        outcomes.append(label_of(screen.outcome))

    assert outcomes == list(labels)
    assert len({inks[label].centery // 10 for label in labels}) == 1


def test_streaks_are_shown_with_their_bests() -> None:
    texts = said(home_with(LATER))

    assert [texts[texts.index(name) + 1] for name in STREAK_LABELS] == ["5", "3", "7 of 12"]
    assert {"best 12", "best 9"} <= set(texts)


def test_a_streak_that_is_the_longest_says_so_in_place_of_its_best() -> None:
    texts = said(home_with(replace(LATER, best_days_streak=5, best_clean_streak=3)))

    assert texts.count("your best") == 2
    assert not [text for text in texts if text.startswith("best ")]


@pytest.mark.parametrize(
    ("today", "rest_left", "words"),
    [
        (12, True, "a rest day is left"),
        (0, True, "a rest day is left"),
        (0, False, "practise today to go on"),
        (12, False, ""),
    ],
)
def test_the_rest_day_is_shown_before_it_is_spent(today: int, rest_left: bool, words: str) -> None:
    streaks = replace(LATER, today=today, clean_today=0, rest_left=rest_left)

    assert rest_words(streaks) == words
    assert not words or words in said(home_with(streaks))


def test_a_day_with_only_a_trial_needs_no_rest_day() -> None:
    streaks = replace(LATER, today=0, clean_today=0, rest_left=False, practised=True)

    assert rest_words(streaks) == ""


def test_without_a_streak_no_rest_day_is_mentioned() -> None:
    assert rest_words(replace(LATER, days_streak=0, today=0, rest_left=False)) == ""


@pytest.mark.parametrize(
    ("began", "ended", "words"),
    [
        (date(2024, 5, 3), date(2024, 5, 14), "12 days in a row, 3 to 14 May."),
        (date(2024, 2, 26), date(2024, 3, 8), "12 days in a row, 26 Feb to 8 Mar."),
        (date(2023, 12, 27), date(2024, 1, 7), "12 days in a row, 27 Dec to 7 Jan."),
        (date(2023, 5, 3), date(2024, 5, 14), "12 days in a row, 3 May to 14 May."),
    ],
)
def test_a_lost_streak_says_when_it_was(began: date, ended: date, words: str) -> None:
    assert lost_words(LostStreak(12, began, ended)) == words


@pytest.mark.parametrize("streaks", [ANEW, LONG_LOST])
def test_a_lost_streak_says_that_the_skill_is_still_there_and_blames_no_one(
    streaks: Streaks,
) -> None:
    texts = said(home_with(streaks))

    assert streaks.lost is not None
    assert texts.index(PASSED_STAYS) == texts.index(lost_words(streaks.lost)) + 1
    assert ("Days in a row" in texts) is (streaks.days_streak > 0)
    assert f"best {streaks.best_days_streak}" in texts
    assert not [text for text in texts if "lost" in text or "broke" in text]


@pytest.mark.parametrize(
    ("pedals", "is_said"), [("ready", False), ("unplugged", True), ("playing with the mouse", True)]
)
def test_the_state_of_the_pedals_is_shown_unless_they_are_ready(pedals: str, is_said: bool) -> None:
    screen = home(LEVELS, 3, LATER, 20, pedals=pedals)

    assert (pedals in said(screen)) is is_said


@pytest.mark.parametrize("pedals", ["ready", "unplugged"])
def test_home_says_whose_it_is_where_there_are_several_players(pedals: str) -> None:
    texts = said(home(LEVELS, 3, LATER, 20, pedals=pedals, player="Anna"))

    assert "Anna" in texts if pedals == "ready" else "Anna, unplugged" in texts


def test_a_current_trial_is_offered_with_its_progress() -> None:
    screen = home(LEVELS, 3, LATER, 20, trial="3 of 8 pairs are done")

    labels = screen.details()["choices"]
    assert isinstance(labels, list)
    assert labels[2] == "Go on with the trial"
    assert "3 of 8 pairs are done" in said(screen)
    assert label_of(do(screen, Action.NEXT, Action.NEXT, Action.GO)) == "Go on with the trial"


def test_a_trial_by_days_is_offered_as_one_with_its_progress() -> None:
    screen = home(LEVELS, 3, LATER, 20, trial="3 of 8 pairs of days are done", by_days=True)

    labels = screen.details()["choices"]
    assert isinstance(labels, list)
    assert labels[2] == "The trial by days"
    assert "3 of 8 pairs of days are done" in said(screen)


def test_more_lists_its_entries_with_their_notes() -> None:
    screen = more(pedals="unplugged", sound="loud", trial="3 of 8 pairs are done")

    assert screen.details()["choices"] == [
        "Try a foot position",
        "Set up the pedals",
        "Rigs",
        "Sound and light",
        "Watch the demo",
        "Back",
    ]
    notes = {"3 of 8 pairs are done", "unplugged", "loud", "a simulated foot plays a set"}
    assert notes <= set(said(screen))


@pytest.mark.parametrize(
    ("moves", "label"),
    list(
        enumerate(
            [
                "Try a foot position",
                "Record a drive",
                "Set up the pedals",
                "Check the pedals",
                "Rigs",
                "Sound and light",
                "Watch the demo",
                "Back",
            ]
        )
    ),
)
def test_more_leads_where_it_says(moves: int, label: str) -> None:
    screen = more(sound="medium", five=FIVE)

    assert label_of(do(screen, *[Action.NEXT] * moves, Action.GO)) == label


def test_more_ends_when_a_device_is_plugged_in_or_out() -> None:
    screen = more(pedals="ready", sound="medium", trial="")

    screen.on_devices(cut=True)

    assert screen.outcome is LOOK_AGAIN


@pytest.mark.parametrize("blips", [0, 12])
def test_before_there_is_a_steadiness_home_counts_the_blips_so_far(blips: int) -> None:
    screen = home(LEVELS, 3, LATER, 0, blips=blips)

    assert f"Steadiness: {blips} of 36 blips so far" in said(screen)


def test_home_counts_what_is_remeasured_in_the_place_of_steadiness_and_ends_after_it() -> None:
    states: list[Remeasuring | None] = [Remeasuring(1240, 9800)]
    screen = home(LEVELS, 3, LATER, 20, remeasuring=lambda: states[-1])
    before, first = screen.appearance(), " ".join(said(screen))
    states.append(Remeasuring(1260, 9800))
    then = " ".join(said(screen))
    screen.on_sample(None, 0)
    is_open = screen.outcome is None
    states.append(None)
    screen.on_sample(None, 0)

    assert "Measured again: 1,240 of 9,800 earlier repetitions." in first
    assert "Measured again: 1,260 of 9,800 earlier repetitions." in then
    assert "three blips in four" not in first
    assert before != screen.appearance()
    assert is_open
    assert screen.outcome is LOOK_AGAIN
