"""Entry of home or More, and the two that every such menu needs."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from engine.drill.attempt import Setting
from engine.game.facts import Facts
from engine.game.offer import Offer
from engine.kit.base import Choice
from engine.setup.saved import bind_saved
from engine.stage.scene import Flow
from engine.store import History


@dataclass(frozen=True)
class Game:
    """What an entry starts with."""

    setting: Setting
    """Rig, stage, chance and dates; its history is None in a try-out."""
    history: History
    """The open history, also in a try-out."""
    offer: Offer
    """What there is to play."""


@dataclass(frozen=True)
class Entry:
    """Something that home or More offers: what it says and what it starts."""

    words: Callable[[Facts], tuple[str, str] | None]
    """Its label and a quiet note beside it; None where it is not offered now."""
    start: Callable[[Game], Flow[bool]]
    """What happens when it is chosen; whether the player then leaves the game."""


def choices_of(entries: Sequence[Entry], facts: Facts) -> list[Choice[Entry]]:
    """The entries that are offered now, as choices in the same order."""
    return [
        Choice(words[0], entry, words[1])
        for entry in entries
        if (words := entry.words(facts)) is not None
    ]


def _leave(_: Game) -> Flow[bool]:
    yield from ()
    return True


def _look_again(game: Game) -> Flow[bool]:
    yield from ()
    bind_saved(game.setting.rig, game.history)
    return False


LEAVE = Entry(lambda _: ("Leave", ""), _leave)
"""Leave the game."""
LOOK_AGAIN = Entry(lambda _: ("Back", ""), _look_again)
"""Back to home, after looking which pedals are there: what home says may have changed."""
