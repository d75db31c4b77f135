"""Replays in the reveal: what holds, keys and clicks show, and what the hint says of them."""

from itertools import count

import pytest

from drills.score import Reason, Verdict
from drills.trace import nanoseconds
from engine.drill.replay_words import FAINT, IS_BEST
from engine.drill.replays import Best
from engine.drill.reveal import Reveal
from engine.drill.reveal_facts import RevealFacts
from engine.kit.base import Place
from engine.kit.timed_screen import TimedOutcome
from engine.pedals.rig import Means
from engine.stage.actions import Action
from tests.engine.drill.replaying import sit
from tests.engine.drill.watched_replay import BEST, FIGURES, MAIN, OWN, REPLAY, Watched, a_best
from tests.engine.kit.recording_canvas import recorded
from tests.made import level


def test_holds_play_this_one_then_the_best_one_and_each_held_on_shows_all_figures() -> None:
    watched, seen = Watched(), []

    watched.sit(0.3)
    for _ in range(3):
        looks = [watched.sit(0.4, 60.0), watched.sit(REPLAY, 60.0), watched.sit(3.0, 60.0)]
        seen.append((*looks, watched.sit(0.5)))

    one = [(look, FIGURES, FIGURES, MAIN) for look in (OWN, BEST, OWN)]
    assert seen == one
    assert watched.screen.outcome is None
    watched.sit(4.0)
    assert watched.screen.outcome is TimedOutcome.ON


def test_keys_step_through_replay_best_and_figures_and_back_and_a_replay_stays_at_its_end() -> None:
    watched, seen = Watched(), []

    watched.sit(0.3)
    for _ in range(4):
        watched.screen.on_action(Action.NEXT)
        seen.append((watched.sit(0.1), watched.sit(REPLAY + 2)))

    assert seen[:3] == [(OWN, OWN), (BEST, BEST), (FIGURES, FIGURES)]
    assert seen[3][0] is MAIN


def test_clicks_on_the_hint_step_through_the_same_and_one_elsewhere_goes_on() -> None:
    watched, seen = Watched(), []
    watched.screen.on_means(Means())
    watched.sit(1.1, None)

    for _ in range(4):
        hint = watched.screen.hint
        [drawn] = [text for text in recorded(watched.screen).texts if text.text == hint]
        watched.screen.on_pointer(drawn.ink.center, pressed=True)
        seen.append(watched.sit(0.1, None))
    watched.screen.on_action(Action.NEXT)
    watched.screen.on_pointer((300, 300), pressed=True)

    assert seen == [OWN, BEST, FIGURES, MAIN]
    assert watched.screen.outcome is TimedOutcome.ON
    assert watched.speaker.heard[-1] == "curve ends"


def test_a_long_click_on_the_hint_asks_once_where_the_button_is_the_throttle_too() -> None:
    watched, seen = Watched(), []
    watched.screen.on_means(Means())
    watched.sit(1.1)

    for _ in range(4):
        hint = watched.screen.hint
        [drawn] = [text for text in recorded(watched.screen).texts if text.text == hint]
        watched.screen.on_pointer(drawn.ink.center, pressed=True)
        seen.append((watched.sit(0.8, 100.0), watched.sit(0.1)))

    assert seen == [(look, look) for look in (OWN, BEST, FIGURES, MAIN)]


@pytest.mark.parametrize("late", [0.1, 0.5, 3.0])
def test_a_blip_that_goes_on_as_the_reveal_opens_starts_nothing(late: float) -> None:
    watched = Watched()

    looks = watched.sit(late, 90.0), watched.sit(0.2), watched.sit(0.25, 90.0), watched.sit(0.1)
    watched.screen.on_action(Action.NEXT)

    assert looks == (MAIN, MAIN, MAIN, MAIN)
    assert watched.screen.looks.now is MAIN
    assert watched.speaker.heard == []


def test_the_best_one_is_looked_for_only_by_the_second_hold_and_only_once() -> None:
    asked, best = count(), a_best()

    def find() -> Best:
        next(asked)
        return best

    watched = Watched(find)
    watched.sit(0.3)
    watched.sit(1.0, 60.0)
    watched.sit(0.1)
    before = next(asked)
    for _ in range(4):
        watched.sit(1.0, 60.0)
        watched.sit(0.1)

    assert before == 0
    assert next(asked) == 2


def test_where_this_one_is_the_best_the_second_hold_says_so_above_the_figures() -> None:
    watched = Watched(lambda: Best(None, IS_BEST))
    watched.sit(0.3)
    watched.sit(1.0, 60.0)
    watched.sit(0.1)

    shown = watched.sit(0.4, 60.0)
    held = {text.text for text in recorded(watched.screen).texts}
    watched.sit(0.1)
    third = watched.sit(0.4, 60.0)

    assert (shown, third) == (FIGURES, OWN)
    assert {IS_BEST, "Score"} <= held
    assert IS_BEST not in {text.text for text in recorded(watched.screen).texts}


def test_without_anything_to_compare_with_each_hold_plays_this_one() -> None:
    watched = Watched(None)
    watched.sit(0.3)

    looks = []
    for _ in range(2):
        looks += [watched.sit(0.4, 60.0), watched.sit(0.5)]
    for _ in range(3):
        watched.screen.on_action(Action.NEXT)
        looks.append(watched.screen.looks.now)

    assert looks == [OWN, MAIN, OWN, MAIN, OWN, FIGURES, MAIN]


def test_the_hint_says_at_each_time_what_a_hold_and_a_key_do() -> None:
    watched, hints = Watched(), []

    def note() -> None:
        hints.append(watched.screen.hint)

    watched.sit(0.5, 60.0)
    note()
    watched.sit(0.3)
    note()
    watched.sit(0.5, 60.0)
    note()
    watched.sit(0.1)
    note()
    watched.sit(0.5, 60.0)
    watched.sit(REPLAY, 60.0)
    note()
    watched.sit(0.5)
    for _ in range(3):
        watched.screen.on_action(Action.NEXT)
        note()

    assert hints == [
        "let the throttle go when you are done",
        "hold the throttle, Tab: replay",
        "keep holding: all figures    let go: back",
        "hold the throttle: your best    Tab: replay",
        "let the throttle go when you are done",
        "Tab: your best    Enter: go on",
        "Tab: all figures    Enter: go on",
        "Tab: back    Enter: go on",
    ]


def test_over_the_replay_of_the_best_one_nothing_is_said_of_this_one() -> None:
    watched = Watched()
    own = {text.text for text in recorded(watched.screen).texts}

    watched.screen.on_action(Action.NEXT)
    watched.screen.on_action(Action.NEXT)
    watched.sit(0.1)

    drawn = {text.text for text in recorded(watched.screen).texts}
    assert {"Your best, 12 May", FAINT, "quarter speed"} <= drawn
    assert not drawn & {text for text in own if len(text.split()) > 2}


@pytest.mark.parametrize("reason", [Reason.GAP, Reason.ANTICIPATION])
def test_a_void_repetition_has_nothing_to_ask_for(reason: Reason) -> None:
    screen = Reveal(RevealFacts(level(), Verdict(reason), None, (), Place(1, 10)))
    now = sit(screen, nanoseconds(5.0), 0.2)

    sit(screen, now, 1.0, throttle=80.0)
    screen.on_action(Action.NEXT)

    assert screen.looks.now is MAIN
