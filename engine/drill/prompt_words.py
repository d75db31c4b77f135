"""Words around the prompt of a repetition: how to find the target, what it is part of, the menu."""

from __future__ import annotations

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


def part_words(level: Level, place: Place) -> str:
    """What a repetition is part of, and why, such as "new: Closer to the brake".

    A staircase has its tolerance in place of its title; the number in the set is said only where
    it has no marks.
    """
    outside = level.feedback is Feedback.OUTSIDE
    if outside and place.why:
        return f"{place.why}, {ONLY_OUTSIDE}"
    words = f"{place.why}: {level.title}" if place.why else level.title
    if place.marks is None and place.of:
        words += f", {place.words}"
    return f"{words}, {ONLY_OUTSIDE}" if outside else words


def menu_words(means: Means) -> str:
    """How to open the menu with the input methods at hand."""
    return "Brake and throttle, Esc: menu" if means.feet else "Esc, right click: menu"
