"""Health of pedals as the history keeps it: for each axis of a device, whatever its calibration."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from drills.calibration import COUNTS
from drills.checks import Checks, ValueRefusal, show
from drills.health.luck import Hardware, luck
from drills.health.pedal import BoundPedal, PedalHealth
from drills.level import Level
from drills.trace import Pedal
from engine.pedals.bound import Binding, BoundAxis
from engine.setup.saved_rigs import saved_binding
from engine.store import History, StoreError

HEALTH = "health"
"""Key of the setting for the health of pedals: by device and axis, `step` and `noise` in axis
counts and `interval` between reports in s. In counts it outlives a new calibration."""
FIELDS = ("step", "noise", "interval")
"""Keys of the health of one axis."""
MOST = 2.0 * COUNTS
"""Largest step or noise of an axis, in counts: the whole axis."""
LONGEST = 10.0
"""Longest time between reports, in s."""


class _SettingError(ValueRefusal):
    """A saved setting that is invalid; one line without the name of the history."""


_CHECKS = Checks(_SettingError)


def pedals_of(binding: Binding) -> tuple[BoundPedal, ...]:
    """Pedals of a binding, to check their health."""
    return tuple(
        BoundPedal(pedal, bound.device.name, bound.axis, bound.range)
        for pedal, bound in zip(Pedal, binding.pedals, strict=False)
    )


def keep_health(history: History, binding: Binding, healths: Iterable[PedalHealth]) -> None:
    """Save the health of the pedals of a binding, where their steps and reports are known.

    Raises StoreError.
    """
    saved = _saved(history)
    by_pedal = {health.pedal: health for health in healths}
    for bound, axis in zip(pedals_of(binding), binding.pedals, strict=True):
        health = by_pedal.get(bound.pedal)
        if health is None or health.step is None or health.timing is None:
            continue
        point = bound.span / 100
        amounts = (health.step * point, (health.noise or 0.0) * point, health.timing.interval)
        saved[_key(axis)] = dict(zip(FIELDS, amounts, strict=True))
    history.keep_setting(HEALTH, saved)


def saved_hardware(history: History) -> Hardware | None:
    """What the saved pedals can show, as last checked; None if they never were.

    Raises StoreError if a saved setting is invalid.
    """
    binding = saved_binding(history)
    if binding is None:
        return None
    saved, two = _saved(history), (binding.brake, binding.throttle)
    if any(_key(axis) not in saved for axis in two):
        return None
    brake, throttle = (saved[_key(axis)] for axis in two)
    point = pedals_of(binding)[0].span / 100
    interval = max(brake["interval"], throttle["interval"])
    return Hardware(brake["step"] / point, brake["noise"] / point, interval)


def saved_luck(history: History, levels: Sequence[Level]) -> frozenset[str]:
    """Ids of the levels that are partly luck with the saved pedals. Raises StoreError."""
    return luck(levels, saved_hardware(history))


def _saved(history: History) -> dict[str, dict[str, float]]:
    """Saved health of each axis. Raises StoreError if it is invalid."""
    where, data = f"setting '{HEALTH}'", history.setting(HEALTH)
    try:
        if data is not None and not isinstance(data, dict):
            raise _SettingError(where, "an object of axes", show(data))
        return {key: _axis(f"{where}: {key!r}", entry) for key, entry in (data or {}).items()}
    except _SettingError as error:
        raise StoreError(f"{history.path}: {error}") from error


def _axis(where: str, entry: object) -> dict[str, float]:
    if not isinstance(entry, dict) or set(entry) != set(FIELDS):
        raise _SettingError(where, f"an object of {', '.join(FIELDS)}", show(entry))
    number = _CHECKS.number
    return {
        "step": number(f"{where}: step", entry["step"], 0, MOST),
        "noise": number(f"{where}: noise", entry["noise"], 0, MOST),
        "interval": number(f"{where}: interval", entry["interval"], 1e-6, LONGEST),
    }


def _key(axis: BoundAxis) -> str:
    """Name of an axis of a device, which stays the same from day to day."""
    device = axis.device
    return f"{device.guid} {device.name}, number {device.ordinal + 1}, axis {axis.axis + 1}"
