"""Texts of the pedal setup: what to do, what is wrong, and what helps."""

from __future__ import annotations

from drills.capitals import capitalised
from drills.trace import Pedal
from engine.pedals.moved_ends import End, MovedEnd
from engine.pedals.seeking import MIDDLE
from engine.pedals.trouble import Motion, Trouble
from engine.setup.search import SearchEnd

FEET_OFF = "Feet off all pedals"
CLICK = "Click here to go on"
PROMPTS = {
    Motion.FIND: "Press it and hold",
    Motion.RELEASE: "Let it go",
    Motion.FULL: "Press fully and hold",
    Motion.AGAIN: "Let it go again",
    Motion.FOUND: "Found",
}
FULLY = {
    Pedal.BRAKE: "As hard as you would ever brake.",
    Pedal.THROTTLE: "Down to the stop.",
    Pedal.CLUTCH: "Down to the stop.",
}
SET_REST = "Set the rest again"
SET_FULL = "Set full again"
ONCE_MORE = "Once more, as hard"
NO_CLUTCH = "No clutch? Press the brake once."
TRY_THEM = "Try them. No pedal chooses here: hold brake and throttle for a menu."
SET_UP = "The pedals are set up"
SETTING_UP = "Setting up the pedals"
LET_GO = "Let go of all pedals first."
WHICH = "Set up which pedals?"
OTHERS_STAY = "The others stay as they are."
BACK = "Your pedals are back"
BACK_NOW = "The pedals you set up before are plugged in now."
SOFT = "Was that a full press?"
TWO_PEDALS = "Two pedals for a second, or Esc: menu"
_TROUBLES = {
    Trouble.TAKEN: "That pedal is set up already. Press the {pedal}.",
    Trouble.SHARED: "The {pedal} shares an axis with another pedal: together they cancel. Set the "
    "device to 'separate' pedals, not 'combined'. Then set up again.",
    Trouble.PRESSED: "Is your foot off it? Keep it off: this begins again by itself.",
    Trouble.NOTHING: "No {pedal} moves yet. Press harder. Still nothing? Check its plug and its "
    "switch.",
    Trouble.TINY: "{About} moves too little. Press harder. Is that all it does? Raise its range in "
    "the pedals' software.",
    Trouble.TURNS: "{About} moves both ways, as a wheel does. Let go of the wheel and press the "
    "{pedal}.",
    Trouble.THROUGH: "{About} went past its start, as a wheel does. Let go of the wheel. Was it "
    "the {pedal}? Then a foot was on it before.",
    Trouble.RETURNS: "It comes back to {share} % only. Does it stick, or is a foot on it? If it "
    "stays there, it is taken as it is.",
    Trouble.WEAK: "{share} % of the first press: press on. Never harder? Then hold it for three "
    "seconds.",
    Trouble.TOO_WEAK: "Only {share} % of the first press: press harder. Was the first too hard? "
    "Hold it, and this begins again.",
    Trouble.UNSTEADY: "{About} does not come to rest. Keep the foot still, or off it.",
    Trouble.OTHER: "{About} is pressed, but another one was found. Is it the {pedal}? Hold it for "
    "three seconds.",
    Trouble.REFUSED: "{About} was left out. Is it the {pedal} after all? Hold it for three "
    "seconds.",
}
_STUCK = "It does not move. Press the {pedal} fully. If you did, it is not {about}."
_BEGUN_AGAIN = "It begins again, as the foot was on it before."
_WEAK_BEFORE = "The first press was the harder one. Press as hard as you ever would."
_MIDDLE = "It rests in the middle, as a wheel does. A wheel? Leave it out."
_KEEPS_MOVING = (
    "{About} keeps moving. Let go of the wheel. If it is a pedal: is it noisy? It is left out in a "
    "moment."
)


def heading(pedal: Pedal) -> str:
    """What comes, above the instruction to take the feet off before a pedal is searched for."""
    return f"before the {pedal.value}"


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
        pedal=pedal.value, about=about, About=capitalised(about), share=round(100 * share)
    )


def middle_words(rest: float | None) -> str | None:
    """Caution about an axis that rests in its middle; None for any other `rest` (raw)."""
    return _MIDDLE if rest is not None and abs(rest) < MIDDLE else None


def moving_axis_words(about: str) -> str:
    """Note that an axis keeps moving with the feet off, and what it may be."""
    return _KEEPS_MOVING.format(About=capitalised(about))


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
    return f"{capitalised(about)} is left out."


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
        text = "You press harder than the full you set up. Targets feel lighter than they say."
        return heading, text, "A new full is a new scale: curves over days begin again there."
    heading = f"The {pedal} rests at {percent}"
    question = "Is a foot on it, or does something hold it?"
    if moved.percent < 0:
        question = "Was it pressed a little when it was set up?"
    text = f"It should rest at 0 %. {question} If not, it has moved."
    return heading, text, "Your history goes on as before."


RESTART_NOTES = {
    SearchEnd.LOST: "The pedals were unplugged, so this begins again with the brake.",
    SearchEnd.PRESSED: "A pedal read as pressed with the feet off. This begins again with the "
    "brake.",
}
"""Notes on why the setup begins again from the start, by how the search ended."""
