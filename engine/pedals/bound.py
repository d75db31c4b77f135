"""Which axis is which pedal: as it is played with, and as it is saved in the settings."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass
from typing import Any

from drills.calibration import Calibration, CalibrationError, Range
from drills.refusal import Refusal
from engine.pedals.identity import Identity, printable


class BindingError(Refusal):
    """A saved binding that cannot be used; the text is one line, without the place it is kept."""


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
    axis = _whole(entry["axis"], f"{where}.axis", 0, device.axes - 1)
    rest, full = (_raw(entry[end], f"{where}.{end}") for end in ("rest", "full"))
    try:
        return BoundAxis(device, axis, Range(rest, full))
    except CalibrationError as error:
        raise BindingError(f"{where}: {error}") from error


def _identity(data: object, where: str) -> Identity:
    entry = _object(data, where, ["guid", "name", "axes", "ordinal", "twins"])
    twins = _whole(entry["twins"], f"{where}.twins", 1)
    return Identity(
        guid=_text(entry["guid"], f"{where}.guid"),
        name=_text(entry["name"], f"{where}.name"),
        axes=_whole(entry["axes"], f"{where}.axes", 1),
        ordinal=_whole(entry["ordinal"], f"{where}.ordinal", 0, twins - 1),
        twins=twins,
    )


def _object(
    data: object, where: str, names: Sequence[str], optional: str | None = None
) -> Mapping[str, object]:
    expected = f"an object of {', '.join(names)}"
    if optional is not None:
        expected += f" and perhaps {optional}"
    if not isinstance(data, Mapping):
        raise _error(where, expected, _show(data))
    if not set(names) <= set(data) <= {*names, optional}:
        raise _error(where, expected, f"an object of {_cut(', '.join(data) or 'nothing')}")
    return data


def _text(value: object, where: str) -> str:
    if not isinstance(value, str):
        raise _error(where, "text", _show(value))
    return value


def _whole(value: object, where: str, low: int, high: int | None = None) -> int:
    if (
        not isinstance(value, int)
        or isinstance(value, bool)
        or value < low
        or (high is not None and value > high)
    ):
        limits = f"of at least {low}" if high is None else f"from {low} to {high}"
        raise _error(where, f"a whole number {limits}", _show(value))
    return value


def _raw(value: object, where: str) -> float:
    if not isinstance(value, int | float) or isinstance(value, bool) or not -1 <= value <= 1:
        raise _error(where, "a number from -1 to 1", _show(value))
    return float(value)


def _error(where: str, expected: str, found: str) -> BindingError:
    return BindingError(f"{where}: expected {expected}, found {found}")


def _show(value: object) -> str:
    return _cut(repr(value))


def _cut(text: str) -> str:
    line = printable(text)
    return line if len(line) <= 60 else line[:57] + "..."
