"""The shifts of a braking zone: each with its own blip, and in order where the clutch is used."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import pytest

from drills.kinds.zone import beats_of
from drills.score import Reason
from tests.drills.kinds.made import TIME, Made, made, presses
from tests.drills.kinds.zone_case import POINT, blips, on_line, with_own

ZONE = replace(with_own(**{"from": 230.0, "to": 90.0}), limits={"dip": 15.0, "shift_at": 0.15})
BEATS = tuple(POINT + beat for beat in beats_of(ZONE))
"""When each blip is asked, in s from the first knock."""


def zone(at: Sequence[float] | None, *, clutch: bool = False) -> Made:
    """A zone along its line with a blip on each beat, its peak there, and presses s after each."""
    button = None
    if at is not None:
        button = presses(*(beat + one for beat, one in zip(BEATS, at, strict=False)))
    under = blips([beat - 0.05 for beat in BEATS], 0.3, 100.0) if clutch else None
    return made(ZONE, on_line(asked=ZONE), blips(BEATS), under, button=button)


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
