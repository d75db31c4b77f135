"""Words at the foot of screens that end by themselves."""

from __future__ import annotations

from engine.pedals.rig import Means

FOCUS_LOST = "Click here to go on"
READ_ON = "hold the throttle to read on"
READING_ON = "let the throttle go when you are done"


def details_hint(means: Means) -> str:
    """How to see all figures with the input methods at hand."""
    ways = ("hold the throttle" if means.feet else "click here", "Tab")
    button = ("button 2",) if means.buttons else ()
    return f"{', '.join((*ways, *button))}: all figures"


def back_hint(means: Means) -> str:
    """How to leave all figures, where they were asked for, with the input methods at hand."""
    back = ["Tab"] if means.feet else ["click here", "Tab"]
    on = ["Enter"]
    if means.buttons:
        back.append("button 2")
        on.append("button 1")
    return f"{', '.join(back)}: back    {', '.join(on)}: go on"
