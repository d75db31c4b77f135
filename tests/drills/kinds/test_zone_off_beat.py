"""How far from its beat a blip of a zone still answers it: half a second, or half the way."""

from dataclasses import replace

import pytest

from drills.kinds.zone import beats_of
from drills.kinds.zone_shortcoming import FARTHEST
from drills.score import Reason
from tests.drills.kinds.zone_case import POINT, ZONE, blips, on_line, zone_of_foot

STEP = 0.01
"""Time to either side of the bound, in s."""


@pytest.mark.parametrize(
    ("gears", "bound"),
    [
        ((150.0,), FARTHEST),
        ((170.0, 120.0), FARTHEST),
        # Slowing by 36 km/h each second, the first two are 20/36 s apart.
        ((170.0, 150.0, 115.0), 20 / 36 / 2),
    ],
)
@pytest.mark.parametrize(
    ("beyond", "reason"), [(-STEP, Reason.OVER_LIMIT), (STEP, Reason.OFF_BEAT)]
)
def test_a_blip_answers_its_beat_up_to_half_the_way_to_the_next(
    gears: tuple[float, ...], bound: float, beyond: float, reason: Reason
) -> None:
    own = {**ZONE.own, "shifts": 0.0}
    level = replace(ZONE, own=own, listed={"gears": gears}, limits={"lateness": 0.15})
    *before, last = (POINT + beat for beat in beats_of(level))

    one = zone_of_foot(on_line(asked=level), blips((*before, last + bound + beyond)), level)

    assert one.verdict.measures["lateness"] == pytest.approx(bound + beyond, abs=STEP / 2)
    assert one.verdict.reason is reason
