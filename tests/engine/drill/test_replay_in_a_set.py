"""Replays in a set: on offer by feet, and never where a reveal is withheld or nothing is stored."""

from dataclasses import replace

import pytest

from drills.level import Feedback
from engine.drill.replay_words import NO_OTHER
from engine.drill.reveal import Reveal
from engine.kit.looks import Look
from engine.stage.actions import Action
from engine.stage.headless import ManualClock
from engine.stage.scene import Attended
from engine.store import History
from tests.engine.drill.replaying import sit
from tests.engine.drill.sets import SHORT, SetPlayer
from tests.engine.kit.recording_canvas import recorded
from tests.fakes import Steady
from tests.loudspeaker import Loudspeaker

ONCE = replace(SHORT, repetitions=1, feedback=Feedback.EVERY)


def set_player(history: History, brake: float = 0.6) -> SetPlayer:
    """Plays sets by a foot that stays at a share of the brake's travel."""
    clock = ManualClock()
    return SetPlayer(Steady(clock, brake), clock, history)


def test_the_first_of_a_level_is_replayed_and_its_second_hold_says_that_it_is_the_only_one(
    history: History,
) -> None:
    player, looks = set_player(history), list[Look]()

    def hold_twice(screen: Attended) -> None:
        assert isinstance(screen, Reveal)
        now = sit(screen, player.clock(), 0.5)
        for _ in range(2):
            now = sit(screen, now, 0.5, throttle=60.0)
            looks.append(screen.looks.now)
            texts.append({text.text for text in recorded(screen).texts})
            now = sit(screen, now, 0.5)
        screen.on_action(Action.GO)

    texts: list[set[str]] = []
    player.walk(ONCE, ("reveal", hold_twice))

    assert looks == [Look.OWN, Look.FIGURES]
    assert NO_OTHER in texts[1] - texts[0]
    speaker = player.stage.speaker
    assert isinstance(speaker, Loudspeaker)
    assert [heard.split()[0] for heard in speaker.heard if heard.startswith("curve")] == [
        "curve",
        "curve",
    ]


def test_the_second_hold_plays_the_best_one_of_the_history(history: History) -> None:
    [before] = set_player(history).walk(ONCE, ("reveal", "on"))
    player, seen = set_player(history, 0.58), list[set[str]]()

    def ask(screen: Attended) -> None:
        assert isinstance(screen, Reveal)
        sit(screen, player.clock(), 0.2)
        for _ in range(2):
            screen.on_action(Action.NEXT)
        assert screen.looks.now is Look.BEST
        seen.append({text.text for text in recorded(screen).texts})
        screen.on_action(Action.GO)

    [now] = player.walk(ONCE, ("reveal", ask))

    assert (now.verdict.score or 0.0) < (before.verdict.score or 0.0)
    assert "Your best, today" in seen[0]


@pytest.mark.parametrize("feedback", [Feedback.NONE, Feedback.SUMMARY])
def test_nothing_is_replayed_where_reveals_are_withheld(
    history: History, feedback: Feedback
) -> None:
    player = set_player(history)

    player.walk(replace(ONCE, feedback=feedback, summary=5))

    assert "reveal" not in player.seen
    speaker = player.stage.speaker
    assert isinstance(speaker, Loudspeaker)
    assert not [heard for heard in speaker.heard if heard.startswith("curve")]


def test_a_tryout_replays_only_this_one(history: History) -> None:
    player, hints = set_player(history), list[str]()
    player.setting = replace(player.setting, history=None)

    def ask(screen: Attended) -> None:
        assert isinstance(screen, Reveal)
        sit(screen, player.clock(), 0.2)
        screen.on_action(Action.NEXT)
        hints.append(screen.hint)
        screen.on_action(Action.GO)

    player.walk(ONCE, ("reveal", ask))

    assert hints == ["click here, Tab: all figures    Enter: go on"]
