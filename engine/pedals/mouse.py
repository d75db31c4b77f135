"""Mouse as pedals, to try the game: its height is the brake, its button the throttle."""

from __future__ import annotations

from collections.abc import Callable

from drills.calibration import COUNTS, UNIT
from engine.pedals.port import Clock, Reading

MOUSE_TRAVEL = UNIT
"""Calibration of the mouse as pedals, whose travel is 0 to 1."""

Pointer = Callable[[], tuple[float, bool]]
"""Function that returns the height of the mouse pointer, from 0 (bottom of the window) to 1, and
whether the main button is down."""


class MousePedals:
    """Source of pedal readings from the mouse, from 0 to 1 in whole counts."""

    name = "mouse"
    is_feet = False
    counts = False
    label = "Try-out: nothing is saved"

    def __init__(self, pointer: Pointer, clock: Clock) -> None:
        self._pointer = pointer
        self._clock = clock

    def read(self) -> Reading:
        """Reading of the mouse as pedals now."""
        height, pressed = self._pointer()
        return Reading(self._clock(), round(height * COUNTS) / COUNTS, 1.0 if pressed else 0.0)
