"""The shifts of a braking zone: each with its own blip, and in order where the clutch is used."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import pytest

from drills.kinds import KINDS
from drills.kinds.zone import APART, COUNTED, beats_of, zone_of
from drills.score import Reason
from drills.targets import Targets
from tests.drills.kinds.made import TIME, Made, made, presses, square
from tests.drills.shapes import Values
from tests.made import BLIP

CORNER = {"from": 230.0, "to": 90.0, "decel": 10.0, "downforce": 0.0, "ease": 1.0, "shifts": 3.0}
ZONE = replace(
    BLIP,
    id="a-zone",
    kind=KINDS["zone"],
    targets=Targets((80.0,)),
    limits={"dip": 15.0, "shift_at": 0.15},
    own={**BLIP.own, **CORNER},
    listed={"gears": ()},
)
POINT = COUNTED * APART
"""The braking point, in s from the first knock."""
BEATS = tuple(POINT + beat for beat in beats_of(ZONE))


def pulses(length: float, height: float, before: float = 0.0) -> Values:
    """A square pulse at each beat, or some s before it."""
    whole = np.zeros(TIME.size)
    for beat in BEATS:
        whole = np.maximum(whole, square(beat - before, length, height))
    return whole


def zone(at: Sequence[float] | None, *, clutch: bool = False) -> Made:
    """A zone along its line with a blip on each beat, its peak there, and presses s after each."""
    line = zone_of(ZONE).line(80.0)
    times, brakes = zip(*line, strict=True)
    brake = np.interp(TIME - POINT, times, brakes, left=0.0, right=0.0)
    button = None
    if at is not None:
        button = presses(*(beat + one for beat, one in zip(BEATS, at, strict=False)))
    under = pulses(0.3, 100.0, before=0.05) if clutch else None
    return made(ZONE, brake, pulses(0.2, 70.0), under, button=button)


def test_each_blip_of_a_zone_has_its_own_shift() -> None:
    measures = zone((0.0, 0.05, -0.01)).verdict.measures

    found = [measures.get(f"shift_at_{place}") for place in (1, 2, 3)]
    assert found == pytest.approx([0.0, 0.05, -0.01])
    assert measures["shift_at"] == pytest.approx(0.05)


def test_a_zone_with_a_late_shift_is_told_by_it() -> None:
    one = zone((0.0, 0.2, 0.0))

    assert one.verdict.over == ("shift_at",)
    assert one.said == "The second shift was late. Shift as the throttle peaks."


@pytest.mark.parametrize("clutch", [False, True])
def test_a_shift_before_its_blip_is_out_of_order_only_where_the_clutch_is_used(
    clutch: bool,
) -> None:
    reason = zone((-0.06, 0.0, 0.0), clutch=clutch).verdict.reason

    assert reason is (Reason.SHIFT_FIRST if clutch else Reason.CLEAN)


def test_a_zone_without_a_button_is_judged_by_its_brake_alone() -> None:
    verdict = zone(None).verdict

    assert verdict.clean
    assert not [name for name in verdict.measures if name.startswith("shift_at")]


def test_a_zone_without_a_blip_has_no_shift() -> None:
    one = zone((0.0, 0.0, 0.0))
    still = replace(one.done.trace, throttle=np.zeros(TIME.size))

    verdict = replace(one, done=replace(one.done, trace=still)).verdict

    assert verdict.reason is Reason.NO_BLIP
    assert verdict.measures["shift_at"] is None
