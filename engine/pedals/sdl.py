"""SDL joystick devices: the list of those plugged in, and pedals read from their bound axes."""

from __future__ import annotations

import contextlib
from collections.abc import Iterable
from typing import Protocol

import pygame

from engine.pedals.bound import Binding, BoundAxis
from engine.pedals.identity import (
    Axis,
    Changes,
    Connection,
    Device,
    Identity,
    Missing,
    Model,
    match,
    printable,
)
from engine.pedals.port import Clock, Reading


class Joystick(Protocol):
    """Interface of pygame's joystick object, an open device that closes when it is collected.

    Every method may raise pygame.error.
    """

    def get_instance_id(self) -> int:
        """SDL's instance id, which is new each time the device is plugged in."""

    def get_guid(self) -> str:
        """GUID of the device's model, 32 hexadecimal digits."""

    def get_name(self) -> str:
        """Name that the device reports. Raises UnicodeDecodeError if it is not UTF-8."""

    def get_numaxes(self) -> int:
        """Number of axes of the device."""

    def get_numbuttons(self) -> int:
        """Number of buttons of the device."""

    def get_axis(self, axis_number: int, /) -> float:
        """Raw value of an axis of the device at the last event pump, from -1 to 1."""


class Joysticks(Protocol):
    """Interface of the module pygame.joystick, as far as it is used here."""

    def get_count(self) -> int:
        """Number of joystick devices plugged in."""

    def Joystick(self, index: int, /) -> Joystick:  # noqa: N802 (pygame's name)
        """Open the device at an index of SDL's list; indices move as devices come and go."""


BUTTONS_LEAST = 3
"""Number of buttons that a wheel needs for menus: choose, next and back."""


class Devices:
    """Joystick devices that are plugged in, and the raw values of their axes.

    pygame closes a device when its object is collected, so the objects of open devices are held.
    """

    def __init__(self, joystick: Joysticks = pygame.joystick, *, choosing: bool = True) -> None:
        """`choosing` is whether wheel buttons choose in menus."""
        self._choosing = choosing
        self._joystick = joystick
        self._open: dict[int, Joystick] = {}
        self._plugged: tuple[Device, ...] = ()

    @property
    def plugged(self) -> tuple[Device, ...]:
        """All joystick devices plugged in, in the order that SDL lists them."""
        return self._plugged

    @property
    def has_buttons(self) -> bool:
        """Whether an open device, such as a wheel, has enough buttons for menus."""
        return any(device.get_numbuttons() >= BUTTONS_LEAST for device in self._open.values())

    def rescan(self) -> Changes:
        """Open and list every device; returns which came and went since the last rescan.

        A device that cannot be opened is left out.
        """
        before = self._plugged
        opened: dict[int, Joystick] = {}
        models: dict[int, Model] = {}
        for index in range(self._joystick.get_count()):
            with contextlib.suppress(pygame.error):
                joystick = self._joystick.Joystick(index)
                key, model = joystick.get_instance_id(), _model(joystick)
                opened[key], models[key] = joystick, model
        self._open, self._plugged = opened, _identified(models)
        here, there = ({device.id for device in devices} for devices in (self._plugged, before))
        return Changes(
            added=tuple(device for device in self._plugged if device.id not in there),
            lost=tuple(device for device in before if device.id not in here),
        )

    def close_others(self, instances: Iterable[int]) -> None:
        """Close all devices but those with these instance ids and, if they choose, with buttons.

        A closed wheel reports no buttons; an open one may keep its motor engaged. pygame counts
        how often a device was opened but closes it only once, so a device that was open at a
        rescan stays open in SDL.
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

    def identity(self, instance: int) -> Identity | None:
        """Identity of the device with this instance id; None if it is not plugged in."""
        return next((device.identity for device in self._plugged if device.id == instance), None)


def _model(joystick: Joystick) -> Model:
    guid = joystick.get_guid()
    # The digits left out are a checksum of the name that differs between SDL versions.
    return Model(guid[:4] + guid[8:], _name(joystick), joystick.get_numaxes())


def _name(joystick: Joystick) -> str:
    try:
        return printable(joystick.get_name())
    except UnicodeDecodeError as error:
        return printable(error.object.decode(errors="backslashreplace"))


def _identified(models: dict[int, Model]) -> tuple[Device, ...]:
    """Devices with their identities, from the model of each instance id in SDL's order."""
    twins: dict[Model, list[int]] = {}
    for key, model in models.items():
        twins.setdefault(model, []).append(key)
    return tuple(
        Device(key, Identity(*model, ordinal=twins[model].index(key), twins=len(twins[model])))
        for key, model in models.items()
    )


class SdlPedals:
    """Source of raw pedal readings from the axes that the pedals are bound to."""

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
        self._devices.close_others(found.ids.values())
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
        return Reading(self._clock(), *there)


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
