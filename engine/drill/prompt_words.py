"""Words around the prompt of a repetition: how to find the target, what it is part of, the menu."""

from __future__ import annotations

from collections.abc import Iterator

from drills.coach import Prompt
from drills.level import Feedback, Level
from engine.kit.base import Place
from engine.pedals.rig import Means

LOST_FOCUS = "Click here to go on"
"""Instruction while the window has not got the focus."""
BRAKE_FIRST = "Let the brake go first"
"""Instruction while the brake is pressed from before."""
BY_TONE = "A low tone is too light, a high one too heavy."
"""How to find the target where only a tone tells."""
ONLY_OUTSIDE = "shown if outside"
"""Note on a staircase, whose reveal comes only for a repetition outside its tolerance."""


def by_feel(prompt: Prompt) -> str:
    """How to find the target where nothing but a word tells that the foot is there."""
    return f'Feel for it: "{prompt.keep}" says that you are there.'


def let_go(pedal: str) -> str:
    """Instruction to let go of a pedal that must be up first."""
    return f"Let go of the {pedal}"


def part_words(level: Level, place: Place) -> Iterator[str]:
    """What a repetition is part of, and why, the fullest wording first.

    Such as "First blip, check-up: 8 days later". The title is left out where the reason says it,
    and the number in the set where the set has marks. The last wordings are for little room.
    """
    is_named = names_level(place.why, level.title)
    between = ": " if "?" in place.why else ", "
    words = place.why if is_named else between.join(filter(None, [level.title, place.why]))
    if place.marks is None and place.of:
        words += f", {place.words}"
    if level.feedback is Feedback.OUTSIDE:
        yield f"{words}, {ONLY_OUTSIDE}"
    yield words
    if place.why:
        yield place.why


def names_level(reason: str, title: str) -> bool:
    """Whether a reason says the title of its level, be it cut short."""
    named = reason.partition(": ")[2].removesuffix("...")
    begins = f"{reason} ".lower().startswith(f"{title} ".lower())
    return begins or (bool(named) and title.startswith(named))


def menu_words(means: Means) -> str:
    """How to open the menu with the input methods at hand."""
    return "Brake and throttle, Esc: menu" if means.feet else "Esc, right click: menu"
