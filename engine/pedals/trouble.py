"""Movements that the set-up of a pedal asks for, and everything that can go wrong with them."""

from __future__ import annotations

from enum import StrEnum


class Motion(StrEnum):
    """Movement of a pedal that its set-up waits for."""

    FIND = "find"
    RELEASE = "release"
    FULL = "full"
    AGAIN = "release again"
    FOUND = "found"


class Trouble(StrEnum):
    """Reason why a pedal cannot be bound by the way it was moved."""

    TAKEN = "taken"
    """The axis is bound to another pedal already."""
    SHARED = "shared axis"
    """The pedal moves the axis of another pedal, in the other direction."""
    PRESSED = "pressed"
    """The pedal should be released but did not move; the foot may be off it already."""
    NOTHING = "nothing moves"
    """No axis moved beyond its noise while a press was waited for."""
    TINY = "tiny"
    """An axis moved beyond its noise, but too little to calibrate."""
    TURNS = "turns"
    """An axis moved to both sides of its start, as a wheel does."""
    THROUGH = "through"
    """The axis that was found moved on past its start, as a wheel does."""
    RETURNS = "returns"
    """The pedal was released but did not come all the way back."""
    WEAK = "weak"
    """The pedal was pressed less than the first time, perhaps on purpose."""
    TOO_WEAK = "too weak"
    """The pedal was pressed far less than the first time."""
    UNSTEADY = "unsteady"
    """The pedal does not come to rest."""
    OTHER = "other"
    """Another axis is pressed, while the one that was found does not move."""
    REFUSED = "refused"
    """An axis that is ignored is pressed."""
