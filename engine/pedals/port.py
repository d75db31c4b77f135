"""Interface to pedals of all kinds: a source of raw readings, and its calibration to percent."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Protocol

from drills.calibration import Calibration, counts_of
from drills.trace import Sample

Clock = Callable[[], int]
"""Function that returns the time on the monotonic clock, in ns."""


@dataclass(frozen=True, slots=True)
class Reading:
    """Raw pedal positions at one time, as the device reports them."""

    time: int
    """Time of the reading in ns, on the monotonic clock."""
    brake: float
    """Raw axis value of the brake."""
    throttle: float
    """Raw axis value of the throttle."""
    clutch: float | None = None
    """Raw axis value of the clutch; None without a clutch."""
    shift: bool | None = field(default=None, kw_only=True)
    """Whether the shift button is down; None where none is bound or its device is unplugged."""


class Source(Protocol):
    """Interface of a source of raw pedal readings: devices, the mouse or a simulated foot."""

    @property
    def name(self) -> str:
        """Name of this source of pedal readings in the history."""
        ...

    @property
    def is_feet(self) -> bool:
        """Whether gestures on these pedals choose in menus; a mouse points instead."""
        ...

    @property
    def counts(self) -> bool:
        """Whether repetitions with these pedals count: only by feet; others are a try-out."""
        ...

    @property
    def label(self) -> str:
        """Note about these pedals on every screen; empty if their repetitions count."""
        ...

    def read(self) -> Reading | None:
        """Reading of the pedals now, or None while a bound device is unplugged."""
        ...


@dataclass(frozen=True)
class CalibratedPedals:
    """Pedals that are read in percent: a source of raw readings with its calibration."""

    source: Source
    """Source of the raw pedal readings."""
    calibration: Calibration
    """Range of each pedal, which scales its raw readings to percent."""
    rig: int | None = None
    """Number in the history of the rig that the pedals belong to; None: not a saved one."""

    def sample(self) -> Sample | None:
        """Positions of the pedals now, in % of their ranges; None while a device is unplugged."""
        reading = self.source.read()
        if reading is None:
            return None
        scale, raw = self.calibration, [reading.brake, reading.throttle]
        clutch = None
        if scale.clutch is not None and reading.clutch is not None:
            raw.append(reading.clutch)
            clutch = scale.clutch.percent(reading.clutch)
        return Sample(
            reading.time,
            scale.brake.percent(reading.brake),
            scale.throttle.percent(reading.throttle),
            clutch,
            counts_of(raw),
            reading.shift,
        )
