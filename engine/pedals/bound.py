"""Binding of axes of devices to pedals and of a button to the shift, and its saved form."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass, field, replace
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
class BoundButton:
    """Button that is bound to the downshift: a paddle, a lever or a gate of a shifter."""

    device: Identity
    """Device that the button is on, which need not have any axes."""
    button: int
    """Index of the button on the device, from 0."""

    @property
    def words(self) -> str:
        """Name of the button for the player."""
        return self.device.called_button(self.button)


@dataclass(frozen=True)
class Binding:
    """Axes that brake, throttle and perhaps clutch are read from, and perhaps a shift button."""

    brake: BoundAxis
    """Axis of the brake."""
    throttle: BoundAxis
    """Axis of the throttle."""
    clutch: BoundAxis | None = None
    """Axis of the clutch; None without one."""
    shift: BoundButton | None = field(default=None, kw_only=True)
    """Button of the downshift; None without one."""

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
    def device_guids(self) -> frozenset[str]:
        """GUIDs, as in Model, of all devices to open: those of the pedals and the shift button."""
        return self.guids if self.shift is None else self.guids | {self.shift.device.guid}

    @property
    def calibration(self) -> Calibration:
        """Calibration of the bound pedals: the range of each."""
        clutch = None if self.clutch is None else self.clutch.range
        return Calibration(self.brake.range, self.throttle.range, clutch)

    def with_ends(self, ends: Calibration) -> Binding:
        """Same axes and shift button with other ranges; `ends` has those of the same pedals."""
        clutch = None
        if self.clutch is not None and ends.clutch is not None:
            clutch = replace(self.clutch, range=ends.clutch)
        brake = replace(self.brake, range=ends.brake)
        throttle = replace(self.throttle, range=ends.throttle)
        return replace(self, brake=brake, throttle=throttle, clutch=clutch)

    def as_data(self) -> dict[str, Any]:
        """Binding of pedals as plain data, to be saved."""
        pedals = zip(("brake", "throttle", "clutch"), self.pedals, strict=False)
        data: dict[str, Any] = {
            name: {
                "device": asdict(bound.device),
                "axis": bound.axis,
                "rest": bound.range.rest,
                "full": bound.range.full,
            }
            for name, bound in pedals
        }
        if self.shift is not None:
            data["shift"] = asdict(self.shift)
        return data

    @classmethod
    def from_data(cls, data: object) -> Binding:
        """Binding of pedals from the data of `as_data`. Raises BindingError."""
        names = ["brake", "throttle"]
        entries = dict(_object(data, "binding", names, optional=("clutch", "shift")))
        shift = _button(entries.pop("shift"), "binding.shift") if "shift" in entries else None
        bounds = {name: _bound(entry, f"binding.{name}") for name, entry in entries.items()}
        return cls(bounds["brake"], bounds["throttle"], bounds.get("clutch"), shift=shift)


def _bound(data: object, where: str) -> BoundAxis:
    entry = _object(data, where, ["device", "axis", "rest", "full"])
    device = _identity(entry["device"], f"{where}.device")
    axis = _CHECKS.whole(f"{where}.axis", entry["axis"], 0, device.axes - 1)
    rest, full = (_CHECKS.number(f"{where}.{end}", entry[end], -1, 1) for end in ("rest", "full"))
    try:
        return BoundAxis(device, axis, Range(rest, full))
    except CalibrationError as error:
        raise BindingError(where, error.expected, error.found) from error


def _button(data: object, where: str) -> BoundButton:
    entry = _object(data, where, ["device", "button"])
    device = _identity(entry["device"], f"{where}.device", axes_least=0)
    return BoundButton(device, _CHECKS.whole(f"{where}.button", entry["button"], 0))


def _identity(data: object, where: str, axes_least: int = 1) -> Identity:
    entry = _object(data, where, ["guid", "name", "axes", "ordinal", "twins"])
    twins = _CHECKS.whole(f"{where}.twins", entry["twins"], 1)
    return Identity(
        guid=_CHECKS.text(f"{where}.guid", entry["guid"]),
        name=_CHECKS.text(f"{where}.name", entry["name"]),
        axes=_CHECKS.whole(f"{where}.axes", entry["axes"], axes_least),
        ordinal=_CHECKS.whole(f"{where}.ordinal", entry["ordinal"], 0, twins - 1),
        twins=twins,
    )


def _object(
    data: object, where: str, names: Sequence[str], optional: Sequence[str] = ()
) -> Mapping[str, object]:
    expected = f"an object of {', '.join(names)}"
    if optional:
        expected += f" and perhaps {' or '.join(optional)}"
    if not isinstance(data, Mapping):
        raise BindingError(where, expected, show(data))
    if not set(names) <= set(data) <= {*names, *optional}:
        found = f"an object of {cut(', '.join(data) or 'nothing')}"
        raise BindingError(where, expected, found)
    return data
