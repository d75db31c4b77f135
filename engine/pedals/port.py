"""The one way a pedal sample comes into the program: a source of raw readings, and its scale."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Protocol

from drills.calibration import Calibration, counts_of
from drills.trace import Sample

Clock = Callable[[], int]
"""The monotonic time in ns."""


@dataclass(frozen=True, slots=True)
class Reading:
    """Raw pedal positions as the device gives them, stamped when they were taken."""

    time: int
    """ns, on the monotonic clock."""
    brake: float
    """raw axis value."""
    throttle: float
    """raw axis value."""
    clutch: float | None = None
    """raw axis value; None where there is no clutch pedal."""


class Source(Protocol):
    """Where raw readings come from."""

    @property
    def name(self) -> str:
        """What the history calls this source."""
        ...

    @property
    def is_feet(self) -> bool:
        """Whether pedal gestures choose in menus; a pointer points instead."""
        ...

    @property
    def counts(self) -> bool:
        """Whether feet on pedals are behind it; anything else is a try-out."""
        ...

    @property
    def label(self) -> str:
        """What every screen says of it; empty where it counts."""
        ...

    def read(self) -> Reading | None:
        """The pedals now, or None while a bound device is not there."""
        ...


@dataclass(frozen=True)
class CalibratedPedals:
    """A source and the calibration its readings go through."""

    source: Source
    """Raw readings."""
    calibration: Calibration
    """Scale of each pedal."""

    def sample(self) -> Sample | None:
        """The pedals now, in % of their calibrated range; None while they are not there."""
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
        )
