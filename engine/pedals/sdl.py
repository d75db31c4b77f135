"""SDL joystick devices: the list of those plugged in, and pedals read from their bound axes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Mapping
from typing import NamedTuple

import pygame

from engine.pedals.bound import Binding, BoundAxis
from engine.pedals.identity import (
    Axis,
    Changes,
    Connection,
    Device,
    DeviceButton,
    Identity,
    Missing,
    Model,
    changes_between,
    identified,
    match,
)
from engine.pedals.listing import Joystick, Joysticks, Listed, SdlJoysticks
from engine.pedals.port import Clock, Reading
from engine.pedals.shift import ShiftButton

BUTTONS_LEAST = 3
"""Number of buttons that a wheel needs for menus: choose, next and back."""


class Unopened(NamedTuple):
    """Joystick device that is plugged in but could not be opened."""

    name: str
    """Name of the device, as in Model."""
    denied: bool
    """Whether the user may not read it; otherwise another program may hold it."""


class Devices:
    """Joystick devices that are plugged in, and the raw values of their axes.

    A device is opened only where it is needed: on Windows an open device is taken from other
    programs and its force feedback is reset, which may stop the motor of a wheel that a simulator
    runs. pygame closes a device when its object is collected, so the objects of open devices are
    held. It counts how often a device was opened but closes it only once, so no device is opened
    that is open already.
    """

    def __init__(self, joysticks: Joysticks | None = None, *, choosing: bool = True) -> None:
        """`choosing` is whether wheel buttons choose in menus; `joysticks` are SDL's if None."""
        self._choosing = choosing
        self._joysticks = SdlJoysticks() if joysticks is None else joysticks
        self._open: dict[int, Joystick] = {}
        self._models: dict[int, Model] = {}
        self._buttons: dict[str, bool] = {}
        self._plugged: tuple[Device, ...] = ()
        self._unopened: tuple[Unopened, ...] = ()

    @property
    def plugged(self) -> tuple[Device, ...]:
        """Devices that were opened at least once since they were plugged in, in SDL's order.

        While pedals are looked for, that is every device that can be opened.
        """
        return self._plugged

    @property
    def unopened(self) -> tuple[Unopened, ...]:
        """Devices that could not be opened at the last rescan."""
        return self._unopened

    @property
    def buttons(self) -> Mapping[str, bool]:
        """Whether devices have buttons, by GUID as in Model, of all that were ever opened."""
        return self._buttons

    @property
    def button_counts(self) -> Mapping[int, int]:
        """Number of buttons of each open device, by SDL's instance id."""
        return {key: joystick.get_numbuttons() for key, joystick in self._open.items()}

    def choose_beside(self, shift: DeviceButton | None) -> bool:
        """Whether an open device, such as a wheel, has all buttons for menus beside a shift button.

        `shift` chooses nothing, so a device on which it is one of the first has too few.
        """
        taken = None if shift is None or shift.button >= BUTTONS_LEAST else shift.device
        return any(
            count >= BUTTONS_LEAST and key != taken for key, count in self.button_counts.items()
        )

    def recall(self, buttons: Mapping[str, bool]) -> None:
        """Add what was learned in earlier runs, in the form of `buttons`."""
        self._buttons = {**buttons, **self._buttons}

    def counts(self) -> Mapping[str, int]:
        """How many devices are plugged in, by GUID as in Model; none is opened for it."""
        return Counter(device.guid for device in self._joysticks.listed())

    def rescan(self, guids: Collection[str] | None = None) -> Changes:
        """List the devices, and open those of these GUIDs, as in Model; None opens every device.

        If buttons choose, devices with buttons are opened too, and devices not seen before, to
        learn whether they have any. What is open stays open. Returns which devices came and went
        since the last rescan.
        """
        listed = self._joysticks.listed()
        here = {device.id for device in listed}
        self._open = {key: joystick for key, joystick in self._open.items() if key in here}
        self._models = {key: model for key, model in self._models.items() if key in here}
        failed = [
            Unopened(device.name, denied=False)
            for index, device in enumerate(listed)
            if self._is_needed(device, guids) and not self._opens(index, device, guids)
        ]
        denied = [Unopened(name, denied=True) for name in self._joysticks.denied()]
        self._unopened = (*failed, *denied)
        before = self._plugged
        self._plugged = identified(
            {device.id: self._models[device.id] for device in listed if device.id in self._models}
        )
        return changes_between(before, self._plugged)

    def close_others(self, instances: Iterable[int]) -> None:
        """Close all devices but those with these instance ids and, if they choose, with buttons.

        A closed wheel reports no buttons.
        """
        wanted = set(instances)
        self._open = {
            key: joystick
            for key, joystick in self._open.items()
            if key in wanted or (self._choosing and joystick.get_numbuttons() > 0)
        }

    def values(self) -> dict[Axis, float]:
        """Raw value of every axis of every open device."""
        return {
            Axis(key, axis): joystick.get_axis(axis)
            for key, joystick in self._open.items()
            for axis in range(joystick.get_numaxes())
        }

    def value(self, axis: Axis) -> float | None:
        """Raw value of an axis; None if its device is not open."""
        joystick = self._open.get(axis.device)
        return None if joystick is None else joystick.get_axis(axis.axis)

    def is_down(self, button: DeviceButton) -> bool | None:
        """Whether a button was down at the last event pump; None if its device is not open.

        A button that the device does not have is never down.
        """
        joystick = self._open.get(button.device)
        if joystick is None:
            return None
        return button.button < joystick.get_numbuttons() and bool(
            joystick.get_button(button.button)
        )

    def identity(self, instance: int) -> Identity | None:
        """Identity of the device with this instance id; None if it is not plugged in."""
        return next((device.identity for device in self._plugged if device.id == instance), None)

    def _is_needed(self, device: Listed, guids: Collection[str] | None) -> bool:
        """Whether a device is to be open: for its axes, or for buttons that it has or may have."""
        if guids is None or device.guid in guids:
            return True
        return self._choosing and self._buttons.get(device.guid, True)

    def _opens(self, index: int, device: Listed, guids: Collection[str] | None) -> bool:
        """Open a device unless it is open, and keep it open if it is needed; False if that fails.

        If another device has moved to the index meanwhile, an event tells of it, and the rescan
        that follows opens the right one.
        """
        if device.id in self._open:
            return True
        try:
            joystick = self._joysticks.open_device(index)
            if joystick.get_instance_id() == device.id:
                self._models[device.id] = Model(device.guid, device.name, joystick.get_numaxes())
                has_some = joystick.get_numbuttons() > 0
                self._buttons[device.guid] = has_some or self._buttons.get(device.guid, False)
                if self._is_needed(device, guids):
                    self._open[device.id] = joystick
        except pygame.error:
            self._models.pop(device.id, None)
            return False
        return True


class SdlPedals:
    """Source of raw readings from the axes that the pedals are bound to, and of the shift button.

    While the device of the shift button is unplugged the pedals go on without it.
    """

    name = "pedals"
    is_feet = True
    counts = True
    label = ""

    def __init__(self, devices: Devices, binding: Binding, clock: Clock) -> None:
        self._devices = devices
        self._binding = binding
        self._clock = clock
        self._connection: Connection | None = None
        self._pedals: list[_Pedal] = []
        self._used_ids: set[int] = set()
        self._shift = None if binding.shift is None else ShiftButton(devices, binding.shift)

    @property
    def guids(self) -> frozenset[str]:
        """GUIDs, as in Model, of the devices that pedals and the shift button are bound to."""
        return self._binding.device_guids

    @property
    def shift(self) -> ShiftButton | None:
        """Shift button that is read beside the pedals; None where none is bound."""
        return self._shift

    def connect(self) -> Missing | None:
        """Find the bound devices among those plugged in; returns why that failed, or None.

        Call it after every rescan that changed anything, so that new twins are not mistaken for
        bound devices later.
        """
        bound = self._binding.pedals
        found = match([pedal.device for pedal in bound], self._devices.plugged, self._connection)
        if isinstance(found, Missing):
            return found
        before = {pedal.axis: pedal for pedal in self._pedals}
        axes = [Axis(found.ids[pedal.device], pedal.axis) for pedal in bound]
        self._pedals = [
            before.get(axis) or _Pedal(axis, pedal) for axis, pedal in zip(axes, bound, strict=True)
        ]
        self._connection = found
        self._used_ids.update(found.ids.values())
        wanted = set(found.ids.values())
        if self._shift is not None:
            self._shift.connect()
            wanted |= set() if self._shift.button is None else {self._shift.button.device}
        self._devices.close_others(wanted)
        return None

    @property
    def axes(self) -> tuple[Axis, ...]:
        """Axes of brake, throttle and, if there is one, clutch, as last found."""
        return tuple(pedal.axis for pedal in self._pedals)

    def lost(self, changes: Changes) -> bool:
        """Whether the lost devices include one that pedals were read from, back by now or not.

        Instance ids are never reused, so this holds both before and after `connect`.
        """
        return any(device.id in self._used_ids for device in changes.lost)

    def read(self) -> Reading | None:
        """Reading of the bound pedals now; None while any of their devices is unplugged."""
        values = [pedal.value(self._devices) for pedal in self._pedals]
        there = [value for value in values if value is not None]
        if not there or len(there) < len(values):
            return None
        now = self._clock()
        shift = None if self._shift is None else self._shift.is_down(now)
        return Reading(now, *there, shift=shift)


class _Pedal:
    """Bound axis of a pedal; its device may read 0.0 until it first reports: that reads as rest."""

    def __init__(self, axis: Axis, bound: BoundAxis) -> None:
        self.axis = axis
        self._rest = bound.range.rest
        self._seen = False

    def value(self, devices: Devices) -> float | None:
        value = devices.value(self.axis)
        if value is None:
            self._seen = False
            return None
        self._seen = self._seen or value != 0.0
        return value if self._seen else self._rest
