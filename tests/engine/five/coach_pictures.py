"""Screens of the coach for each fault, with curves as such a foot leaves them."""

from collections.abc import Mapping
from datetime import date
from typing import Any

import numpy as np

from drills.deviation import AROUND_BLIP, Deviation
from drills.fault import Fault
from engine.five.coach_curves import CoachCurves, typical_of
from engine.five.coach_screen import CoachScreen
from engine.five.coach_view import CoachView
from engine.kit.base import Screen
from engine.practice.diagnosis import FaultShare
from engine.practice.focus import Focus

TIME = np.arange(-0.5, 1.5, 0.001)
SINCE = date(2024, 5, 6)
TITLES = ("First blip", "Closer", "Two downshifts on the way down")


def bump(at: float, wide: float, points: float) -> np.ndarray[Any, np.dtype[np.float64]]:
    """A rise (or fall) of the brake about a moment in s, some s wide, in points."""
    return points * np.exp(-(((TIME - at) / wide) ** 2))


def settled(points: float) -> np.ndarray[Any, np.dtype[np.float64]]:
    """A brake that comes to rest so far off what was held, in points."""
    return points / (1 + np.exp(-(TIME - 0.45) / 0.06))


SHAPES = {
    Fault.EARLY_ROLL: bump(0.05, 0.18, -14),
    Fault.BRACING: bump(-0.1, 0.12, 8) + bump(0.2, 0.12, -7),
    Fault.DIP: bump(0.2, 0.14, -16),
    Fault.OVERSHOOT: bump(0.2, 0.12, -6) + bump(0.5, 0.16, 11),
    Fault.LIGHT: bump(0.2, 0.12, -4) + settled(-7.0),
    Fault.HEAVY: bump(0.2, 0.12, -4) + settled(6.0),
    Fault.BIG: bump(0.2, 0.14, -5),
    Fault.SLOW: bump(0.2, 0.14, -5),
    Fault.LOST: np.full(TIME.size, -8.0) + bump(0.2, 0.14, -3),
}
"""Deviation of the brake in a blip that has the fault, in points."""
QUIET = bump(0.2, 0.12, -2.5)
"""Deviation of the brake in a blip without a fault, in points."""


def throttle(size: float, ends: float) -> np.ndarray[Any, np.dtype[np.float64]]:
    """A blip of a size in % that ends so many s after its onset."""
    pressed = np.clip(np.minimum(TIME, ends - TIME) / 0.1, 0, 1)
    return np.asarray(size * np.sin(np.pi / 2 * pressed), dtype=np.float64)


SIZES = {Fault.BIG: (92.0, 0.3), Fault.SLOW: (60.0, 0.62)}
"""Size in % and end in s of the blips that have a fault of the throttle."""
USUAL = (60.0, 0.3)
"""Size in % and end in s of other blips."""


def blip(
    shape: np.ndarray[Any, np.dtype[np.float64]],
    share: float,
    zero: str,
    made: tuple[float, float] = USUAL,
) -> Deviation:
    """A blip of a size and an end whose brake is off by a share of a shape, and trembles."""
    off = share * shape + 0.3 * np.sin(2 * np.pi * 9 * TIME + 20 * share)
    pedal = throttle(made[0] * (0.95 + 0.05 * share), made[1] * (0.95 + 0.05 * share))
    return Deviation(TIME, off, AROUND_BLIP, zero=zero, throttle=pedal)


def curves(fault: Fault | None) -> CoachCurves:
    """Curves of eight blips with a fault and four without."""
    zero = "target" if fault is Fault.LOST else "held"
    shares = [0.7 + 0.1 * n for n in range(8)]
    if fault is None:
        return CoachCurves(typical_of([blip(QUIET, one, zero) for one in shares], None), 8)
    made = SIZES.get(fault, USUAL)
    typical = typical_of([blip(SHAPES[fault], one, zero, made) for one in shares], fault)
    without = tuple(blip(QUIET, one, zero) for one in shares[::2])
    return CoachCurves(typical, 8, without)


def focus(fault: Fault, was: int = 22, now: int = 14) -> Focus:
    """A fault that is worked on: how many of 40 blips had it when it was told, and have it now."""
    return Focus(FaultShare(fault, was, 40), FaultShare(fault, now, 40), SINCE)


def view(fault: Fault) -> CoachView:
    """The coach's page on a fault."""
    return CoachView(40, focus(fault), curves(fault), TITLES)


NOTHING = CoachView(40, curves=curves(None))
"""The coach's page where nothing stands out."""
SETTLING = CoachView(
    40, curves=curves(Fault.DIP), settling=FaultShare(Fault.DIP, 14, 40), halved_on=SINCE
)
"""The coach's page where a fault stands out again soon after it halved."""
FEW = CoachView(12)
"""The coach's page after a first few blips."""
NO_TRACES = CoachView(40, focus(Fault.DIP), None, TITLES)
"""The coach's page where no trace is stored."""


def coach_screens() -> Mapping[str, Screen[Any]]:
    """The coach's page as a screen of its own, by a name."""
    return {
        **{f"coach {fault}": CoachScreen(view(fault)) for fault in Fault},
        "coach of nothing": CoachScreen(NOTHING, "Back"),
        "coach of settling": CoachScreen(SETTLING, "Back"),
        "coach of few": CoachScreen(FEW, "Back"),
        "coach without traces": CoachScreen(NO_TRACES, "Back"),
    }
