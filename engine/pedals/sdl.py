"""Pedals on SDL joystick devices: following plugs and unplugs, reading bound axes."""

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
    """One opened device, as pygame gives it: closed when it is collected.

    What fails raises pygame.error.
    """

    def get_instance_id(self) -> int:
        """A number that no other plugging has."""

    def get_guid(self) -> str:
        """32 hexadecimal digits that the devices of one model share."""

    def get_name(self) -> str:
        """What it calls itself. Raises UnicodeDecodeError where that is not UTF-8."""

    def get_numaxes(self) -> int:
        """The count of its axes."""

    def get_numbuttons(self) -> int:
        """The count of its buttons."""

    def get_axis(self, axis_number: int, /) -> float:
        """What an axis read at the last pump, -1 to 1."""


class Joysticks(Protocol):
    """The part of the module pygame.joystick that is used."""

    def get_count(self) -> int:
        """The count of devices plugged in."""

    def Joystick(self, index: int, /) -> Joystick:  # noqa: N802 (pygame's name)
        """Open the device at a place of the list; places move as devices come and go."""


BUTTONS_LEAST = 3
"""count of buttons it takes to go on, along and back."""


class Devices:
    """The joysticks plugged in now, keyed by instance id.

    pygame closes a device whose object is collected, so objects are kept as long as needed.
    """

    def __init__(self, joystick: Joysticks = pygame.joystick, *, choosing: bool = True) -> None:
        """`choosing`: whether the buttons of wheels are heard."""
        self._choosing = choosing
        self._joystick = joystick
        self._open: dict[int, Joystick] = {}
        self._plugged: tuple[Device, ...] = ()

    @property
    def plugged(self) -> tuple[Device, ...]:
        """Every device, in the order SDL lists them."""
        return self._plugged

    @property
    def has_buttons(self) -> bool:
        """Whether a device with buttons to choose by is open."""
        return any(one.get_numbuttons() >= BUTTONS_LEAST for one in self._open.values())

    def rescan(self) -> Changes:
        """Look at every place of the list anew; what came and went since the last look.

        A device is opened to learn what it is; one that cannot be opened is left out.
        """
        before = self._plugged
        opened: dict[int, Joystick] = {}
        models: dict[int, Model] = {}
        for index in range(self._joystick.get_count()):
            with contextlib.suppress(pygame.error):
                joystick = self._joystick.Joystick(index)
                key, model = joystick.get_instance_id(), _model(joystick)
                opened[key], models[key] = joystick, model
        self._open, self._plugged = opened, _told_apart(models)
        here, there = ({device.id for device in devices} for devices in (self._plugged, before))
        return Changes(
            added=tuple(device for device in self._plugged if device.id not in there),
            lost=tuple(device for device in before if device.id not in here),
        )

    def keep(self, instances: Iterable[int]) -> None:
        """Close every device but these, and but those with buttons where they are heard.

        The buttons of a wheel choose in menus, and a closed device tells none. The price is that
        an open wheel may hold its motor. pygame counts how often a device was opened and closes
        it once, so one that was open at a rescan stays open in SDL.
        """
        wanted = set(instances)
        self._open = {
            key: joystick
            for key, joystick in self._open.items()
            if key in wanted or (self._choosing and joystick.get_numbuttons() > 0)
        }

    def values(self) -> dict[Axis, float]:
        """What every axis of every open device reads."""
        return {
            Axis(key, axis): joystick.get_axis(axis)
            for key, joystick in self._open.items()
            for axis in range(joystick.get_numaxes())
        }

    def value(self, axis: Axis) -> float | None:
        """What one axis reads; None where its device is not there."""
        joystick = self._open.get(axis.device)
        return None if joystick is None else joystick.get_axis(axis.axis)

    def identity(self, instance: int) -> Identity | None:
        """What a device can be told apart by; None where it is not there."""
        return next((one.identity for one in self._plugged if one.id == instance), None)


def _model(joystick: Joystick) -> Model:
    guid = joystick.get_guid()
    # The digits left out are a checksum of the name, which differs between SDL versions.
    return Model(guid[:4] + guid[8:], _name(joystick), joystick.get_numaxes())


def _name(joystick: Joystick) -> str:
    try:
        return printable(joystick.get_name())
    except UnicodeDecodeError as error:
        return printable(error.object.decode(errors="backslashreplace"))


def _told_apart(models: dict[int, Model]) -> tuple[Device, ...]:
    """Devices by their place among twins."""
    twins: dict[Model, list[int]] = {}
    for key, model in models.items():
        twins.setdefault(model, []).append(key)
    return tuple(
        Device(key, Identity(*model, ordinal=twins[model].index(key), twins=len(twins[model])))
        for key, model in models.items()
    )


class SdlPedals:
    """Raw readings of the bound axes."""

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
        self._held: set[int] = set()

    def connect(self) -> Missing | None:
        """Find the bound devices among those plugged in; what stands in the way, if anything.

        To be called after every rescan that changed anything, so that a stranger is known for one.
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
        self._held.update(found.ids.values())
        self._devices.keep(found.ids.values())
        return None

    @property
    def axes(self) -> tuple[Axis, ...]:
        """Where brake, throttle and, where there is one, clutch were last found."""
        return tuple(pedal.axis for pedal in self._pedals)

    def lost(self, changes: Changes) -> bool:
        """Whether a device that pedals were read from is among the lost, be it back or not.

        Instance ids are never used again, so it may be asked before or after connecting anew.
        """
        return any(device.id in self._held for device in changes.lost)

    def read(self) -> Reading | None:
        """The bound axes now, or None while any of their devices is not there."""
        values = [pedal.value(self._devices) for pedal in self._pedals]
        there = [value for value in values if value is not None]
        if not there or len(there) < len(values):
            return None
        return Reading(self._clock(), *there)


class _Pedal:
    """One bound axis. Once opened it may read 0.0 until it first moves: take rest."""

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
