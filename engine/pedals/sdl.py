"""Pedals on SDL joystick devices: finding them, following plugs and unplugs, reading bound axes."""

from __future__ import annotations

import contextlib
from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum

import pygame

from engine.pedals.identity import Axis, Binding, BoundAxis, Identity
from engine.pedals.port import Clock, Reading


@dataclass(frozen=True)
class Device:
    """A joystick that is plugged in."""

    id: int
    """SDL's instance id: new at every plugging."""
    identity: Identity
    """What it can be told apart by."""


class Missing(Enum):
    """Why a saved device has no plugged one."""

    ABSENT = "absent"
    AMBIGUOUS = "ambiguous"


class Devices:
    """The joysticks plugged in now, keyed by instance id.

    pygame closes a device whose object is collected, so objects are kept while they are needed.
    """

    def __init__(self) -> None:
        self._open: dict[int, pygame.joystick.JoystickType] = {}
        self._known: dict[int, Identity] = {}

    @property
    def plugged(self) -> list[Device]:
        """Every device, in the order SDL lists them."""
        return [Device(key, identity) for key, identity in self._known.items()]

    def rescan(self) -> tuple[list[Device], list[Device]]:
        """Look at every index anew; the devices added and those lost since the last look.

        A device is opened to learn its identity; `keep` closes those that are not bound.
        """
        before = self._known
        found: dict[int, pygame.joystick.JoystickType] = {}
        for index in range(pygame.joystick.get_count()):
            with contextlib.suppress(pygame.error):
                joystick = pygame.joystick.Joystick(index)
                joystick.init()
                found[joystick.get_instance_id()] = joystick
        self._open = found
        self._known = _identities(found)
        added = [device for device in self.plugged if device.id not in before]
        lost = [Device(key, name) for key, name in before.items() if key not in self._known]
        return added, lost

    def lose(self, instance: int) -> Device | None:
        """Forget a device that SDL says is gone."""
        identity = self._known.pop(instance, None)
        self._open.pop(instance, None)
        return None if identity is None else Device(instance, identity)

    def keep(self, instances: Iterable[int]) -> None:
        """Close every device but these: an open one may hold a force-feedback motor."""
        wanted = set(instances)
        for key in [key for key in self._open if key not in wanted]:
            self._open.pop(key).quit()

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

    def has(self, instance: int) -> bool:
        """Whether a device is plugged in."""
        return instance in self._known

    def identity(self, instance: int) -> Identity:
        """The identity of a plugged device. Raises KeyError where it is not there."""
        return self._known[instance]

    def find(self, wanted: Identity) -> int | Missing:
        """The instance id of a saved device."""
        alike = [
            device
            for device in self.plugged
            if (device.identity.guid, device.identity.name, device.identity.axes)
            == (wanted.guid, wanted.name, wanted.axes)
        ]
        if not alike:
            return Missing.ABSENT
        if len(alike) != wanted.twins:
            return Missing.AMBIGUOUS
        return alike[wanted.ordinal].id


def _identities(found: dict[int, pygame.joystick.JoystickType]) -> dict[int, Identity]:
    marks = {
        key: (_mask(joystick.get_guid()), joystick.get_name(), joystick.get_numaxes())
        for key, joystick in found.items()
    }
    alike: dict[tuple[str, str, int], list[int]] = {}
    for key, mark in marks.items():
        alike.setdefault(mark, []).append(key)
    return {
        key: Identity(*mark, ordinal=alike[mark].index(key), twins=len(alike[mark]))
        for key, mark in marks.items()
    }


def _mask(guid: str) -> str:
    """A GUID without the checksum of the name, which differs between SDL versions."""
    return guid[:4] + guid[8:]


class SdlPedals:
    """Raw readings of the bound axes."""

    name = "pedals"
    is_feet = True

    def __init__(self, devices: Devices, binding: Binding, clock: Clock) -> None:
        self._devices = devices
        self._binding = binding
        self._clock = clock
        self._pedals: list[_Pedal] = []

    def connect(self) -> Missing | None:
        """Look the bound devices up among those plugged in; what stands in the way, if anything.

        Devices that are connected and still there stay, whatever else came or went.
        """
        if self._pedals and all(self._devices.has(pedal.axis.device) for pedal in self._pedals):
            self._devices.keep(pedal.axis.device for pedal in self._pedals)
            return None
        self._pedals = []
        bound = [self._binding.brake, self._binding.throttle]
        if self._binding.clutch is not None:
            bound.append(self._binding.clutch)
        pedals = []
        for pedal in bound:
            device = self._devices.find(pedal.device)
            if isinstance(device, Missing):
                return device
            pedals.append(_Pedal(Axis(device, pedal.axis), pedal))
        self._devices.keep(pedal.axis.device for pedal in pedals)
        self._pedals = pedals
        return None

    def read(self) -> Reading | None:
        """The bound axes now, or None while any of their devices is not there."""
        values = [pedal.value(self._devices) for pedal in self._pedals]
        now = self._clock()
        if not values or None in values:
            return None
        brake, throttle, *clutch = [value for value in values if value is not None]
        return Reading(now, brake, throttle, clutch[0] if clutch else None)


class _Pedal:
    """One bound axis. Until it first moves it may read 0.0 whatever the pedal does: take rest."""

    def __init__(self, axis: Axis, bound: BoundAxis) -> None:
        self.axis = axis
        self._rest = bound.range.rest
        self._seen = False

    def value(self, devices: Devices) -> float | None:
        value = devices.value(self.axis)
        if value is None or self._seen:
            return value
        self._seen = value != 0.0
        return value if self._seen else self._rest
