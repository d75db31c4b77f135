"""Braking zones judged: which shortcoming is told, which part failed most, and when none did."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from drills.kinds import KINDS
from drills.kinds.zone import LINE_LEAST
from drills.kinds.zone_picture import Zone
from drills.measures.shift import SHIFT, SHIFT_BY_PLACE
from drills.measures.zone_table import OF_THE_LINE
from drills.score import Reason
from drills.task import Signal
from tests.drills.kinds.made import TIME, Made, bump, lines
from tests.drills.kinds.zone_case import (
    BEATS,
    PEAK,
    POINT,
    TURN_IN,
    ZONE,
    between,
    blips,
    limited,
    on_line,
    with_own,
    zone_of_foot,
)
from tests.drills.shapes import Values

GONE = np.zeros(TIME.size)
MIDDLE = between(POINT + 1.6, POINT + 1.9)
"""Between the first blip and the second."""


def off(brake: Values, begins: float, ends: float = 9.0) -> Values:
    """The brake, let go between two times in s from the first knock."""
    return np.where(between(begins, ends), 0.0, brake)


def test_a_zone_exactly_as_asked_is_clean() -> None:
    one = zone_of_foot()

    assert one.verdict.reason is Reason.CLEAN
    assert one.verdict.score is not None
    assert one.verdict.score > 80


def test_a_zone_has_every_measure_of_its_kind_but_those_of_what_it_did_not_ask() -> None:
    measures = zone_of_foot().verdict.measures

    missing = {"dip_4", "lateness_4", "under_clutch", SHIFT, *SHIFT_BY_PLACE}
    assert set(KINDS["zone"].measures) - set(measures) == missing
    assert set(measures) <= set(KINDS["zone"].measures)


SHORT: dict[str, tuple[Reason, Made]] = {
    "no brake": (Reason.NOT_PRESSED, zone_of_foot(GONE)),
    "a brake that is on only in the count-in": (
        Reason.NOT_PRESSED,
        zone_of_foot(np.where(between(0.4, 1.5), 70.0, 0.0)),
    ),
    "a brake pressed only after turn-in": (
        Reason.NOT_PRESSED,
        zone_of_foot(np.where(between(TURN_IN + 0.1, TURN_IN + 0.6), 70.0, 0.0)),
    ),
    "no blip": (Reason.NO_BLIP, zone_of_foot(throttle=GONE)),
    "taps too light for a blip": (Reason.LIGHT, zone_of_foot(throttle=blips(peak=12.0))),
    "a pedal that jumped": (Reason.SHORT, zone_of_foot(throttle=blips(BEATS[:1], 0.02))),
    "one blip missing": (Reason.FEW_BLIPS, zone_of_foot(throttle=blips(BEATS[:2]))),
    "one blip missing, and a dip": (
        Reason.FEW_BLIPS,
        zone_of_foot(on_line() + bump(-30, BEATS[0]), blips(BEATS[:2])),
    ),
    "one blip more": (
        Reason.EXTRA_BLIP,
        zone_of_foot(throttle=blips((*BEATS, BEATS[2] + 0.5))),
    ),
    "one blip in the count-in": (Reason.EXTRA_BLIP, zone_of_foot(throttle=blips((0.7, *BEATS)))),
    "one blip after the brake": (
        Reason.EXTRA_BLIP,
        zone_of_foot(throttle=blips((*BEATS, TURN_IN + 0.2))),
    ),
    "a blip in the count-in, and the last missing": (
        Reason.OFF_BEAT,
        zone_of_foot(throttle=blips((0.7, *BEATS[:2]))),
    ),
    "a blip late by more than half the time between": (
        Reason.OFF_BEAT,
        zone_of_foot(throttle=blips((*BEATS[:2], BEATS[2] + 0.51))),
    ),
    "a brake let go, and no blip": (
        Reason.LET_GO,
        zone_of_foot(off(on_line(), BEATS[1]), GONE),
    ),
    "a brake let go, pressed again": (Reason.LET_GO, zone_of_foot(np.where(MIDDLE, 0, on_line()))),
    "a brake let go after the first blip": (
        Reason.LET_GO,
        zone_of_foot(off(on_line(), BEATS[0] + 0.45)),
    ),
    "a brake let go before its last blip, and one blip missing": (
        Reason.LET_GO,
        zone_of_foot(off(on_line(), BEATS[0] + 0.45), blips(BEATS[:2])),
    ),
    "a brake that came off with a blip, pressed again": (
        Reason.LET_GO,
        zone_of_foot(off(on_line(), BEATS[2] + 0.1, BEATS[2] + 0.27)),
    ),
    "a brake that came off with its last blip": (
        Reason.CUT_SHORT,
        zone_of_foot(off(on_line(), BEATS[2] + 0.1)),
    ),
    "a stamp": (
        Reason.HEAVY,
        zone_of_foot(throttle=blips(peak=95.0), asked=with_own(**{"blip.most": 80.0})),
    ),
    "a touch": (Reason.LIGHT, zone_of_foot(throttle=blips(peak=25.0))),
    "a long stab": (Reason.LONG, zone_of_foot(throttle=blips(length=0.65))),
}
"""Zones in which something asked was not done, and what is told of each."""


@pytest.mark.parametrize("case", list(SHORT))
def test_what_was_not_done_is_told_by_its_most_telling_name(case: str) -> None:
    reason, one = SHORT[case]

    assert one.verdict.reason is reason
    assert one.verdict.score == 0


@pytest.mark.parametrize(
    ("name", "brake", "throttle"),
    [
        ("brake_on", on_line(0.28), blips()),
        ("line_worst", on_line() - np.where(between(POINT, TURN_IN - 1), 14.0, 0.0), blips()),
        ("dip", on_line() + bump(-16, BEATS[1], 0.1), blips()),
        ("lateness", on_line(), blips([beat + 0.25 for beat in BEATS])),
        ("off_at", off(on_line(), TURN_IN - 0.5), blips()),
    ],
)
def test_the_part_that_failed_most_is_the_one_that_is_told(
    name: str, brake: Values, throttle: Values
) -> None:
    asked = limited(**({**ZONE.limits} | {"line_worst": 13.0 if name == "line_worst" else 45.0}))

    verdict = zone_of_foot(brake, throttle, asked).verdict

    assert verdict.reason is Reason.OVER_LIMIT
    assert verdict.worst == name


def test_of_two_parts_that_failed_the_one_further_over_its_limit_is_told() -> None:
    dipped = on_line() + bump(-20, BEATS[1], 0.1)
    both = zone_of_foot(
        on_line() + bump(-20, BEATS[1] + 0.2, 0.1), blips([beat + 0.2 for beat in BEATS])
    ).verdict

    assert zone_of_foot(dipped, blips()).verdict.over == ("dip",)
    assert set(both.over) == {"dip", "lateness"}
    # A dip of over 18 is over 1.8 limits, a blip 0.2 s late 1.33.
    assert both.worst == "dip"


def test_a_brake_off_before_turn_in_but_after_its_blips_is_told_by_when_it_was_off() -> None:
    verdict = zone_of_foot(off(on_line(), TURN_IN - 0.5), asked=limited(off_at=0.3)).verdict

    assert (verdict.reason, verdict.worst) == (Reason.OVER_LIMIT, "off_at")
    assert verdict.measures["off_at"] == pytest.approx(-0.5, abs=0.002)


def test_a_blip_that_is_late_after_a_brake_that_came_off_in_time_is_no_brake_let_go() -> None:
    one = zone_of_foot(throttle=blips((*BEATS[:2], TURN_IN + 0.02)))

    assert one.verdict.reason is Reason.OFF_BEAT


@pytest.mark.parametrize(
    ("late", "figure"), [(0.52, ("0.52 s", "after")), (-0.54, ("0.54 s", "before"))]
)
def test_the_figure_of_a_blip_far_from_its_click_says_how_far_and_on_which_side(
    late: float, figure: tuple[str, str]
) -> None:
    one = zone_of_foot(throttle=blips((BEATS[0], BEATS[1] + late, BEATS[2])))

    said = one.level.kind.missed(one.level, one.verdict)

    size, side = figure
    assert said == ("Blip", size, f"{side} its click, one at each was asked")


def test_a_short_dip_to_nothing_in_a_blip_is_a_dip_and_no_brake_let_go() -> None:
    verdict = zone_of_foot(off(on_line(), BEATS[1] + 0.02, BEATS[1] + 0.18)).verdict

    assert (verdict.reason, verdict.worst) == (Reason.OVER_LIMIT, "dip")


def test_a_limit_on_the_line_is_refused_by_name_where_close_blips_leave_too_little_of_it() -> None:
    quick = replace(
        with_own(**{"from": 150.0, "to": 70.0, "shifts": 0.0, "ease": 0.5}),
        listed={"gears": (128.0, 114.0, 100.0, 87.0)},
        limits={"dip": 10.0},
    )
    asked = "none, or blips that leave at least 0.3 s of the line"
    task = quick.kind.task(quick, PEAK, np.random.default_rng(1))
    beats = [task.cues[cue] for cue in task.acts]

    slow = np.minimum(on_line(asked=quick), lines((POINT, 0.0), (POINT + 0.4, PEAK)))

    one = zone_of_foot(slow, blips(beats), quick)

    assert quick.kind.wrong(quick) is None
    for name in OF_THE_LINE:
        limited_too = replace(quick, limits={"dip": 10.0, name: 5.0})
        wrong = quick.kind.wrong(limited_too)
        assert wrong is not None
        assert wrong[:2] == (f"limits.{name}", asked)
        assert 0 <= float(wrong[2].removesuffix(" s")) < LINE_LEAST
    assert one.verdict.measures["line_error"] is None
    assert one.verdict.clean


def test_the_times_are_counted_from_when_the_cues_were_given() -> None:
    one = zone_of_foot(on_line(0.04), blips([beat + 0.04 for beat in BEATS]))
    later = tuple(cue + (40_000_000 if k > 2 else 0) for k, cue in enumerate(one.done.cues))

    measures = replace(one, done=replace(one.done, cues=later)).verdict.measures

    for name in ("brake_on", "lateness", "line_lag"):
        assert measures[name] == pytest.approx(0, abs=0.001)


@pytest.mark.parametrize("given", [4, 5, 6])
def test_cues_that_never_came_are_judged_by_when_they_were_due(given: int) -> None:
    whole, cut = zone_of_foot(on_line(0.1)), zone_of_foot(on_line(0.1), given=given)

    assert cut.verdict == whole.verdict


@pytest.mark.parametrize("name", ["dip", "line_worst", "lateness", "brake_on", "off_at"])
@given(share=st.floats(0.1, 0.8), more=st.floats(0.05, 1.0))
def test_the_score_falls_as_any_measure_grows(name: str, share: float, more: float) -> None:
    def foot(amount: float) -> Made:
        late = {"brake_on": 0.15 * amount}.get(name, 0.0)
        beats = [beat + (0.2 * amount if name == "lateness" else 0.0) for beat in BEATS]
        brake = on_line(late)
        if name == "dip":
            brake = brake + bump(-12 * amount, BEATS[1], 0.1)
        if name == "line_worst":
            brake = brake - np.where(between(POINT, TURN_IN - 1.0), 12 * amount, 0.0)
        if name == "off_at":
            brake = np.where(between(TURN_IN - 0.3, TURN_IN + 0.4 * amount), 24.0, brake)
        return zone_of_foot(brake, blips(beats), limited(**{name: ZONE.limits[name]}))

    less, grown = foot(share).verdict, foot(share + more).verdict

    assert abs(grown.measures[name] or 0) > abs(less.measures[name] or 0)
    assert (grown.score or 0) < (less.score or 0)


def test_the_measured_zone_is_there_for_its_picture() -> None:
    measured = zone_of_foot().judged.measured

    assert isinstance(measured, Zone)
    assert len(measured.beats) == len(BEATS)
    assert measured.point == round((2.0 + POINT) * 1000)
    assert [one for one in zone_of_foot().task.signals if one is Signal.CUE] == [Signal.CUE] * 3


def test_a_brake_that_stays_on_is_no_shortcoming_and_its_end_never_came() -> None:
    brake = np.where(TIME > TURN_IN - 0.3, 24.0, on_line())

    verdict = zone_of_foot(brake, asked=limited(off_at=0.3)).verdict

    assert verdict.reason is Reason.OVER_LIMIT
    assert verdict.measures["off_at"] is None
    assert (verdict.worst, verdict.score) == ("off_at", 100 * 2.0**-4)


def test_a_squeeze_that_never_reaches_its_peak_is_not_judged_by_a_rise_alone() -> None:
    weak = np.minimum(on_line(), lines((POINT, 60.0)))

    verdict = zone_of_foot(weak, asked=limited(rise=0.4, peak_error=10.0)).verdict

    assert set(verdict.over) == {"rise", "peak_error"}
    assert verdict.worst == "peak_error"


def test_the_prompt_of_a_zone_stays_longer_than_the_shorter_one_of_a_squeeze() -> None:
    squeeze = replace(ZONE, kind=KINDS["squeeze"], own={"duration": 1.5})
    rng = np.random.default_rng(1)

    ours, theirs = (level.kind.task(level, PEAK, rng) for level in (ZONE, squeeze))

    assert len(ZONE.kind.prompt(ZONE, ours).then) > len(squeeze.kind.prompt(squeeze, theirs).then)
    assert ours.steady > theirs.steady
