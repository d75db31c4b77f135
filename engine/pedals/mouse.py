"""The mouse as pedals, to try the game: its height is the brake, its button the throttle."""

from __future__ import annotations

from collections.abc import Callable

from drills.calibration import COUNTS, UNIT
from engine.pedals.port import Clock, Reading

MOUSE_TRAVEL = UNIT
"""The whole travel of these pedals."""

Pointer = Callable[[], tuple[float, bool]]
"""Height of the pointer in the window, 0 at the bottom to 1 at the top, and the main button."""


class MousePedals:
    """Raw readings from 0 to 1, in whole counts."""

    name = "mouse"
    is_feet = False
    counts = False
    label = "Try-out: nothing is kept"

    def __init__(self, pointer: Pointer, clock: Clock) -> None:
        self._pointer = pointer
        self._clock = clock

    def read(self) -> Reading:
        """The pointer now."""
        height, pressed = self._pointer()
        return Reading(self._clock(), round(height * COUNTS) / COUNTS, 1.0 if pressed else 0.0)
