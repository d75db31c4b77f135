"""How a device is told apart from others, and found again among those that are plugged in."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from enum import Enum
from typing import NamedTuple

UNNAMED = "unnamed device"
"""What a device is called whose name is blank."""


NAME_LONGEST = 40
"""characters of a name that are shown: more do not fit into a line."""


class Axis(NamedTuple):
    """One axis of one device that is plugged in."""

    device: int
    """SDL's instance id."""
    axis: int
    """index of the axis on the device."""


class Model(NamedTuple):
    """What all devices of one model share; such devices are twins."""

    guid: str
    """SDL's joystick GUID without characters 4 to 8, which differ between SDL versions."""
    name: str
    """What the device calls itself, made printable."""
    axes: int
    """count of its axes."""


@dataclass(frozen=True)
class Identity:
    """A device as it can be told apart from others on another day."""

    guid: str
    """As in Model."""
    name: str
    """As in Model."""
    axes: int
    """As in Model."""
    ordinal: int
    """Its place among its twins in the order SDL lists them, from 0."""
    twins: int
    """count of devices of its model, itself included."""

    @property
    def model(self) -> Model:
        """What it shares with its twins."""
        return Model(self.guid, self.name, self.axes)

    def called(self, axis: int) -> str:
        """What a person calls the axis of an index on it."""
        name = (
            self.name if len(self.name) <= NAME_LONGEST else f"{self.name[: NAME_LONGEST - 3]}..."
        )
        twin = f", number {self.ordinal + 1}" if self.twins > 1 else ""
        return f"axis {axis + 1} of {name}{twin}"


@dataclass(frozen=True)
class Device:
    """A joystick that is plugged in."""

    id: int
    """SDL's instance id: new at every plugging."""
    identity: Identity
    """What it can be told apart by."""


class Changes(NamedTuple):
    """What came and went between two looks; a device lost and back within one is in both."""

    added: tuple[Device, ...]
    """Those that were not there before."""
    lost: tuple[Device, ...]
    """Those that are no longer there."""


class Missing(Enum):
    """Why bound devices have no plugged ones."""

    ABSENT = "absent"
    """One at least is not plugged in."""
    AMBIGUOUS = "ambiguous"
    """They may be plugged in, but which is which cannot be told."""


@dataclass(frozen=True)
class Connection:
    """Which plugged device each bound one is, and which twins are not ours."""

    ids: Mapping[Identity, int]
    """SDL's instance id of each bound device."""
    strangers: tuple[Device, ...]
    """Twins of bound devices that are not bound; one that was unplugged stays until some twin
    comes that is not ours."""


def printable(name: str) -> str:
    """A name that can be shown in one line: what is not printable is written as an escape."""
    shown = "".join(
        one if one.isprintable() else one.encode("unicode_escape").decode() for one in name
    )
    return shown if shown.strip() else UNNAMED


def match(
    bound: Collection[Identity], plugged: Sequence[Device], before: Connection | None
) -> Connection | Missing:
    """Find the bound devices, one for each pedal, among those plugged in, as SDL lists them.

    At first (`before` is None) twins are told apart by their place in that order. Later the order
    has moved, as a replugged device comes last: what is still there stays, and a lost device is
    the one newcomer of its model. Told apart only if no other twin can be that newcomer.
    """
    ids: dict[Identity, int] = {}
    strangers: list[Device] = []
    missing: set[Missing] = set()
    for model in dict.fromkeys(identity.model for identity in bound):
        ours = [identity for identity in dict.fromkeys(bound) if identity.model == model]
        twins = [device for device in plugged if device.identity.model == model]
        known = [] if before is None else [d for d in before.strangers if d.identity.model == model]
        found = _first(ours, twins) if before is None else _again(ours, twins, before.ids, known)
        if isinstance(found, Missing):
            missing.add(found)
            continue
        ids |= found
        strangers += _strangers(found, twins, known)
    for trouble in (Missing.ABSENT, Missing.AMBIGUOUS):
        if trouble in missing:
            return trouble
    return Connection(ids, tuple(strangers))


def _first(ours: Sequence[Identity], twins: Sequence[Device]) -> dict[Identity, int] | Missing:
    if not twins:
        return Missing.ABSENT
    if any(identity.twins != len(twins) for identity in ours):
        return Missing.AMBIGUOUS
    return {identity: twins[identity.ordinal].id for identity in ours}


def _again(
    ours: Sequence[Identity],
    twins: Sequence[Device],
    before: Mapping[Identity, int],
    strangers: Sequence[Device],
) -> dict[Identity, int] | Missing:
    here = {device.id for device in twins}
    still = {identity: before[identity] for identity in ours if before[identity] in here}
    lost = [identity for identity in ours if identity not in still]
    known = {*still.values(), *(device.id for device in strangers)}
    newcomers = [device.id for device in twins if device.id not in known]
    if not lost:
        return still
    if len(newcomers) < len(lost):
        return Missing.ABSENT
    if len(newcomers) > 1 or any(device.id not in here for device in strangers):
        return Missing.AMBIGUOUS
    return still | {lost[0]: newcomers[0]}


def _strangers(
    found: Mapping[Identity, int], twins: Sequence[Device], known: Sequence[Device]
) -> list[Device]:
    """The twins that are not ours, with those unplugged that no newcomer stands for."""
    here = [device for device in twins if device.id not in found.values()]
    gone = [device for device in known if device.id not in {twin.id for twin in twins}]
    newcomers = {device.id for device in here} - {device.id for device in known}
    return here + gone[len(newcomers) :]
