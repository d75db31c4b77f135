"""Rigs of a player: the pedals of each, its calibration, and which of them are plugged in."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from engine.pedals.bound import Binding
from engine.pedals.identity import short_name
from engine.pedals.rig import Rig

NAME_LONGEST = 20
"""Longest name of a rig, in characters."""
NOTE_LONGEST = 60
"""Longest note on a rig's spacing and shoes, in characters."""
SUGGESTED = ("home", "travel")
"""Names offered for a rig, so that it can be named without a keyboard."""
UNNAMED = "no name yet"
"""Words for a rig that was not given a name."""


@dataclass(frozen=True)
class NamedRig:
    """Pedals that were set up in one place, with their calibration."""

    number: int
    """Number of the rig in the history."""
    name: str
    """Name that the player gave the rig; empty for none."""
    note: str
    """Note of the player on the spacing of the pedals and the shoes; empty for none."""
    binding: Binding
    """Axes of the devices that the pedals are read from, with their ends."""

    @property
    def label(self) -> str:
        """Name of the rig as menus show it."""
        return self.name or UNNAMED

    @property
    def about(self) -> str:
        """What tells the rig from others: the note on it, else the devices it is made of."""
        names = dict.fromkeys(pedal.device.name for pedal in self.binding.pedals)
        return self.note or short_name(" and ".join(names))


def is_plugged(binding: Binding, plugged: Mapping[str, int]) -> bool:
    """Whether enough devices are plugged in for the pedals of a rig.

    `plugged` is how many there are, by GUID as in Model.
    """
    devices = {pedal.device for pedal in binding.pedals}
    needed = [device.guid for device in devices]
    return all(plugged.get(guid, 0) >= needed.count(guid) for guid in needed)


def are_models_plugged(saved: NamedRig, rig: Rig) -> bool:
    """Whether a device of every model of a rig is plugged in, though perhaps not each device."""
    plugged = {} if rig.devices is None else rig.devices.counts()
    return saved.binding.guids <= set(plugged)


def fitting(rigs: Sequence[NamedRig], rig: Rig) -> list[NamedRig]:
    """Those of some rigs whose devices are plugged in, none of them opened for it."""
    plugged = {} if rig.devices is None else rig.devices.counts()
    return [saved for saved in rigs if is_plugged(saved.binding, plugged)]


def rigs_words(rigs: Sequence[NamedRig], used: int | None) -> str:
    """Rig that is played with, by its number, and how many there are, in a few words."""
    if len(rigs) < 2:
        return "each with its own calibration"
    names = [saved.label for saved in rigs if saved.number == used]
    return ", ".join([*names, f"{len(rigs)} in all"])


def why_not_named(name: str, rigs: Sequence[NamedRig]) -> str:
    """Why a rig cannot have a name beside other rigs; empty where it can."""
    if not name.strip():
        return "A second rig needs a name of its own."
    if any(name.strip().casefold() == other.name.casefold() for other in rigs):
        return f"There is a rig called {name.strip()} already."
    return ""
