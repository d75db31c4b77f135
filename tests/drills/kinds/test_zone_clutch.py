"""The clutch in a braking zone: judged where it is asked or was used, and in order at each blip."""

from dataclasses import replace

import numpy as np
import pytest

from drills.score import Reason
from drills.trace import Pedal
from tests.drills.kinds.made import TIME, Made, square
from tests.drills.kinds.zone_case import BEATS, ZONE, blips, zone_of_foot
from tests.drills.shapes import Values

ASKED = replace(ZONE, pedals=(Pedal.BRAKE, Pedal.THROTTLE, Pedal.CLUTCH))
"""The zone of a level that names the clutch among its pedals."""
UP = np.zeros(TIME.size)
"""A clutch that is never touched."""


def strokes(*at: tuple[float, float], depth: float = 100.0) -> Values:
    """A clutch that goes down and up at these times in s from the first knock."""
    clutch = UP
    for down, up in at:
        clutch = np.maximum(clutch, square(down, up - down, depth))
    return clutch


def around(down: float = -0.1, up: float = 0.3, blips_at: tuple[float, ...] = BEATS) -> Values:
    """A stroke about every blip, from the onset so many s away."""
    return strokes(*((beat + down, beat + up) for beat in blips_at))


def with_clutch(clutch: Values | None, asked: bool = False) -> Made:
    """A zone as asked, and a clutch."""
    return zone_of_foot(asked=ASKED if asked else ZONE, clutch=clutch)


@pytest.mark.parametrize("asked", [False, True])
def test_a_stroke_about_every_blip_is_in_order(asked: bool) -> None:
    verdict = with_clutch(around(), asked).verdict

    assert verdict.reason is Reason.CLEAN
    assert verdict.measures["under_clutch"] == 1


@pytest.mark.parametrize("clutch", [None, UP, around() * 0.4])
def test_a_clutch_that_was_not_used_is_judged_only_where_it_is_asked(clutch: Values | None) -> None:
    free, asked = with_clutch(clutch).verdict, with_clutch(clutch, asked=True).verdict

    assert free.reason is Reason.CLEAN
    assert "under_clutch" not in free.measures
    assert asked.reason is Reason.NO_CLUTCH


@pytest.mark.parametrize("asked", [False, True])
@pytest.mark.parametrize(
    ("clutch", "reason"),
    [
        (strokes((BEATS[0] - 0.1, BEATS[0] + 0.3)), Reason.NO_CLUTCH),
        (around(down=0.05), Reason.BLIP_FIRST),
        (around(up=0.1), Reason.CLUTCH_FIRST),
        (around(down=0.05, up=0.1), Reason.BLIP_FIRST),
        (strokes((BEATS[0] - 0.1, BEATS[2] + 0.3)), Reason.CLUTCH_STAYED),
        (strokes((BEATS[0] - 0.1, BEATS[1] + 0.3), (BEATS[2] - 0.1, 99.0)), Reason.CLUTCH_STAYED),
    ],
)
def test_a_clutch_out_of_order_at_any_blip_is_told_by_its_name(
    clutch: Values, reason: Reason, asked: bool
) -> None:
    assert with_clutch(clutch, asked).verdict.reason is reason


@pytest.mark.parametrize("place", [0, 1, 2])
@pytest.mark.parametrize(
    ("down", "up", "reason"),
    [(0.05, 0.3, Reason.BLIP_FIRST), (-0.1, 0.1, Reason.CLUTCH_FIRST)],
)
def test_one_blip_out_of_order_among_others_in_order_is_enough(
    place: int, down: float, up: float, reason: Reason
) -> None:
    beats = [(beat - 0.1, beat + 0.3) for beat in BEATS]
    beats[place] = (BEATS[place] + down, BEATS[place] + up)

    assert with_clutch(strokes(*beats)).verdict.reason is reason


def test_a_zone_without_a_blip_has_no_order_of_the_clutch() -> None:
    verdict = zone_of_foot(throttle=UP, clutch=around()).verdict

    assert verdict.reason is Reason.NO_BLIP
    assert "under_clutch" not in verdict.measures


@pytest.mark.parametrize(("late", "right"), [(0.019, True), (0.021, False)])
def test_only_what_is_closer_than_20_ms_is_a_tie(late: float, right: bool) -> None:
    down, up = with_clutch(around(down=late)).verdict, with_clutch(around(up=0.2 - late)).verdict

    assert down.clean is right
    assert up.clean is right


def test_the_least_share_under_the_clutch_is_that_of_the_zone() -> None:
    clutch = np.maximum(around(blips_at=BEATS[1:]), strokes((BEATS[0] + 0.05, BEATS[0] + 0.3)))

    measures = with_clutch(clutch).verdict.measures

    assert measures["under_clutch"] == pytest.approx(0.75)


def test_over_two_close_blips_one_press_is_in_order() -> None:
    close = replace(
        ZONE, own={**ZONE.own, "shifts": 0.0}, listed={"gears": (150.0, 134.0)}, limits={"dip": 9.0}
    )
    task = close.kind.task(close, 80.0, np.random.default_rng(1))
    first, second = (task.cues[cue] for cue in task.acts)

    one = zone_of_foot(
        throttle=blips([first, second]), asked=close, clutch=strokes((first - 0.1, second + 0.3))
    )

    assert 0.4 < second - first < 0.5
    assert one.verdict.reason is Reason.CLEAN


def test_what_else_was_not_done_comes_before_the_clutch() -> None:
    one = zone_of_foot(throttle=blips(BEATS[:2]), asked=ASKED, clutch=UP)

    assert one.verdict.reason is Reason.FEW_BLIPS


def test_a_clutch_pressed_only_before_the_braking_point_was_not_used() -> None:
    assert with_clutch(strokes((0.2, 0.8))).verdict.reason is Reason.CLEAN
