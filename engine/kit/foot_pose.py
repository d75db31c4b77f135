"""Ways of heel-and-toe, and the pose of the foot that pedals pressed so far put it in."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


class Way(Enum):
    """How a foot blips while its ball stays on the brake."""

    ROLL = "roll"
    """The foot rolls, and its outer edge presses the throttle."""
    HEEL = "heel"
    """The heel swings out, and presses the throttle."""


@dataclass(frozen=True)
class Pressed:
    """How far each pedal is pressed at one moment."""

    brake: float
    """Brake, in % of its travel."""
    throttle: float = 0.0
    """Throttle, in % of its travel."""
    clutch: float | None = None
    """Clutch, in % of its travel; None where there is none to draw."""
