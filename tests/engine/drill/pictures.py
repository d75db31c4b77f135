"""Screens of guesses, summaries and the placing set, for tests that draw them."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from drills.level import Level
from engine.drill.guess_screen import Guess
from engine.drill.guesses import STEPS
from engine.drill.summary import Summary
from engine.drill.tally import recent_repetitions
from engine.kit.base import Place, Screen
from engine.ladder.ladder import ladder_stages
from engine.ladder.placing_screens import BeforePlacing, PlacingEnd
from engine.stage.actions import Action
from engine.store import Record

STAGES = ("stillness", "first blip", "quiet blip", "runs", "easing off")


def guess(asks: str, taps: int) -> Guess:
    """A guess screen after some taps of the throttle."""
    screen = Guess(asks, Place(3, 10))
    for _ in range(taps):
        screen.on_action(Action.NEXT)
    return screen


def placed(levels: Sequence[Level], stages: int) -> PlacingEnd:
    """The end of a placing set that skipped some stages."""
    taken = STAGES[:stages]
    past = frozenset(level.id for level in levels if level.stage in taken)
    following = next(level for level in levels if level.id not in past)
    return PlacingEnd(ladder_stages(levels, frozenset(), past), following, taken, 2 * stages + 2)


def summary(level: Level, records: Sequence[Record], pictures: Sequence[Any]) -> Summary:
    """A summary of the records that count."""
    counted = [record for record in records if not record.verdict.void]
    return Summary(level, recent_repetitions(counted), pictures, Place(len(counted), 10))


def looking_back_screens(levels: Sequence[Level]) -> Mapping[str, Screen[Any]]:
    """Screens of guesses and of the placing set by name."""
    asked = {level.kind.guess_question for level in levels if level.guess}
    return {
        **{f"guess {asks}": guess(asks, len(asks) % len(STEPS)) for asks in sorted(asked)},
        "guess most": guess("How far did the brake fall?", len(STEPS) - 1),
        "before placing": BeforePlacing(12),
        **{f"placed past {stages}": placed(levels, stages) for stages in range(6)},
    }


def longest_named(levels: Sequence[Level]) -> Place:
    """The place of a mixed repetition whose level has the longest title."""
    return replace(Place(10, 10), named=max((level.kind.title for level in levels), key=len))
