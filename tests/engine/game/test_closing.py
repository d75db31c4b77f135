"""Closing the window counts a repetition in which something was asked, whatever it is part of."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from drills.phases import Event
from drills.score import Reason
from engine.drill.set import run_set
from engine.drill.watched_repetition import WatchedRepetition
from engine.five.flow import five_minutes, warm_up
from engine.ladder.level_files import load_band
from engine.ladder.placing_flow import find_place
from engine.practice.passes import needed
from engine.stage.actions import Action
from engine.stage.scene import Flow
from engine.store import History
from engine.store.traces import trace_of
from engine.trial.flow import trials
from engine.trial.saved import keep_new_trial
from tests.engine.five.learning_foot import BY_ID, DATE, LEVELS, Learning, passes
from tests.engine.trial.two_positions import ARMS, LEVEL
from tests.fakes import MILLISECOND

BAND = load_band()
MIX = BY_ID["mix-1-any"]

Begin = Callable[[Learning, History], Flow[object]]


def a_mixed_set(learning: Learning, history: History) -> Flow[object]:
    """A set of a mixed level, whose levels are passed."""
    passes(history, *needed(MIX, LEVELS))
    return run_set(MIX, learning.setting, 8)


def a_trial(learning: Learning, history: History) -> Flow[object]:
    """A trial that goes on at once."""
    keep_new_trial(history, DATE, LEVEL.id, ARMS, 6, seed=3)
    return trials(learning.setting, BAND, at_once=True)


PARTS: dict[str, Begin] = {
    "set": lambda learning, _: run_set(BY_ID["blip-1-first"], learning.setting, 10),
    "hold": lambda learning, _: run_set(BY_ID["still-1-light"], learning.setting, 10),
    "run": lambda learning, _: run_set(BY_ID["run-1-two"], learning.setting, 10),
    "mixed": a_mixed_set,
    "steadiness": lambda learning, _: run_set(BAND, learning.setting, 10),
    "five": lambda learning, history: five_minutes(learning.setting, history, BAND),
    "warm-up": lambda learning, history: warm_up(learning.setting, history, BAND),
    "placing": lambda learning, history: find_place(learning.setting, history, LEVELS),
    "trial": a_trial,
}
"""Flows with repetitions of every kind of practice."""
EVERY_PART = pytest.mark.parametrize("begin", PARTS.values(), ids=PARTS)


def close_once(flow: Flow[object], learning: Learning, is_time: Callable[[], bool]) -> None:
    """Close the window in the first repetition, as the loop does, once it is time."""
    scene = next(flow)
    while scene.screen.name != "repetition":
        scene.screen.on_action(Action.GO)
        scene = next(flow)
    screen = scene.screen
    screen.on_means(scene.rig.means)
    screen.on_focus(True, learning.clock())
    while not is_time():
        learning.clock.advance(MILLISECOND)
        screen.on_sample(scene.rig.sample(), learning.clock())
    screen.on_closing()
    if screen.outcome is not None:
        next(flow, None)
    flow.close()


def events(learning: Learning) -> list[Event]:
    """Events of the repetition so far."""
    return [transition.event for transition in learning.audience.transitions]


def is_asked(learning: Learning) -> bool:
    """Whether the cue has come or, in a repetition without one, the wait."""
    tasks = learning.audience.tasks
    asked = Event.CUE if tasks and tasks[-1].cues else Event.STEADY
    return asked in events(learning)


def stored(history: History) -> list[tuple[str, int]]:
    """Reason of each stored repetition, and whether it is void."""
    with history.reading() as db:
        return db.execute("SELECT reason, void FROM repetition").fetchall()


@EVERY_PART
def test_after_the_cue_it_counts_as_not_clean_and_is_stored_with_its_trace(
    history: History, begin: Begin
) -> None:
    learning = Learning(history, 0.9)

    close_once(begin(learning, history), learning, lambda: is_asked(learning))

    assert stored(history) == [(Reason.WALKED_OUT.value, 0)]
    assert trace_of(history, 1) is not None


@EVERY_PART
def test_before_anything_was_asked_nothing_is_stored(history: History, begin: Begin) -> None:
    learning = Learning(history, 0.9)

    close_once(begin(learning, history), learning, lambda: Event.READY in events(learning))

    assert stored(history) == []


def test_in_a_demo_nothing_is_stored_after_the_cue_either(history: History) -> None:
    learning = Learning(history, 0.9)
    setting = replace(learning.setting, screen=WatchedRepetition)

    flow = run_set(BY_ID["blip-1-first"], setting, 10)
    close_once(flow, learning, lambda: is_asked(learning))

    assert stored(history) == []
