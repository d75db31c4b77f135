"""Faults of `faults.py` at their strengths, and honest hardware from coarse and slow to fine."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from drills.trace import SECOND, Pedal
from engine.pedals.faulty import FaultySource, Frozen, Jumping, Stalling, Unplugged
from engine.pedals.poor import Coarse, Creeping, Noisy, Saturating, Seldom
from engine.pedals.port import Source
from engine.pedals.simulated import SIMULATED_TRAVEL as TRAVEL

SLOW = 0.016
"""Time between two reports from which on a device is slow, in s."""

Wrap = Callable[[Source, int], FaultySource]
"""Function that puts a fault with a seed around a source."""


@dataclass(frozen=True)
class Case:
    """A fault at one strength, or a set of honest hardware."""

    name: str
    """Class of the fault, in lower case; of honest hardware what is told apart."""
    strength: str
    """How strong the fault is, in words."""
    around: Wrap
    """Puts the fault around a source."""
    step: int = SECOND // 250
    """Time between two readings of the pedals, in ns: most devices report that often or less."""
    slow: bool = False
    """Whether honest hardware reports so seldom that more of its repetitions may be void."""


def frozen(after: float) -> Case:
    """Brake that freezes so many s after the cue."""
    strength = f"{after:g} s after the cue" if after else "at the cue"
    return Case("frozen", strength, lambda source, _: Frozen(source, after))


def stalling(seconds: float) -> Case:
    """Device that stalls for so many s."""
    strength = f"{1000 * seconds:.0f} ms"
    return Case("stalling", strength, lambda source, seed: Stalling(source, seconds, seed))


def jumping(
    strength: str,
    pedal: Pedal,
    *,
    to: float | None = None,
    by: float = 0.0,
    in_wait: bool = False,
    times: int = 1,
    rate: float = 250.0,
) -> Case:
    """Pedal that jumps, as `Jumping` has it, for one report of a device of this rate."""
    scale = TRAVEL.brake if pedal is Pedal.BRAKE else TRAVEL.throttle

    def around(source: Source, seed: int) -> FaultySource:
        slow = Seldom(source, rate, seed)
        one = 1 / rate
        return Jumping(
            slow, scale, pedal, seed, to=to, by=by, in_wait=in_wait, times=times, lasts=one
        )

    return Case("jumping", strength, around)


def creeping(points: float) -> Case:
    """Throttle whose rest creeps up by so many points a repetition.

    Of a creeping brake a player finds the target anyway, as the screen shows it; the simulated
    foot does not look.
    """
    return Case(
        "creeping",
        f"throttle {points:g} % a repetition",
        lambda source, _: Creeping(source, TRAVEL, points, pedals=[Pedal.THROTTLE]),
    )


def saturating(end: float) -> Case:
    """Brake whose axis ends at so many %."""
    return Case("saturating", f"{end:g} %", lambda source, _: Saturating(source, TRAVEL, end))


def coarse(bits: int) -> Case:
    """Pedals of so many bits."""
    return Case("coarse", f"{bits} bits", lambda source, _: Coarse(source, TRAVEL, bits))


def noisy(noise: float) -> Case:
    """Pedals with so many % of noise."""
    strength = f"{noise:g} %"
    return Case("noisy", strength, lambda source, seed: Noisy(source, TRAVEL, noise, seed))


def seldom(rate: float) -> Case:
    """Device that reports so often."""
    return Case("seldom", f"{rate:g} a second", lambda source, seed: Seldom(source, rate, seed))


def unplugged(seconds: float) -> Case:
    """Device that goes after the cue for so many s."""
    return Case("unplugged", f"{seconds:g} s", lambda source, _: Unplugged(source, seconds))


FAULTY = (
    *map(frozen, (0.0, 0.15, 0.3)),
    *map(stalling, (0.06, 0.1, 0.2)),
    jumping("brake to 0", Pedal.BRAKE, to=0.0),
    jumping("brake to full", Pedal.BRAKE, to=100.0),
    jumping("brake 12 points down", Pedal.BRAKE, by=-12.0),
    jumping("brake to 0, 4 times", Pedal.BRAKE, to=0.0, times=4),
    jumping("throttle to full", Pedal.THROTTLE, to=100.0),
    jumping("throttle to full in the wait", Pedal.THROTTLE, to=100.0, in_wait=True),
    jumping("throttle 12 points up in the wait", Pedal.THROTTLE, by=12.0, in_wait=True),
    jumping("the same at 60 reports a second", Pedal.THROTTLE, by=12.0, in_wait=True, rate=60.0),
    *map(creeping, (0.1, 0.3, 1.0)),
    *map(saturating, (45.0, 55.0, 65.0)),
    *map(coarse, (7, 6, 5)),
    *map(noisy, (0.5, 1.0, 2.0)),
    *map(seldom, (60.0, 30.0, 20.0)),
    unplugged(0.5),
)
"""Rows of the table of faults."""


def honest(
    name: str, bits: int = 12, rate: float = 250.0, devices: int = 1, noise: float = 0.0
) -> Case:
    """Honest hardware: noise first, then the converter, then the reports."""
    parts = (f"{bits} bits", f"{rate:g} a second", f"{noise:g} % noise")
    apart = "two devices" if devices > 1 else "one device"

    def around(source: Source, seed: int) -> FaultySource:
        coarse = Coarse(Noisy(source, TRAVEL, noise, seed) if noise else source, TRAVEL, bits)
        return Seldom(coarse, rate, seed, devices)

    step = SECOND // (1000 if rate > 500 else 500)
    return Case(name, ", ".join((*parts, apart)), around, step, slow=rate <= 1 / SLOW)


HONEST = (
    *(honest("bits", bits=bits) for bits in (8, 10, 14, 16)),
    *(
        honest("reports", rate=rate, devices=devices)
        for devices in (1, 2)
        for rate in (60.0, 125.0, 250.0, 500.0, 1000.0)
    ),
    *(honest("noise", noise=noise) for noise in (0.1, 0.25, 0.5)),
    honest("poorest", bits=8, rate=60.0, devices=2, noise=0.5),
    honest("coarse and quick", bits=8, rate=1000.0),
    honest("fine and slow", bits=16, rate=60.0, devices=2),
)
"""Rows of the table of honest hardware."""
