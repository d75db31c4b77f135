"""The movements that setting up a pedal waits for, and all that can be wrong with them."""

from __future__ import annotations

from enum import StrEnum


class Motion(StrEnum):
    """The movement that the finder waits for."""

    FIND = "find"
    RELEASE = "release"
    FULL = "full"
    AGAIN = "release again"
    FOUND = "found"


class Trouble(StrEnum):
    """Why a pedal cannot be bound as it was moved."""

    TAKEN = "taken"
    """It is set up already."""
    SHARED = "shared axis"
    """It moves the axis of another pedal, the other way."""
    PRESSED = "pressed"
    """It was to be let go and did not move; perhaps the foot is off it."""
    NOTHING = "nothing moves"
    """Nothing moved above its noise while a press was waited for."""
    TINY = "tiny"
    """An axis moved above its noise, and too little for a scale."""
    TURNS = "turns"
    """An axis moves to both sides of where it was, as a wheel does."""
    THROUGH = "through"
    """The axis that was found went on through its start, as a wheel does."""
    RETURNS = "returns"
    """It was let go and did not come all the way back."""
    WEAK = "weak"
    """It was pressed less than the first time, and may be meant so."""
    TOO_WEAK = "too weak"
    """It was pressed far less than the first time."""
    UNSTEADY = "unsteady"
    """It does not come to rest."""
    OTHER = "other"
    """Another axis is pressed, while the one that was found does not move."""
    REFUSED = "refused"
    """An axis that was left out is pressed."""
