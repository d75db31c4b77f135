"""Sources of hardware that is poor all the time: creeping, saturating, coarse, noisy or slow.

Each wraps another source and spoils what it reports. Faults that strike once a repetition are in
`faulty.py`.
"""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import replace

import numpy as np

from drills.calibration import Calibration, Range
from drills.trace import SECOND, Pedal
from engine.pedals.faulty import FaultySource, ranges, whole
from engine.pedals.port import Reading, Source

MINUTE = 60 * SECOND
"""Length of a minute, in ns."""
BLOCK = 1024
"""Number of random numbers drawn at once, for speed alone."""


class Creeping(FaultySource):
    """Source whose pedals read more and more at rest: by the repetition, by the minute, or both."""

    def __init__(
        self,
        inner: Source,
        travel: Calibration,
        a_repetition: float = 0.0,
        a_minute: float = 0.0,
        *,
        pedals: Collection[Pedal] = (Pedal.BRAKE, Pedal.THROTTLE),
    ) -> None:
        """`pedals` of brake and throttle creep up by so many points of their `travel`."""
        super().__init__(inner)
        self._travel = travel
        self._a_repetition = a_repetition
        self._a_minute = a_minute
        self._pedals = frozenset(pedals)
        self._since: int | None = None

    def spoil(self, reading: Reading) -> Reading:
        """Reading with the pedals raised by how far they have crept."""
        since = self._since = reading.time if self._since is None else self._since
        crept = self._a_repetition * self._repetition
        crept += self._a_minute * (reading.time - since) / MINUTE

        def raised(pedal: Pedal, raw: float, scale: Range) -> float:
            return whole(scale.raw(scale.percent(raw) + crept)) if pedal in self._pedals else raw

        return replace(
            reading,
            brake=raised(Pedal.BRAKE, reading.brake, self._travel.brake),
            throttle=raised(Pedal.THROTTLE, reading.throttle, self._travel.throttle),
        )


class Saturating(FaultySource):
    """Source whose brake axis ends before the brake's travel does."""

    def __init__(self, inner: Source, travel: Calibration, end: float) -> None:
        """`end` is where the axis ends, in % of the brake's travel."""
        super().__init__(inner)
        self._brake = travel.brake
        self._end = end

    def spoil(self, reading: Reading) -> Reading:
        """Reading with the brake at the end of its axis where the foot is beyond it."""
        percent = min(self._brake.percent(reading.brake), self._end)
        return replace(reading, brake=whole(self._brake.raw(percent)))


class Coarse(FaultySource):
    """Source whose converters tell few places of a pedal apart."""

    def __init__(self, inner: Source, travel: Calibration, bits: int) -> None:
        """Each pedal has 2 ** `bits` places over its `travel`."""
        super().__init__(inner)
        self._ranges = ranges(travel)
        self._steps = 2**bits - 1

    def spoil(self, reading: Reading) -> Reading:
        """Reading with each pedal at the nearest place that its converter has."""
        steps = self._steps

        def nearest(raw: float, scale: Range) -> float:
            return whole(scale.raw(100 * round(scale.percent(raw) / 100 * steps) / steps))

        return each(reading, self._ranges, nearest)


class Noisy(FaultySource):
    """Source with independent gaussian noise in every reading of each pedal."""

    def __init__(self, inner: Source, travel: Calibration, noise: float, seed: int) -> None:
        """`noise` is its standard deviation in % of each pedal's `travel`."""
        super().__init__(inner, seed)
        self._ranges = ranges(travel)
        self._noise = noise
        self._rng = np.random.default_rng(seed)
        self._drawn: list[float] = []

    def spoil(self, reading: Reading) -> Reading:
        """Reading with noise in each pedal."""
        return each(
            reading,
            self._ranges,
            lambda raw, scale: whole(scale.raw(scale.percent(raw) + self._noise * self._next())),
        )

    def _next(self) -> float:
        """The next standard normal random number."""
        if not self._drawn:
            self._drawn = self._rng.standard_normal(BLOCK).tolist()
        return self._drawn.pop()


class Seldom(FaultySource):
    """Source that reports so many times a second, each device with a phase of its own."""

    def __init__(self, inner: Source, rate: float, seed: int, devices: int = 1) -> None:
        """`rate` is in reports per second; with two `devices` the throttle is on the second."""
        super().__init__(inner, seed)
        self._interval = SECOND / rate
        self._apart = devices > 1
        self._phases = np.random.default_rng(seed).uniform(0, self._interval, 2).tolist()
        self._turns = [-1, -1]
        self._told: Reading | None = None

    def spoil(self, reading: Reading) -> Reading:
        """Newest report of each device, at the time of this reading."""
        told = reading
        if self._told is not None:
            told = replace(self._told, time=reading.time, shift=reading.shift)
        if self._is_due(0, reading.time):
            told = replace(told, brake=reading.brake, clutch=reading.clutch)
            if not self._apart:
                told = replace(told, throttle=reading.throttle)
        if self._apart and self._is_due(1, reading.time):
            told = replace(told, throttle=reading.throttle)
        self._told = told
        return told

    def _is_due(self, device: int, time: int) -> bool:
        """Whether a device reports again by a time (ns)."""
        turn = int((time + self._phases[device]) // self._interval)
        due, self._turns[device] = turn != self._turns[device], turn
        return due


def each(
    reading: Reading,
    scales: tuple[Range, Range, Range],
    spoiled: Callable[[float, Range], float],
) -> Reading:
    """Reading with every pedal spoiled in the same way, on its own range."""
    brake, throttle, clutch = scales
    return replace(
        reading,
        brake=spoiled(reading.brake, brake),
        throttle=spoiled(reading.throttle, throttle),
        clutch=None if reading.clutch is None else spoiled(reading.clutch, clutch),
    )
