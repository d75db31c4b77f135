"""Replays as they come up in play: of several kinds, as they begin, midway and at their end."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from datetime import date
from typing import Any

from drills.level import Level
from drills.trace import nanoseconds
from engine.drill.replay_words import IS_BEST, NO_OTHER, NOT_COMPARABLE, best_words
from engine.drill.replays import Best
from engine.drill.reveal import Reveal
from engine.kit.base import Place, Screen
from engine.kit.repetition_marks import Mark
from engine.pedals.rig import Means
from engine.stage.actions import Action
from tests.engine.drill.replaying import course_of, replayed, sit
from tests.engine.repetitions_shown import Shown

Repetitions = Callable[[str, float, int, int], Sequence[Shown]]
OF_KINDS = (
    "blip-1-first",
    "run-5-four",
    "ease-5-two",
    "still-2a-squeeze",
    "still-2-firm",
    "clutch-1-order",
)
TO_COMPARE = best_words(date(2023, 12, 30), date(2024, 5, 12), is_best=False)
MARKS = (Mark.CLEAN, Mark.MISSED, Mark.VOID, Mark.MISSED)


def replay_screens(levels: Mapping[str, Level], shipped: Repetitions) -> Mapping[str, Screen[Any]]:
    """Replays by names: of this one, of the best one, and the figures without a best one."""
    blip = levels["blip-1-first"]
    [missed], [clean] = shipped(blip.id, 0.0, 3, 1), shipped(blip.id, 0.95, 3, 1)
    best = Best(course_of(clean), "Your best, 12 May 2023")
    return {
        **{
            f"replay {name}": _held(levels[name], shipped(name, 0.3, 7, 1)[0], 0.5)
            for name in OF_KINDS
        },
        "replay begins": _held(blip, missed, 0.01),
        "replay of clean": _held(blip, clean, 0.32),
        "replay ended": _stepped(replayed(blip, missed, lambda: best), 1, 30.0),
        "replay of best": _stepped(replayed(blip, missed, lambda: best), 2, 2.3),
        "replay best already": _stepped(
            replayed(blip, clean, lambda: Best(None, IS_BEST), place=Place(4, 10, marks=MARKS)),
            2,
            1.0,
        ),
        "replay of the only one": _stepped(
            replayed(blip, missed, lambda: Best(None, NO_OTHER)), 2, 1.0
        ),
        "replay best not to compare": _stepped(
            replayed(blip, missed, lambda: Best(None, NOT_COMPARABLE)), 2, 1.0
        ),
        "replay best to compare with": _stepped(
            replayed(blip, missed, lambda: replace(best, words=TO_COMPARE)), 2, 2.3
        ),
        "replay on offer": _stepped(replayed(blip, missed, lambda: best), 4, 0.2),
    }


def _held(level: Level, shown: Shown, share: float) -> Reveal:
    """Reveal whose replay plays by a hold, at a share of its duration."""
    screen = replayed(level, shown, lambda: Best(None, ""), place=Place(4, 10, marks=MARKS))
    screen.on_means(Means(feet=True, buttons=True))
    now = sit(screen, nanoseconds(5.0), 0.2)
    sit(screen, now, 0.32 + share * course_of(shown).lasts, throttle=60.0)
    return screen


def _stepped(screen: Reveal, steps: int, seconds: float) -> Reveal:
    """A reveal some time after a number of presses of a key."""
    screen.on_means(Means(feet=True, buttons=True))
    now = sit(screen, nanoseconds(5.0), 0.2)
    for _ in range(steps):
        screen.on_action(Action.NEXT)
    sit(screen, now, seconds)
    return screen
