"""Words at the foot of screens that end by themselves."""

from __future__ import annotations

from engine.kit.looks import Look
from engine.pedals.rig import Means

FOCUS_LOST = "Click here to go on"
READ_ON = "hold the throttle to read on"
READING_ON = "let the throttle go when you are done"
HOLDING_ON = "keep holding: all figures    let go: back"
ASKED = {
    Look.MAIN: "back",
    Look.OWN: "replay",
    Look.BEST: "your best",
    Look.FIGURES: "all figures",
}
"""What a hold or a key asks for, in a word or two."""


def asking_hint(means: Means, hold: Look, key: Look) -> str:
    """How to see more with the input methods at hand, where a hold and a key ask for these."""
    keys = ["Tab", "button 2"] if means.buttons else ["Tab"]
    if not means.feet:
        return f"{', '.join(['click here', *keys])}: {ASKED[key]}"
    if hold is key:
        return f"{', '.join(['hold the throttle', *keys])}: {ASKED[key]}"
    return f"hold the throttle: {ASKED[hold]}    {', '.join(keys)}: {ASKED[key]}"


def held_hint(look: Look) -> str:
    """What holding the throttle on and letting it go do, while it is held for a look."""
    return HOLDING_ON if look.plays else READING_ON


def stepping_hint(means: Means, key: Look) -> str:
    """What the keys do, where one of them asked for what is shown and the next asks for this."""
    step = ["Tab"] if means.feet else ["click here", "Tab"]
    on = ["Enter"]
    if means.buttons:
        step.append("button 2")
        on.append("button 1")
    return f"{', '.join(step)}: {ASKED[key]}    {', '.join(on)}: go on"
