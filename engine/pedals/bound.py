"""Which axis is which pedal: as it is played with, and as it is saved in the settings."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass
from typing import Any

from drills.calibration import Calibration, CalibrationError, Range
from drills.checks import Checks, ValueRefusal, cut, show
from engine.pedals.identity import Identity


class BindingError(ValueRefusal):
    """A saved binding that cannot be used; the text is one line, without the place it is kept."""


_CHECKS = Checks(BindingError)


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
    def pedals(self) -> tuple[BoundAxis, ...]:
        """Brake, throttle and, where there is one, clutch."""
        two = (self.brake, self.throttle)
        return two if self.clutch is None else (*two, self.clutch)

    @property
    def calibration(self) -> Calibration:
        """The range of each pedal."""
        clutch = None if self.clutch is None else self.clutch.range
        return Calibration(self.brake.range, self.throttle.range, clutch)

    def as_data(self) -> dict[str, Any]:
        """This binding as plain data for the settings; `from_data` gives it back."""
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
        """The binding that `as_data` was taken of. Raises BindingError for anything else."""
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
