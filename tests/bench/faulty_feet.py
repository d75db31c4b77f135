"""Feet with one known fault each, and feet without one, made apart from the simulated foot.

A blip is what a person's foot does to two pedals: a hold with slow wander and tremor, a throttle
pulse, a brake that follows the throttle a little later, and perhaps one fault. `FaultyFoot.motion`
draws what will be done in one repetition; `tests/bench/faulty_traces.py` lays it out as a trace.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from drills.fault import Fault
from drills.kinds.asked_size import SIZE
from drills.level import Level

GOOD_DIP = (2.0, 6.0)
"""Least and greatest dip of a good blip to 60 %, in points, of a foot of middling skill."""
SLIPS = (0.05, 0.10)
"""Least and greatest share of slips of any kind among the blips of a foot without a fault."""
SLOWEST = 0.85
"""Greatest width of a slow blip, in s: a throttle that is in for longer is no blip."""
USUAL_PEAK = 60.0
"""Throttle peak to which the dips of these feet belong, in %."""


@dataclass(frozen=True)
class Bump:
    """A smooth push on the brake, or a pull off it, that comes and goes."""

    begins: float
    """When it begins, in s from the onset of the throttle."""
    rises: float
    """Time that it takes to its height, in s."""
    stays: float
    """Time that it stays at its height, in s."""
    falls: float
    """Time that it takes back to nothing, in s; infinite where it stays for good."""
    height: float
    """Its height in points; negative where brake is given up."""


@dataclass(frozen=True)
class Blip:
    """What the foot does in one blip."""

    waits: float
    """Time from the cue to the onset of the throttle, in s."""
    peak: float
    """Throttle at the peak, in %."""
    width: float
    """Time that the throttle is above half its peak, in s, without the time that it stays there."""
    dip: float
    """Depth to which the throttle pulls the brake along, in points."""
    stays: float = 0.0
    """Time that the throttle stays at its peak, in s."""
    bumps: tuple[Bump, ...] = ()
    """What the foot does to the brake besides."""


@dataclass(frozen=True)
class Motion:
    """What the foot does in one repetition with blips."""

    fault: Fault | None
    """Fault that the repetition has; None where it is a good one."""
    drift: float
    """Points that the brake has drifted by at the cue, from where the dark began."""
    blips: tuple[Blip, ...]
    """Blips of the repetition, in order."""


@dataclass(frozen=True)
class FaultyFoot:
    """A foot that has one fault in a share of its blips, and is good in the others."""

    seed: int
    """Seed of all that the foot draws."""
    fault: Fault | None = None
    """Fault that the foot has; None: slips of any kind, rarely."""
    share: float = 0.6
    """Share of the repetitions that have the fault, 0 to 1; of no meaning without one."""
    skill: float = 0.5
    """Skill of the foot, 0 to 1: the better, the quieter are its hold and its good blips."""
    size_bias: float = 0.0
    """Mean throttle peak minus the size asked, in points."""
    size_spread: float = 6.0
    """Standard deviation of the throttle peak, in points."""

    @property
    def wander(self) -> float:
        """Standard deviation of the slow wander of the brake, as a share of what is held."""
        return float(0.016 * (0.375**self.skill))

    @property
    def tremor(self) -> float:
        """Amplitude of the tremor of the brake, as a share of what is held."""
        return float(0.004 * (0.5**self.skill))

    def motion(self, level: Level, blips: int, rng: np.random.Generator) -> Motion:
        """What the foot does in one repetition of a level with so many blips."""
        fault = self._drawn_fault(rng)
        good = [self._good(level, rng) for _ in range(blips)]
        return _with_fault(Motion(None, float(rng.normal(0, 0.8)), tuple(good)), fault, level, rng)

    def _drawn_fault(self, rng: np.random.Generator) -> Fault | None:
        if self.fault is not None:
            return self.fault if rng.random() < self.share else None
        own = np.random.default_rng((self.seed, 7))
        faults = list(Fault)
        return faults[rng.integers(len(faults))] if rng.random() < own.uniform(*SLIPS) else None

    def _good(self, level: Level, rng: np.random.Generator) -> Blip:
        size = level.own[SIZE]
        wanted = size or min((level.own["blip.least"] + level.own["blip.most"]) / 2, USUAL_PEAK)
        peak = float(np.clip(rng.normal(wanted + self.size_bias, self.size_spread), 25, 100))
        if not size:
            peak = float(np.clip(peak, level.own["blip.least"] + 3, level.own["blip.most"] - 3))
        return Blip(
            waits=float(rng.uniform(0.22, 0.38)),
            peak=peak,
            width=float(rng.uniform(0.16, 0.26)),
            dip=float(rng.uniform(*GOOD_DIP) * 1.4 * 0.5**self.skill * peak / USUAL_PEAK),
        )


def feet(faults: Sequence[Fault | None], count: int, skills: Sequence[float]) -> list[FaultyFoot]:
    """So many feet of each fault, their skills in turn; each has a seed of its own."""
    return [
        FaultyFoot(1000 * place + number, fault, skill=skills[number % len(skills)])
        for place, fault in enumerate(faults)
        for number in range(count)
    ]


def _with_fault(
    good: Motion, fault: Fault | None, level: Level, rng: np.random.Generator
) -> Motion:
    """A good repetition with a fault in all its blips, or where the fault stays, in the last."""
    match fault:
        case None:
            return good
        case Fault.LOST:
            drift = rng.uniform(8, 15) * rng.choice([-1, 1], p=[0.7, 0.3])
            return replace(good, fault=fault, drift=float(drift))
        case Fault.LIGHT | Fault.HEAVY:
            *before, last = good.blips
            return replace(good, fault=fault, blips=(*before, _spoiled(last, fault, level, rng)))
    spoiled = tuple(_spoiled(blip, fault, level, rng) for blip in good.blips)
    return replace(good, fault=fault, blips=spoiled)


def _spoiled(good: Blip, fault: Fault, level: Level, rng: np.random.Generator) -> Blip:
    """A good blip with a fault in it, as a person would have it."""
    sized = good.peak / USUAL_PEAK
    lasts = 2 * good.width
    match fault:
        case Fault.EARLY_ROLL:
            lead, depth = float(rng.uniform(0.12, 0.30)), float(rng.uniform(8, 20))
            stays = max(lead - 0.10, 0.0) + 0.4 * lasts
            roll = Bump(-lead, 0.10, stays, 0.25, -depth)
            # The foot answers the cue by rolling, so its throttle comes that much later.
            return replace(good, waits=good.waits + lead, dip=good.dip / 2, bumps=(roll,))
        case Fault.BRACING:
            before = float(rng.uniform(0.14, 0.22))
            push = Bump(-before, 0.6 * before, 0.02, 0.10, float(rng.uniform(6, 15)))
            dip = float(rng.uniform(7, 14)) * sized
            return replace(good, waits=good.waits + before, dip=dip, bumps=(push,))
        case Fault.DIP:
            return replace(good, dip=float(rng.uniform(10, 25)) * sized)
        case Fault.OVERSHOOT:
            stays = float(rng.uniform(0.05, 0.20))
            back = Bump(0.8 * lasts, 0.15, stays, 0.30, float(rng.uniform(9, 20)))
            return replace(good, bumps=(back,))
        case Fault.LIGHT:
            return replace(good, bumps=(_left_at(lasts, -float(rng.uniform(7, 15))),))
        case Fault.HEAVY:
            return replace(good, bumps=(_left_at(lasts, float(rng.uniform(7, 15))),))
        case Fault.BIG:
            peak = float(rng.uniform(92, 100))
            return replace(good, peak=peak, dip=good.dip * peak / good.peak)
        case Fault.SLOW:
            width = level.own["blip.longest"] * float(rng.uniform(1.15, 1.6))
            return replace(good, stays=min(width, SLOWEST) - good.width)
    return good


def _left_at(lasts: float, height: float) -> Bump:
    """Brake that does not come back to where it was held, once a blip of `lasts` s is over."""
    return Bump(0.5 * lasts, 0.20, 0.0, float("inf"), height)
