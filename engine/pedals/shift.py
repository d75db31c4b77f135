"""`ShiftButton`: the state of the bound shift button, in which no press is too short to be seen."""

from __future__ import annotations

from typing import Protocol

from drills.trace import nanoseconds
from engine.pedals.bound import BoundButton
from engine.pedals.identity import Connection, Device, DeviceButton, match

SHORTEST = nanoseconds(0.002)
"""Shortest time that a press reads as down, in ns: two points of the grid that a trace is measured
on, so that one of them has it."""


class Buttons(Protocol):
    """Interface of the devices that a button is read from."""

    @property
    def plugged(self) -> tuple[Device, ...]:
        """Devices that are plugged in, in SDL's order."""
        ...

    def is_down(self, button: DeviceButton) -> bool | None:
        """Whether a button was down at the last event pump; None if its device is not open."""
        ...


class ShiftButton:
    """Shift button as it is read beside the pedals, on a device that may come and go.

    SDL's state of a button is that after the last event pump, so a press and its release within one
    pump leave no trace in it. The event of the press is therefore taken too: `press` notes it, and
    the next reading has it.
    """

    def __init__(self, devices: Buttons, bound: BoundButton) -> None:
        self._devices = devices
        self._bound = bound
        self._connection: Connection | None = None
        self._button: DeviceButton | None = None
        self._was_down = False
        self._is_pressed = False
        self._down_until = 0

    @property
    def bound(self) -> BoundButton:
        """Device and index of the button, which stay the same from one day to the next."""
        return self._bound

    @property
    def button(self) -> DeviceButton | None:
        """Button on its device as plugged in now; None while the device is not found."""
        return self._button

    def connect(self) -> None:
        """Find the device of the button among those plugged in; without it the pedals go on."""
        found = match([self._bound.device], self._devices.plugged, self._connection)
        before, self._button = self._button, None
        if isinstance(found, Connection):
            self._connection = found
            self._button = DeviceButton(found.ids[self._bound.device], self._bound.button)
        if self._button != before:
            self._was_down = self._is_pressed = False
            self._down_until = 0

    def press(self) -> None:
        """Note that the button was pressed since the last reading."""
        self._is_pressed = True

    def is_down(self, time: int) -> bool | None:
        """Whether the button is down at `time` (ns), the time of a reading; None without it."""
        down = None if self._button is None else self._devices.is_down(self._button)
        if down is None:
            return None
        if self._is_pressed or (down and not self._was_down):
            self._down_until = time + SHORTEST
        self._is_pressed, self._was_down = False, down
        return down or time < self._down_until
