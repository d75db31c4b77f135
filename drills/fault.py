"""`Fault`: what goes wrong with a blip most of all, as the cause that a coach would name."""

from __future__ import annotations

from enum import StrEnum


class Fault(StrEnum):
    """Cause of a blip that disturbed the brake, or that was not the blip that was asked."""

    EARLY_ROLL = "early"
    """The brake left before the throttle."""
    BRACING = "brace"
    """The brake was pressed harder before it dipped."""
    DIP = "dip"
    """The brake fell as the throttle went in."""
    OVERSHOOT = "rebound"
    """The brake came back over what was held."""
    LIGHT = "light"
    """The brake came to rest under what was held."""
    HEAVY = "heavy"
    """The brake came to rest over what was held."""
    BIG = "big"
    """The throttle went in further than was asked."""
    SLOW = "slow"
    """The throttle stayed in longer than was asked, or came too late."""
    LOST = "lost"
    """The brake was not at its target any more when the cue came."""
