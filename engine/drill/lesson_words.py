"""Words of the lessons: the effect of each movement, the word of the moment, and the terms."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import Enum

from engine.drill.lesson_moves import EASING, EASING_BLIPS
from engine.kit.foot_pose import Way
from engine.pedals.rig import Means

SHOW_MOVEMENT = "Show the movement"
HOW = "How do you blip?"
WHY = "A blip of throttle speeds the engine up for the lower gear."
"""What a blip is for."""
BOTH_RIGHT = "Both ways work. Not sure? Roll the foot."
LATER = "Change it under More."
SLOWED = "slow motion"
IN_SLOW_MOTION = "Shown in slow motion."
HEADING_OF_CHANGE = "How you blip"


class Term(Enum):
    """Word that a lesson explains, with its explanation."""

    DARK = "Dark"
    CUE = "Cue"
    BLIP = "Blip"


EXPLAINED: Mapping[Term, str] = {
    Term.DARK: "Nothing is shown while your foot is measured.",
    Term.CUE: "An orange flash and a click: act at once.",
    Term.BLIP: "A short press: about 60 % throttle, a third of a second.",
}
"""What each term means, in a line."""

WAYS: Mapping[Way, str] = {Way.ROLL: "Roll the foot", Way.HEEL: "Heel to the throttle"}
"""Name of each way to blip, as a menu offers it."""
HOW_IT_GOES: Mapping[Way, str] = {
    Way.ROLL: "Ball on the brake, outer edge to the throttle.",
    Way.HEEL: "Ball on the brake, heel to the throttle.",
}
"""What the foot does in each way to blip."""
OVER: Mapping[Way, str] = {Way.ROLL: "roll", Way.HEEL: "heel out"}
"""Word for the movement towards the throttle, by the player's way."""


@dataclass(frozen=True)
class LessonWords:
    """What a lesson says."""

    effect: str
    """Sentence on the effect of the movement on the pedals, and not on the ankle."""
    stages: tuple[str, ...]
    """Word for each stage of the movement, in order; "{over}" stands for that of the way."""
    signs: tuple[str, ...]
    """Word for each thing that the player sees or hears, in order."""
    terms: tuple[Term, ...]
    """Terms that the drill needs."""

    def stage(self, index: int, way: Way) -> str:
        """Word for a stage of the movement, for a player who blips in this way."""
        return self.stages[index].format(over=OVER[way])


ANSWERED = (Term.DARK, Term.CUE, Term.BLIP)
"""Terms of a drill in which a blip answers a cue."""

WORDS: Mapping[str, LessonWords] = {
    "hold": LessonWords(
        "Same weight on the brake until the light returns.",
        ("press to the target", "hold: the brake stays", "let go"),
        ("dark", "light"),
        (Term.DARK,),
    ),
    "squeeze": LessonWords(
        "Straight to the target, not past it, and stay.",
        ("let go and wait", "squeeze", "stay there", "let go"),
        ("cue",),
        (Term.DARK, Term.CUE),
    ),
    "blip": LessonWords(
        "Same weight on the brake, all the way through.",
        ("ball on the brake: hold", "{over}: the brake stays", "and back", "hold"),
        ("dark", "cue"),
        ANSWERED,
    ),
    "counting": LessonWords(
        "Same weight on the brake, while you count the high knocks.",
        ("hold, and count", "{over}: the brake stays", "and back", "tell the number after it"),
        ("dark", "low", "high", "high", "cue"),
        ANSWERED,
    ),
    "run": LessonWords(
        "Same weight on the brake, through every blip.",
        ("hold", "two knocks give the beat", "blip on each click", "hold"),
        ("knock", "knock", "click", "click", "click"),
        ANSWERED,
    ),
    EASING: LessonWords(
        "The brake comes down evenly, as the tone falls.",
        ("press to the target", "hold", "ease off with the tone", "off as the tone ends"),
        ("dark", "tone"),
        (Term.DARK,),
    ),
    EASING_BLIPS: LessonWords(
        "The brake comes down evenly, through each blip.",
        ("press to the target", "hold", "ease off with the tone", "{over}: keep easing", "off"),
        ("dark", "tone", "click"),
        ANSWERED,
    ),
    "zone": LessonWords(
        "On at once, then the brake comes down, through each blip.",
        (
            *("rest: three knocks", "brake to the peak", "down with the tone"),
            *("{over}: keep easing", "off at the last knock"),
        ),
        (*("knock",) * 3, "tone", *("click",) * 2, "knock"),
        ANSWERED,
    ),
    "clutch": LessonWords(
        "Same weight on the brake, while both feet move.",
        ("hold", "clutch down", "{over}: the brake stays", "clutch up", "hold"),
        ("dark", "cue"),
        ANSWERED,
    ),
}
"""What each lesson says, by its name."""


def terms_of(name: str, seen: Sequence[str]) -> tuple[Term, ...]:
    """Terms that the lesson of this name explains to a player who has seen those in `seen`."""
    known = {term for other in seen if other in WORDS for term in WORDS[other].terms}
    return tuple(term for term in WORDS[name].terms if term not in known)


def skip_hint(means: Means) -> str:
    """How to go on, and how to stay, with the input methods at hand."""
    button = ("button 1",) if means.buttons else ()
    if not means.feet:
        return f"{', '.join(('Click', 'Enter', *button))}: go on"
    return f"{', '.join(('Throttle tap', 'Enter', *button))}: go on    hold the throttle: stay"
