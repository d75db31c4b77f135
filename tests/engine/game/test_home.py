"""Home and More: their choices, notes, streaks and the wait for the first steadiness."""

from typing import Any

import pytest

from engine.game.entry import LOOK_AGAIN
from engine.kit.base import Menu
from engine.practice.remeasuring import Remeasuring
from engine.stage.actions import Action
from tests.engine.five.pictures import (
    BEST,
    FIRST_DAY,
    FIVE,
    LATER,
    LONG_LOST,
    home,
    more,
)
from tests.engine.kit.recording_canvas import recorded, said
from tests.engine.ladder.pictures import label_of
from tests.engine.ladder.stages import made_levels

LEVELS = made_levels()
BAR = ["Five minutes", "Warm-up", "Practise", "History", "More", "Leave"]


def do(screen: Menu[Any], *actions: Action) -> object:
    """Outcome of a screen after some actions."""
    for action in actions:
        screen.on_action(action)
    return screen.outcome


def test_five_minutes_come_first_with_their_forecast() -> None:
    screen = home(LEVELS, 1, FIRST_DAY, 0, placing=True)

    assert screen.details()["choices"] == BAR
    assert screen.details()["five"] == FIVE
    assert FIVE.replace("next", "Next") in said(screen)


def test_the_choices_stand_in_the_same_places_on_every_day() -> None:
    days = [
        home(LEVELS, 0, FIRST_DAY, 0, placing=True),
        home(LEVELS, 11, LATER, 30),
        home(LEVELS, 11, BEST, 30, player="Anna", pedals="unplugged"),
        home(LEVELS, 11, LATER, 30, trial="3 of 8 pairs of days are done", by_days=True),
        home(LEVELS, 3, LONG_LOST, 20, trial="3 of 8 pairs are done"),
    ]

    places = [
        [(text.text, text.ink.topleft) for text in recorded(day).texts if text.text in BAR]
        for day in days
    ]

    assert [label for label, _ in places[0]] == BAR
    assert all(day == places[0] for day in places)


@pytest.mark.parametrize(("moves", "label"), list(enumerate(BAR)))
def test_each_choice_leads_where_it_says(moves: int, label: str) -> None:
    screen = home(LEVELS, 1, LATER, 3)

    assert label_of(do(screen, *[Action.NEXT] * moves, Action.GO)) == label


def test_a_try_out_offers_no_five_minutes_no_warm_up_and_no_steadiness() -> None:
    screen = home(LEVELS, 1, FIRST_DAY, 0, five="")

    assert screen.details()["choices"] == ["Practise", "More", "Leave"]
    assert "Stillness 2" in said(screen)
    assert not any("Steadiness" in line for line in said(screen))


def test_before_the_first_blips_a_line_says_when_steadiness_is_shown() -> None:
    first, later = home(LEVELS, 0, FIRST_DAY, 0), home(LEVELS, 3, LATER, 20)

    wait = "Steadiness: after 36 blips, 0 so far"
    assert wait in said(first)
    assert wait not in said(later)


def test_the_steadiness_has_its_first_day_in_sight_and_today() -> None:
    texts = said(home(LEVELS, 3, LATER, 20))

    assert {"±5.1", "points", "±8.8 on 28 Apr", "today"} <= set(texts)
    assert "Steadiness: three blips in four stay inside." in texts


def test_a_new_player_is_told_where_to_find_their_place() -> None:
    offer = "Can you blip already? Practise offers Find my place."

    assert offer in said(home(LEVELS, 0, FIRST_DAY, 0, placing=True))
    assert offer not in said(home(LEVELS, 3, LATER, 20))


def test_choices_side_by_side_can_each_be_clicked() -> None:
    labels = ("Practise", "More", "Leave")
    screen = home(LEVELS, 1, LATER, 3)
    inks = {text.text: text.ink for text in recorded(screen).texts}

    outcomes = []
    for label in labels:
        screen.on_pointer(inks[label].center, pressed=True)
        outcomes.append(label_of(screen.outcome))

    assert outcomes == list(labels)
    assert len({inks[label].centery // 10 for label in labels}) == 1


@pytest.mark.parametrize(("pedals", "is_said"), [("ready", False), ("unplugged", True)])
def test_the_state_of_the_pedals_is_shown_unless_they_are_ready(pedals: str, is_said: bool) -> None:
    screen = home(LEVELS, 3, LATER, 20, pedals=pedals)

    assert (pedals in said(screen)) is is_said


@pytest.mark.parametrize("pedals", ["ready", "unplugged"])
def test_home_says_whose_it_is_where_there_are_several_players(pedals: str) -> None:
    texts = said(home(LEVELS, 3, LATER, 20, pedals=pedals, player="Anna"))

    assert "Anna" in texts if pedals == "ready" else "Anna, unplugged" in texts


def test_a_trial_by_days_is_named_beside_five_minutes_which_plays_it() -> None:
    trial = "3 of 8 pairs of days are done"
    screen = home(LEVELS, 3, LATER, 20, trial=trial, by_days=True)

    assert "trial by days" in said(screen)
    assert "trial by days" not in said(home(LEVELS, 3, LATER, 20, trial="3 of 8 pairs are done"))


def test_more_lists_its_entries_with_their_notes() -> None:
    screen = more(pedals="unplugged", sound="loud", trial="3 of 8 pairs are done")

    assert screen.details()["choices"] == [
        "Try a foot position",
        "Set up the pedals",
        "Rigs",
        "Sound, light and motion",
        "How you blip",
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
                "Sound, light and motion",
                "How you blip",
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

    assert f"Steadiness: after 36 blips, {blips} so far" in said(screen)


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


@pytest.mark.parametrize(
    ("five", "line"),
    [
        (
            "next: 2 of 28 check-ups, steadiness, then Closer to the brake",
            "Next: 2 of 28 check-ups, steadiness, then Closer to the brake",
        ),
        (
            "next: 2 of 4 check-ups, steadiness, for the early roll, then Feel it go",
            "Next: 2 of 4 check-ups, then Feel it go",
        ),
        (
            "next: 2 of 4 check-ups, steadiness, then A level whose title is as long as a line is",
            "Next: 2 of 4 check-ups",
        ),
    ],
)
def test_a_plan_too_long_for_its_line_keeps_what_it_comes_to(five: str, line: str) -> None:
    assert [text for text in said(home(LEVELS, 3, LATER, 20, five=five)) if "2 of" in text] == [
        line
    ]
