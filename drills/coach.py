"""Words that drill kinds share: the prompt, the verdict, and why a repetition is void.

A sentence names one thing, the measure that decided, and holds no number that the large figure
shows. A cue turns attention to the effect, the weight of the pedal, and never to the ankle, as
movements are learned better so (Wulf 2013).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from drills.remark import Remark
from drills.score import Reason, Verdict
from drills.task import Task

SMALL = 2.0
"""Movement of the brake too small for a sentence to speak of, in points."""

Said = tuple[tuple[str, ...], tuple[str, ...]]
"""Sentences on one fault, and cues for it: the words of a remark without its topic."""

NOT_JUDGED = "Not judged"
"""Verdict on a void repetition."""
LIMITED: Mapping[bool, str] = {True: "Clean", False: "Not clean"}
"""Verdict on a repetition, by whether it was clean."""
STAIRCASE: Mapping[bool, str] = {True: "Inside", False: "Outside"}
"""The same where the tolerance follows the player."""
VOID: Mapping[Reason, Said] = {
    Reason.NO_TARGET: (
        (
            "The pedals never came to rest at the start.",
            "The start was not reached in time.",
        ),
        ("Bring them there, then keep still.",),
    ),
    Reason.GAP: (
        (
            "The pedals could not be read for a moment.",
            "For a moment nothing came from the pedals.",
        ),
        ("Play it again.",),
    ),
    Reason.UNPLUGGED: (
        ("The pedals were unplugged.", "The pedals went away."),
        ("Plug them in again.",),
    ),
    Reason.FOCUS_LOST: (
        ("Another window came to the front.", "The keyboard went to another window."),
        ("Come back to this one.",),
    ),
    Reason.LEFT: (
        ("You left before the cue.", "It ended before the cue came."),
        ("Wait for the cue next time.",),
    ),
    Reason.SELDOM: (
        (
            "The pedals report too seldom to judge this.",
            "Too few reports came from the pedals.",
        ),
        ("Try another USB port.",),
    ),
    Reason.AT_END: (
        (
            "The brake is at the end of its scale.",
            "The brake went past the end of its scale.",
        ),
        ("Set up the pedals once more.",),
    ),
    Reason.NOT_MOVED: (
        (
            "The brake stayed on one value, stiller than any foot.",
            "The brake reported one value only.",
        ),
        ("Check its cable.",),
    ),
    Reason.STALLED: (
        (
            "The {pedal} stopped reporting for a moment.",
            "No reports came from the {pedal} for a moment.",
        ),
        ("Give the pedals a USB port of their own.",),
    ),
    Reason.JUMPED: (
        (
            "The {pedal} jumped faster than any foot.",
            "The {pedal} leapt to and fro by itself.",
        ),
        ("Check its cable.",),
    ),
    Reason.MISCOUNTED: (
        (
            "The count was off by more than one.",
            "More than one knock was miscounted.",
        ),
        ("Count the high ones alone.", "Let the low ones pass."),
    ),
    Reason.UNHEARD: (
        (
            "The sound went away, so nothing could be counted.",
            "The knocks could not be heard.",
        ),
        ("Turn the sound on again.",),
    ),
}
"""What happened and what to do after a void repetition, by its outcome; `pedal` made it void."""
WALKED_OUT: Said = (
    ("You left before the end, so it is not clean.", "It was left before its end: not clean."),
    ("See it through next time.",),
)
"""What is said after a repetition that was left after its cue."""
UNLIMITED: Mapping[bool, Said] = {
    True: (("The brake stayed inside its limits.", "Inside, all of it."), ()),
    False: (("The brake went outside its limits.", "Outside its limits, this time."), ()),
}
"""What is said where no limited measure decided, by whether the repetition was clean."""
WAIT = ("Wait for the cue.", "Let the cue set you off.")
"""Cues after an answer that came too soon."""


@dataclass(frozen=True)
class Prompt:
    """Words on the screen before the dark: what the repetition asks."""

    asked: str
    """What to do with the pedal, in a word, such as "brake"."""
    value: str
    """The value to bring the pedal to in %, in large type without its unit: "60"."""
    then: str
    """One line on what comes once the screen is dark."""
    find: str = "Find it, then keep it there"
    """A few words while the pedals are not yet where the repetition begins."""
    keep: str = "Keep it there"
    """A few words while the pedals are where the repetition begins."""


def brake_to(task: Task, then: str) -> Prompt:
    """Prompt of a repetition in which the brake is held; `then` says what comes in the dark."""
    return Prompt("brake", f"{task.target:.0f}", then)


def not_judged(verdict: Verdict, pedal: str = "throttle") -> Remark:
    """Remark on a void repetition; `pedal` is the one that answers its cue."""
    if verdict.reason is Reason.ANTICIPATION:
        return Remark(verdict.reason.value, _too_soon(verdict, pedal), WAIT)
    sentences, cues = VOID[verdict.reason]
    moved = verdict.pedal or "pedal"
    return Remark(verdict.reason.value, tuple(said.format(pedal=moved) for said in sentences), cues)


def _too_soon(verdict: Verdict, pedal: str) -> tuple[str, ...]:
    """Sentences on a pedal that came before its cue could be answered."""
    reaction = verdict.measures.get("reaction")
    if reaction is None or reaction >= 0:
        return (
            f"The {pedal} came too soon to answer the cue.",
            f"The {pedal} came with the cue, not after it.",
        )
    if round(-reaction, 1) == 0.0:
        return (
            f"The {pedal} came just before the cue.",
            f"The cue came a moment after the {pedal}.",
        )
    return (
        f"The {pedal} came {-reaction:.1f} s before the cue.",
        f"{-reaction:.1f} s before the cue, the {pedal} came.",
    )
