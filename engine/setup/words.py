"""Texts of the pedal setup: what to do, what is wrong, and what helps."""

from __future__ import annotations

from drills.trace import Pedal
from engine.pedals.moved_ends import End, MovedEnd
from engine.pedals.seeking import MIDDLE
from engine.pedals.trouble import Motion, Trouble
from engine.setup.search import SearchEnd

FEET_OFF = "Take your feet off all pedals"
PROMPTS = {
    Motion.FIND: "Press the {} down and hold it",
    Motion.RELEASE: "Let it go",
    Motion.FULL: "Press it fully and hold it",
    Motion.AGAIN: "Let it go once more",
    Motion.FOUND: "Found",
}
FULLY = {
    Pedal.BRAKE: "Fully is as hard as you would ever brake, not as hard as you can.",
    Pedal.THROTTLE: "Fully is down to the stop.",
    Pedal.CLUTCH: "Fully is down to the stop.",
}
TRY_THEM = "Try them: here no pedal chooses. Brake and throttle kept down together open a menu."
_TROUBLES = {
    Trouble.TAKEN: "That pedal is set up already. Press the {pedal}.",
    Trouble.SHARED: "The {pedal} moves the axis of another pedal, the other way: pressed together "
    "they cancel, and heel-and-toe cannot be seen. Look for 'separate' or 'combined' in the "
    "settings of the device, then set up again.",
    Trouble.PRESSED: "If your foot is off it already, it was on it before. Keep it off: this "
    "begins again by itself.",
    Trouble.NOTHING: "Nothing moves that could be the {pedal}. Press it harder. Is it plugged in "
    "and switched on? If no pedal shows anything, plug it in anew.",
    Trouble.TINY: "{About} moves, but too little for a scale. Press harder. If that is all it "
    "does, raise its range in the software of the pedals.",
    Trouble.TURNS: "{About} moves both ways, as a wheel does. Let go of the wheel and press the "
    "{pedal}.",
    Trouble.THROUGH: "{About} went on through its start, as a wheel does. Let go of the wheel. If "
    "it was the {pedal}, a foot was on it before.",
    Trouble.RETURNS: "It comes back to {share} % only. Does it stick, or is a foot on it? If it "
    "stays there, it is taken as it is.",
    Trouble.WEAK: "That is {share} % of the first press. If you never press harder, keep it there "
    "for three seconds. Otherwise press on.",
    Trouble.TOO_WEAK: "That is only {share} % of the first press. Press harder. Was the first too "
    "hard? Keep it there, and this begins again.",
    Trouble.UNSTEADY: "{About} does not come to rest. Keep the foot still, or off it.",
    Trouble.OTHER: "{About} is pressed, but another one was found. Is it the {pedal}? Keep it down "
    "for three seconds and it is taken instead.",
    Trouble.REFUSED: "{About} was left out. Is it the {pedal} after all? Keep it down for three "
    "seconds.",
}
_STUCK = "It does not move. Press the {pedal} fully. If you did, it is not {about}."
_BEGUN_AGAIN = "It begins again, as the foot was on it before."
_WEAK_BEFORE = "The first press was the harder one. Press it now as hard as you ever would."
_MIDDLE = "It rests in the middle, as a wheel does. If you turned the wheel, leave it out."
_KEEPS_MOVING = (
    "{About} keeps moving. Let go of the wheel. If it is a pedal: is something lying on it, or is "
    "it noisy? It is left out in a moment."
)


def heading(pedal: Pedal) -> str:
    """Heading of the screens that set up a pedal."""
    return f"Set up the {pedal.value}"


def trouble_words(trouble: Trouble, motion: Motion, pedal: Pedal, about: str, share: float) -> str:
    """What is wrong with the movement of a pedal that is searched for, and what helps.

    `about` names the axis, `share` is the movement as a fraction of the first press.
    """
    text = _TROUBLES[trouble]
    if motion is Motion.FIND and trouble is Trouble.PRESSED:
        text = _BEGUN_AGAIN
    elif motion is Motion.FIND and trouble is Trouble.TOO_WEAK:
        text = _WEAK_BEFORE
    elif motion is Motion.FULL and trouble is Trouble.NOTHING:
        text = _STUCK
    return text.format(
        pedal=pedal.value, about=about, About=capitalized(about), share=round(100 * share)
    )


def middle_words(rest: float | None) -> str | None:
    """Caution about an axis that rests in its middle; None for any other `rest` (raw)."""
    return _MIDDLE if rest is not None and abs(rest) < MIDDLE else None


def moving_axis_words(about: str) -> str:
    """Note that an axis keeps moving with the feet off, and what it may be."""
    return _KEEPS_MOVING.format(About=capitalized(about))


def moving_pedal_words(pedal: Pedal) -> str:
    """Note that a pedal that was found before keeps moving with the feet off."""
    return f"The {pedal.value} keeps moving. Take your foot off it."


def pressed_words(pedal: Pedal) -> str:
    """Note that a pedal that was found before reads as pressed with the feet off."""
    return f"The {pedal.value} reads as pressed. If it is not, wait: this begins again."


def left_out_words(about: str, more: int) -> str:
    """Note that an axis and `more` others are ignored because they keep moving."""
    others = {0: "", 1: " and one more axis"}.get(more, f" and {more} more axes")
    return f"Left out, as it keeps moving: {about}{others}."


def refused_words(about: str) -> str:
    """Note that an axis is left out because the player refused it for the pedal."""
    return f"{capitalized(about)} is left out."


def resting_words(pedal: Pedal, percent: float) -> str:
    """Note that a released pedal rests at `percent` (%) and not at its end."""
    return (
        f"The {pedal.value} rests at {percent:.0f} %. Does it stick, or is a foot on it? "
        f"If it stays, set the {pedal.value} up again."
    )


def moved_end_words(moved: MovedEnd) -> tuple[str, str, str]:
    """Heading, text and note about an end of a pedal that is not where it was set up."""
    pedal, percent = moved.pedal.value, f"{moved.percent:.0f} %"
    if moved.end is End.FULL:
        heading = f"The {pedal} goes to {percent}"
        text = "You press harder than what was set as fully. Targets are softer than they say."
        return heading, text, "A new full is another scale: curves over days begin anew there."
    heading = f"The {pedal} rests at {percent}"
    question = "Is a foot on it, or does something hold it?"
    if moved.percent < 0:
        question = "Was it pressed a little when it was set up?"
    text = f"It should rest at 0 %. {question} If not, it has moved."
    return heading, text, "Everything told over days goes on as before."


RESTART_NOTES = {
    SearchEnd.LOST: "The pedals were unplugged, so this begins again with the brake.",
    SearchEnd.PRESSED: "A pedal read as pressed with the feet off, so this begins again with the "
    "brake.",
}
"""Notes on why the setup begins again from the start, by how the search ended."""


def capitalized(text: str) -> str:
    """A text with its first letter in upper case."""
    return text[:1].upper() + text[1:]
