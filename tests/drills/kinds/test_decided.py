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
PLACED = (
    *("dip", "surge", "rebound", "overshoot", "ramp_worst", "offset", "base_error"),
    *("peak_error", "line_worst"),
)
"""Measures whose value is the deviation of their place."""
TIMED = (
    *("reaction", "width", "rise", "fall", "lateness", "clutch_down", "clutch_up"),
    *("release_start", "release_time", "shift_at", "brake_on", "off_at"),
)
"""Measures that are a time with a beginning and an end in the picture."""
OUT_OF_TIME = {
    Reason.LATE: "reaction",
    Reason.LONG: "width",
    Reason.SHIFT_FIRST: "shift_at",
    Reason.SHIFT_LAST: "shift_at",
}
"""Measures that are marked although no limit was weighed: the blip was not asked so."""

each = pytest.mark.parametrize("one", MADE.values(), ids=MADE)


@each
def test_the_place_that_decided_has_the_number_of_the_figure(one: Made) -> None:
    picture, figure, verdict = one.picture, one.figure, one.verdict
    if picture is None or picture.worst is None:
        return

    assert figure is not None
    assert picture.worst.label == ("" if figure.value == "never" else figure.value)
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


@pytest.mark.parametrize("off", [4.0, -4.0])
@pytest.mark.parametrize("name", ["total_error", "constant_error", "variable_error"])
def test_a_hold_is_drawn_as_the_average_that_decided(name: str, off: float) -> None:
    brake = lines((0, 60.0 + off)) + 2.0 * np.sin(2 * np.pi * TIME)
    level = replace(HOLD, limits={name: 1.0})

    one = made(level, brake)

    assert one.picture is not None
    assert one.figure is not None
    assert (one.picture.worst, one.picture.decides) == (None, None)
    average = one.picture.average
    assert average is not None
    assert (average.label, average.limit) == (one.figure.value, "1 allowed")
    side = float(np.sign(average.line[0]))
    assert average.line[0] == pytest.approx(side * abs(one.verdict.amount(name)))
    assert average.allowed == (side, side)
    if name == "variable_error":
        assert average.middle == pytest.approx(off, abs=0.1)
        assert average.sides == (-1, 1)
    else:
        assert (average.middle, average.sides) == (0.0, (int(np.sign(off)),))
        assert side == np.sign(off)


@pytest.mark.parametrize("slope", [3.0, -3.0])
def test_a_drift_is_drawn_as_the_line_that_fits_best(slope: float) -> None:
    level = replace(HOLD, limits={"drift": 1.0})

    one = made(level, 60.0 + slope * (TIME - 1.5))

    assert one.picture is not None
    average = one.picture.average
    assert average is not None
    (begins, ends), [span] = average.line, average.during
    assert (ends - begins) / (span[1] - span[0]) == pytest.approx(slope, abs=0.01)
    middle = float(one.picture.deviation.mean())
    assert (begins + ends) / 2 == pytest.approx(middle, abs=0.01)
    assert average.allowed[0] == begins
    allowed_slope = (average.allowed[1] - begins) / (span[1] - span[0])
    assert allowed_slope == pytest.approx(np.sign(slope), abs=0.01)


@each
def test_the_line_of_an_average_passes_the_one_allowed_where_it_failed(one: Made) -> None:
    average = None if one.picture is None else one.picture.average
    if average is None:
        return

    assert one.figure is not None
    assert average.label == one.figure.value
    assert average.limit == allowed(one.figure)
    assert (abs(average.line[1]) > abs(average.allowed[1])) == (not one.verdict.clean)
    if one.lean:
        assert np.sign(average.line[1]) == one.lean


@each
def test_a_time_that_decided_is_marked_as_long_as_it_was(one: Made) -> None:
    timing, reason = None if one.picture is None else one.picture.timing, one.verdict.reason
    name = one.verdict.worst if reason in WEIGHED else OUT_OF_TIME.get(reason, "")
    value = one.verdict.measures.get(name)
    has_number = one.figure is not None and one.figure.value[0].isdigit()
    is_timed = name in TIMED and value is not None and has_number
    assert (timing is not None) == (is_timed and one.picture is not None)
    if timing is None or one.picture is None:
        return

    assert one.figure is not None
    assert timing.label == one.figure.value
    assert timing.ends - timing.begins == pytest.approx(abs(value or 0.0), abs=0.002)
    assert one.picture.worst is None
    if name in ("reaction", "clutch_down", "clutch_up"):
        assert timing.begins == pytest.approx(one.picture.cues[0], abs=GRID)


def test_a_blip_too_late_or_too_long_is_marked_with_its_time() -> None:
    found = {
        (one.verdict.reason, one.picture.timing.label)
        for one in MADE.values()
        if one.verdict.reason in OUT_OF_TIME and one.picture and one.picture.timing
    }

    assert {reason for reason, _ in found} == set(OUT_OF_TIME)
    assert all(label.endswith(" s") for _, label in found)


@pytest.mark.parametrize("name", ["width", "rise", "fall"])
def test_the_time_of_a_throttle_is_marked_on_its_pulse(name: str) -> None:
    case = next(one for one in MADE.values() if one.level.kind.name == "clutch")
    level = replace(case.level, limits={name: 0.01})

    one = Made(level, case.task, case.done)

    assert one.picture is not None
    assert one.picture.timing is not None
    [(opens, closes), *_] = one.picture.blips
    begins, ends = one.picture.timing.begins, one.picture.timing.ends
    assert opens - GRID <= begins <= ends <= closes + GRID
    assert ends - begins == pytest.approx(one.verdict.amount(name), abs=0.002)


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
