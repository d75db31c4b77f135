"""Two pedals and a wheel to search for a pedal."""

from typing import Any

import pytest

from drills.calibration import COUNTS
from engine.pedals.identity import Axis
from tests.engine.pedals.feet import Rig

BRAKE = Axis(device=3, axis=1)
THROTTLE = Axis(device=3, axis=2)
WHEEL = Axis(device=9, axis=0)


def rig() -> Rig:
    """Rig of two pedals and a wheel that is not quite straight."""
    return Rig({BRAKE: -1.0, THROTTLE: -1.0, WHEEL: 0.02})


def about(raw: float) -> Any:
    """Raw value within a count."""
    return pytest.approx(raw, abs=1 / COUNTS)


def ends(one: Rig) -> tuple[Axis, float, float]:
    """Axis that was found, with its rest and its full."""
    found = one.finder.found
    assert found is not None
    return found.axis, found.range.rest, found.range.full


def at_full(*places: float) -> Rig:
    """Rig whose brake was pressed and released, then moved to these places as a full press."""
    one = rig()
    for to in (1.0, -1.0, *places):
        one.move(BRAKE, to)
    return one
