"""Health of pedals as the history keeps it: for each axis of a device, whatever its calibration."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from drills.calibration import COUNTS
from drills.health.luck import Hardware, luck
from drills.health.pedal import BoundPedal, PedalHealth
from drills.level import Level
from drills.trace import Pedal
from engine.pedals.bound import Binding, BoundAxis
from engine.setup.saved_rigs import saved_binding
from engine.store import History

HEALTH = "health"
"""Key of the setting for the health of pedals: by device and axis, `step` and `noise` in axis
counts and `interval` between reports in s. In counts it outlives a new calibration."""
MOST = 2.0 * COUNTS
"""Largest step or noise of an axis, in counts: the whole axis."""
LONGEST = 10.0
"""Longest time between reports, in s."""
RANGES = {"step": (0.0, MOST), "noise": (0.0, MOST), "interval": (1e-6, LONGEST)}
"""Keys of the health of one axis, each with the least and the greatest value it may have."""


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
        saved[_key(axis)] = dict(zip(RANGES, amounts, strict=True))
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
    """Saved health of each axis; without those that cannot be understood. Raises StoreError."""
    data = history.setting(HEALTH)
    if not isinstance(data, dict):
        return {}
    return {key: entry for key, entry in data.items() if _is_health(entry)}


def _is_health(entry: object) -> bool:
    """Whether saved data are the health of an axis."""
    if not isinstance(entry, dict) or set(entry) != set(RANGES):
        return False
    return all(
        isinstance(entry[name], int | float)
        and not isinstance(entry[name], bool)
        and least <= entry[name] <= most
        for name, (least, most) in RANGES.items()
    )


def _key(axis: BoundAxis) -> str:
    """Name of an axis of a device, which stays the same from day to day."""
    device = axis.device
    return f"{device.guid} {device.name}, number {device.ordinal + 1}, axis {axis.axis + 1}"
