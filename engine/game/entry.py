"""`Entry`: one choice of home or More, and the entries that both menus use."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from engine.drill.attempt import Setting
from engine.game.facts import Facts
from engine.game.offer import Offer
from engine.kit.base import Choice
from engine.stage.scene import Flow
from engine.store import History


@dataclass(frozen=True)
class Game:
    """Everything that the flow of a menu entry may need: setting, history and offer."""

    setting: Setting
    """Rig, stage, random numbers and clock to play with; its history is None in a try-out."""
    history: History
    """Open history of the player, also in a try-out."""
    offer: Offer
    """Levels, demo and session length that the program offers."""


@dataclass(frozen=True)
class Entry:
    """One choice of home or More: its words and the flow that it starts."""

    words: Callable[[Facts], tuple[str, str] | None]
    """Function that returns the entry's label and the note beside it; None if not offered now."""
    start: Callable[[Game], Flow[bool]]
    """Flow that runs when the entry is chosen; it returns whether the player leaves the game."""


def choices_of(entries: Sequence[Entry], facts: Facts) -> list[Choice[Entry]]:
    """Menu choices for those entries that are offered now, in the same order."""
    return [
        Choice(words[0], entry, words[1])
        for entry in entries
        if (words := entry.words(facts)) is not None
    ]


def _leave(_: Game) -> Flow[bool]:
    yield from ()
    return True


def _look_again(_: Game) -> Flow[bool]:
    yield from ()
    return False


LEAVE = Entry(lambda _: ("Leave", ""), _leave)
"""Entry that leaves the game."""
LOOK_AGAIN = Entry(lambda _: ("Back", ""), _look_again)
"""Entry that goes back to home, which binds the saved pedals if they were plugged in meanwhile."""
