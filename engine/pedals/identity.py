"""Which axis is which pedal, as it is saved, and how its device is told apart from others."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, NamedTuple

from engine.pedals.calibration import Calibration, Range


@dataclass(frozen=True)
class Identity:
    """A device as it can be told apart from others, on another day and after replugging."""

    guid: str
    """SDL's joystick GUID without characters 4 to 8, which differ between SDL versions."""
    name: str
    """What the device calls itself."""
    axes: int
    """count of its axes."""
    ordinal: int
    """Its place among devices that are the same in all of the above, from 0."""
    twins: int
    """count of devices the same in all of the above, itself included."""


class Axis(NamedTuple):
    """One axis of one device that is plugged in."""

    device: int
    """SDL's instance id."""
    axis: int
    """index of the axis on the device."""


@dataclass(frozen=True)
class BoundAxis:
    """One pedal: the axis that carries it and its two ends."""

    device: Identity
    """The device it is on."""
    axis: int
    """index of the axis on the device."""
    range: Range
    """Its ends."""


@dataclass(frozen=True)
class Binding:
    """The pedals of a rig."""

    brake: BoundAxis
    """The brake."""
    throttle: BoundAxis
    """The throttle."""
    clutch: BoundAxis | None = None
    """The clutch; None where there is none."""

    @property
    def calibration(self) -> Calibration:
        """The range of each pedal."""
        clutch = None if self.clutch is None else self.clutch.range
        return Calibration(self.brake.range, self.throttle.range, clutch)

    def as_data(self) -> dict[str, Any]:
        """This binding as plain data for the settings; `from_data` gives it back."""
        pedals = {"brake": self.brake, "throttle": self.throttle, "clutch": self.clutch}
        return {
            name: {
                "device": vars(bound.device),
                "axis": bound.axis,
                "rest": bound.range.rest,
                "full": bound.range.full,
            }
            for name, bound in pedals.items()
            if bound is not None
        }

    @classmethod
    def from_data(cls, data: Mapping[str, Any]) -> Binding:
        """The binding that `as_data` was taken of."""
        bounds = {
            name: BoundAxis(
                Identity(**entry["device"]), entry["axis"], Range(entry["rest"], entry["full"])
            )
            for name, entry in data.items()
        }
        return cls(bounds["brake"], bounds["throttle"], bounds.get("clutch"))
