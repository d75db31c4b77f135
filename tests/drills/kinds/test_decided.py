"""The place, the limit, the average and the area in a picture are those of the large figure."""

import re
from dataclasses import replace

import numpy as np
import pytest

from drills.headline import allowed
from drills.kinds.blip_picture import AREAS
from drills.score import WEIGHED, Reason
from tests.drills.kinds.made import TIME, Made, lines, made
from tests.drills.kinds.test_every_case import CASES
from tests.drills.kinds.test_squeeze import CASES as SQUEEZES
from tests.made import HOLD

GRID = 0.0011
"""A grid step and a little, in s."""
MADE: dict[str, Made] = {
    **{name: case.made for name, case in CASES.items()},
    **{f"squeeze: {case.name}": case.made for case in SQUEEZES},
}
PLACED = ("dip", "surge", "rebound", "overshoot", "ramp_worst", "offset", "base_error")
"""Measures whose value is the deviation of their place."""

each = pytest.mark.parametrize("one", MADE.values(), ids=MADE)


@each
def test_the_place_that_decided_has_the_number_of_the_figure(one: Made) -> None:
    picture, figure, verdict = one.picture, one.figure, one.verdict
    if picture is None or picture.worst is None:
        return

    assert figure is not None
    assert picture.worst.label == figure.value
    assert picture.time[0] - GRID <= picture.worst.at <= picture.time[-1] + GRID
    if verdict.worst in PLACED and verdict.reason in WEIGHED:
        size = abs(picture.worst.deviation)
        assert size == pytest.approx(abs(verdict.amount(verdict.worst)), abs=0.3)
    if one.lean and verdict.worst not in ("settle", "swing", "ramp_worst"):
        assert np.sign(picture.worst.deviation) == one.lean


def test_a_dip_that_decided_on_a_way_down_is_marked_where_it_was() -> None:
    deep = [
        one
        for one in MADE.values()
        if (one.level.kind.name, one.verdict.worst) == ("trail", "dip")
        and one.verdict.reason is Reason.OVER_LIMIT
    ]

    assert len(deep) >= 3
    for one in deep:
        assert one.picture is not None
        assert one.picture.worst is not None
        assert one.picture.decides is not None
        assert (
            one.picture.decides.during[0] <= one.picture.worst.at <= one.picture.decides.during[1]
        )


@each
def test_only_the_limit_that_decided_is_told_apart(one: Made) -> None:
    picture, figure = one.picture, one.figure
    if picture is None or picture.decides is None:
        return

    bound = picture.decides
    assert figure is not None
    limit = bound.high if bound.low is None else -bound.low
    if one.verdict.worst != "settle" or one.verdict.reason is Reason.OFF_TARGET:
        assert bound.label == allowed(figure)
        [number] = re.findall(r"\d+(?:\.\d+)?", bound.label)
        assert float(number) == limit
    assert bound.during[0] < bound.during[1]


@each
def test_an_area_is_filled_where_an_area_decided(one: Made) -> None:
    picture = one.picture
    if picture is None or one.verdict.reason not in WEIGHED:
        return

    assert picture.area == AREAS.get(one.verdict.worst, 0)
    if picture.area:
        assert (picture.worst, picture.decides) == (None, None)


def test_a_brake_off_its_target_is_drawn_against_the_target() -> None:
    off = [one for one in MADE.values() if one.verdict.reason is Reason.OFF_TARGET]

    assert len(off) >= 3
    for one in off:
        picture = one.picture
        assert picture is not None
        assert picture.zero == "target"
        assert picture.worst is not None
        assert picture.decides is not None
        seen = (picture.time >= picture.decides.during[0]) & (
            picture.time < picture.decides.during[1]
        )
        assert picture.deviation[seen].mean() == pytest.approx(picture.worst.deviation, abs=0.01)
        assert abs(picture.worst.deviation) > (picture.decides.high or 0.0)


@pytest.mark.parametrize(
    ("name", "about"), [("total_error", 0.0), ("constant_error", 0.0), ("variable_error", 4.0)]
)
def test_a_hold_is_drawn_as_the_average_that_decided(name: str, about: float) -> None:
    brake = lines((0, 64.0)) + 2.0 * np.sin(2 * np.pi * TIME)
    level = replace(HOLD, limits={name: 1.0})

    one = made(level, brake)

    assert one.picture is not None
    assert (one.picture.worst, one.picture.decides) == (None, None)
    average = one.picture.average
    assert average is not None
    assert average.bias == pytest.approx(4.0, abs=0.1)
    assert average.about == pytest.approx(about, abs=0.1)
    assert average.size == pytest.approx(abs(one.verdict.amount(name)))
    assert average.allowed == 1.0


@pytest.mark.parametrize("clean", [True, False])
def test_a_staircase_has_no_failures_but_inside_and_outside(clean: bool) -> None:
    case = next(
        one
        for one in MADE.values()
        if one.level.kind.name == "clutch"
        and one.verdict.reason is (Reason.CLEAN if clean else Reason.OVER_LIMIT)
    )
    level = replace(case.level, is_staircase=True)

    word = level.kind.word(level, case.verdict)

    assert word == ("Inside" if clean else "Outside")
    assert level.kind.remark(level, case.verdict).topic == word.lower()
    assert case.level.kind.word(case.level, case.verdict) == ("Clean" if clean else "Not clean")
