"""Identity of a device, and the search for known devices among those that are plugged in."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import Enum
from typing import NamedTuple

UNNAMED = "unnamed device"
"""Name shown for a device whose own name is blank."""
NAME_LONGEST = 40
"""Longest part of a device's name that is shown, in characters; a longer one fits on no line."""


class Axis(NamedTuple):
    """Axis of a device, as long as the device stays plugged in."""

    device: int
    """SDL's instance id of the device."""
    axis: int
    """Index of the axis on the device, from 0."""


class DeviceButton(NamedTuple):
    """Button of a device, as long as the device stays plugged in."""

    device: int
    """SDL's instance id of the device."""
    button: int
    """Index of the button on the device, from 0."""


class Model(NamedTuple):
    """Model of a device as SDL reports it; devices of the same model are twins."""

    guid: str
    """SDL's joystick GUID without characters 4 to 8, which differ between SDL versions."""
    name: str
    """Name that the device reports, with unprintable characters escaped."""
    axes: int
    """Number of axes of the device."""


@dataclass(frozen=True)
class Identity:
    """Identity of a device that stays the same from one day to the next."""

    guid: str
    """SDL's joystick GUID of the device, as in Model."""
    name: str
    """Name of the device, as in Model."""
    axes: int
    """Number of axes of the device, as in Model."""
    ordinal: int
    """Place of the device among its twins in the order that SDL lists them, from 0."""
    twins: int
    """Number of devices of the same model, this one included."""

    @property
    def model(self) -> Model:
        """Model of the device, which it shares with its twins."""
        return Model(self.guid, self.name, self.axes)

    def called(self, axis: int) -> str:
        """Name for the player of one axis of the device, by the index of the axis from 0."""
        return f"axis {axis + 1} of {self._shown}"

    def called_button(self, button: int) -> str:
        """Name for the player of one button of the device, by the button's index from 0."""
        return f"button {button + 1} of {self._shown}"

    @property
    def _shown(self) -> str:
        twin = f", number {self.ordinal + 1}" if self.twins > 1 else ""
        return f"{short_name(self.name)}{twin}"


@dataclass(frozen=True)
class Device:
    """Joystick device that is plugged in, such as a set of pedals or a wheel."""

    id: int
    """SDL's instance id of the device, which is new each time it is plugged in."""
    identity: Identity
    """Identity of the device, which stays the same when it is plugged in again."""


class Changes(NamedTuple):
    """Devices that came and went between two rescans; one that left and came back is in both."""

    added: tuple[Device, ...]
    """Devices that were plugged in since the last rescan."""
    lost: tuple[Device, ...]
    """Devices that were unplugged since the last rescan."""


class Missing(Enum):
    """Reason why the devices that pedals are bound to cannot be used."""

    ABSENT = "absent"
    """At least one bound device is not plugged in."""
    AMBIGUOUS = "ambiguous"
    """Bound devices may be plugged in, but cannot be told apart from their twins."""


@dataclass(frozen=True)
class Connection:
    """Result of matching the devices that pedals are bound to with those plugged in."""

    ids: Mapping[Identity, int]
    """SDL's instance id of each device that a pedal is bound to."""
    strangers: tuple[Device, ...]
    """Twins of bound devices that no pedal is bound to; an unplugged one is listed until another
    one comes."""


def short_guid(guid: str) -> str:
    """GUID as in Model, of the 32 hexadecimal digits that SDL reports.

    The digits left out are a checksum of the name that differs between SDL versions.
    """
    return guid[:4] + guid[8:]


def short_name(name: str) -> str:
    """Name of a device, cut where it is longer than NAME_LONGEST."""
    return name if len(name) <= NAME_LONGEST else f"{name[: NAME_LONGEST - 3]}..."


def printable(name: str) -> str:
    """Name of a device on one line, with characters that are not printable written as escapes."""
    escaped = "".join(
        letter if letter.isprintable() else letter.encode("unicode_escape").decode()
        for letter in name
    )
    return escaped if escaped.strip() else UNNAMED


def changes_between(before: Iterable[Device], after: Iterable[Device]) -> Changes:
    """Devices that came and went between two lists."""
    there, here = ({device.id for device in devices} for devices in (before, after))
    return Changes(
        added=tuple(device for device in after if device.id not in there),
        lost=tuple(device for device in before if device.id not in here),
    )


def identified(models: dict[int, Model]) -> tuple[Device, ...]:
    """Devices with their identities, from the model of each instance id in SDL's order."""
    twins: dict[Model, list[int]] = {}
    for key, model in models.items():
        twins.setdefault(model, []).append(key)
    return tuple(
        Device(key, Identity(*model, ordinal=twins[model].index(key), twins=len(twins[model])))
        for key, model in models.items()
    )


def match(
    bound: Collection[Identity], plugged: Sequence[Device], before: Connection | None
) -> Connection | Missing:
    """Find the devices that pedals are bound to among those plugged in.

    `bound` has one device per pedal, `plugged` all devices in SDL's order. The first time, with
    `before` None, twins are told apart by their place in that order. Later the order differs, as a
    device that is plugged in again comes last: devices that are still there keep their ids, and a
    lost device is the newcomer of its model, if no other twin can be that newcomer.
    """
    ids: dict[Identity, int] = {}
    strangers: list[Device] = []
    missing: set[Missing] = set()
    for model in dict.fromkeys(identity.model for identity in bound):
        ours = [identity for identity in dict.fromkeys(bound) if identity.model == model]
        twins = [device for device in plugged if device.identity.model == model]
        if before is None:
            others: list[Device] = []
            matched = _match_first(ours, twins)
        else:
            others = [device for device in before.strangers if device.identity.model == model]
            matched = _match_later(ours, twins, before.ids, others)
        if isinstance(matched, Missing):
            missing.add(matched)
            continue
        ids |= matched
        strangers += _strangers(matched, twins, others)
    for trouble in (Missing.ABSENT, Missing.AMBIGUOUS):
        if trouble in missing:
            return trouble
    return Connection(ids, tuple(strangers))


def _match_first(
    ours: Sequence[Identity], twins: Sequence[Device]
) -> dict[Identity, int] | Missing:
    """Instance ids of the bound devices of one model, by their places among its twins."""
    if not twins:
        return Missing.ABSENT
    if any(identity.twins != len(twins) for identity in ours):
        return Missing.AMBIGUOUS
    return {identity: twins[identity.ordinal].id for identity in ours}


def _match_later(
    ours: Sequence[Identity],
    twins: Sequence[Device],
    before: Mapping[Identity, int],
    strangers: Sequence[Device],
) -> dict[Identity, int] | Missing:
    """Instance ids of the bound devices of one model, from those before and its other twins."""
    here = {device.id for device in twins}
    still = {identity: before[identity] for identity in ours if before[identity] in here}
    lost = [identity for identity in ours if identity not in still]
    seen_before = {*still.values(), *(device.id for device in strangers)}
    newcomers = [device.id for device in twins if device.id not in seen_before]
    if not lost:
        return still
    if len(newcomers) < len(lost):
        return Missing.ABSENT
    if len(newcomers) > 1 or any(device.id not in here for device in strangers):
        return Missing.AMBIGUOUS
    return still | {lost[0]: newcomers[0]}


def _strangers(
    matched: Mapping[Identity, int], twins: Sequence[Device], before: Sequence[Device]
) -> list[Device]:
    """Twins that no pedal is bound to, plugged in or not; a newcomer replaces an unplugged one."""
    here = [device for device in twins if device.id not in matched.values()]
    gone = [device for device in before if device.id not in {twin.id for twin in twins}]
    newcomers = {device.id for device in here} - {device.id for device in before}
    return here + gone[len(newcomers) :]
