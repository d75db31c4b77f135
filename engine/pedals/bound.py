"""Binding of axes of devices to pedals, and its form in the settings."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass, replace
from typing import Any

from drills.calibration import Calibration, CalibrationError, Range
from drills.checks import Checks, ValueRefusal, cut, show
from engine.pedals.identity import Identity


class BindingError(ValueRefusal):
    """The saved binding of pedals is invalid; one line, without the name of the setting."""


_CHECKS = Checks(BindingError)


@dataclass(frozen=True)
class BoundAxis:
    """Axis that is bound to a pedal: its device, its index and its range."""

    device: Identity
    """Device that the axis is on."""
    axis: int
    """Index of the axis on the device, from 0."""
    range: Range
    """Raw values of the axis at both ends of the pedal's travel."""


@dataclass(frozen=True)
class Binding:
    """Axes of devices that the brake, the throttle and perhaps the clutch are read from."""

    brake: BoundAxis
    """Axis of the brake."""
    throttle: BoundAxis
    """Axis of the throttle."""
    clutch: BoundAxis | None = None
    """Axis of the clutch; None without one."""

    @property
    def pedals(self) -> tuple[BoundAxis, ...]:
        """Bound axes of brake, throttle and, if there is one, clutch, in this order."""
        two = (self.brake, self.throttle)
        return two if self.clutch is None else (*two, self.clutch)

    @property
    def guids(self) -> frozenset[str]:
        """GUIDs, as in Model, of the devices that the pedals are on."""
        return frozenset(pedal.device.guid for pedal in self.pedals)

    @property
    def calibration(self) -> Calibration:
        """Calibration of the bound pedals: the range of each."""
        clutch = None if self.clutch is None else self.clutch.range
        return Calibration(self.brake.range, self.throttle.range, clutch)

    def with_ends(self, ends: Calibration) -> Binding:
        """Same axes with other ranges; `ends` has those of the same pedals."""
        clutch = None
        if self.clutch is not None and ends.clutch is not None:
            clutch = replace(self.clutch, range=ends.clutch)
        brake = replace(self.brake, range=ends.brake)
        return Binding(brake, replace(self.throttle, range=ends.throttle), clutch)

    def as_data(self) -> dict[str, Any]:
        """Binding of pedals as plain data, to be saved."""
        pedals = zip(("brake", "throttle", "clutch"), self.pedals, strict=False)
        return {
            name: {
                "device": asdict(bound.device),
                "axis": bound.axis,
                "rest": bound.range.rest,
                "full": bound.range.full,
            }
            for name, bound in pedals
        }

    @classmethod
    def from_data(cls, data: object) -> Binding:
        """Binding of pedals from the data of `as_data`. Raises BindingError."""
        names = ["brake", "throttle"]
        pedals = _object(data, "binding", names, optional="clutch")
        bounds = {name: _bound(entry, f"binding.{name}") for name, entry in pedals.items()}
        return cls(bounds["brake"], bounds["throttle"], bounds.get("clutch"))


def _bound(data: object, where: str) -> BoundAxis:
    entry = _object(data, where, ["device", "axis", "rest", "full"])
    device = _identity(entry["device"], f"{where}.device")
    axis = _CHECKS.whole(f"{where}.axis", entry["axis"], 0, device.axes - 1)
    rest, full = (_CHECKS.number(f"{where}.{end}", entry[end], -1, 1) for end in ("rest", "full"))
    try:
        return BoundAxis(device, axis, Range(rest, full))
    except CalibrationError as error:
        raise BindingError(where, error.expected, error.found) from error


def _identity(data: object, where: str) -> Identity:
    entry = _object(data, where, ["guid", "name", "axes", "ordinal", "twins"])
    twins = _CHECKS.whole(f"{where}.twins", entry["twins"], 1)
    return Identity(
        guid=_CHECKS.text(f"{where}.guid", entry["guid"]),
        name=_CHECKS.text(f"{where}.name", entry["name"]),
        axes=_CHECKS.whole(f"{where}.axes", entry["axes"], 1),
        ordinal=_CHECKS.whole(f"{where}.ordinal", entry["ordinal"], 0, twins - 1),
        twins=twins,
    )


def _object(
    data: object, where: str, names: Sequence[str], optional: str | None = None
) -> Mapping[str, object]:
    expected = f"an object of {', '.join(names)}"
    if optional is not None:
        expected += f" and perhaps {optional}"
    if not isinstance(data, Mapping):
        raise BindingError(where, expected, show(data))
    if not set(names) <= set(data) <= {*names, optional}:
        found = f"an object of {cut(', '.join(data) or 'nothing')}"
        raise BindingError(where, expected, found)
    return data
